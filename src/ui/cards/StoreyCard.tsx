import { Button } from "react-aria-components";
import { deleteRecords } from "../../editor/edits/delete-records.ts";
import { rename } from "../../editor/edits/rename.ts";
import { removeStoreyHole, setStanding, speakFor } from "../../editor/edits/storey-outlines.ts";
import { storeyWords } from "../../issue/kinds/storey.ts";
import type { Id } from "../../job/fields.ts";
import { makesOf, outlinesOf, type StoreyOutline } from "../../job/storey-outline.ts";
import { byLabel } from "../by-label.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { TickRow } from "../fields/TickRow.tsx";
import { useAttempt } from "../use-attempt.ts";
import { capitalised, makesChoices, type StandingChoice, standingChoices } from "../words.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { Corners } from "./Corners.tsx";

/** The card of the outline of a storey above: what stands there, and which decks it speaks for. */
export function StoreyCard({ id, storey }: { readonly id: Id; readonly storey: StoreyOutline }) {
  const { session, view } = useDesk();
  const attempt = useAttempt();
  const start = (part: "outline" | "hole") => {
    session.start({ tool: "outline-storey", storey: id, part });
    view.focusSheet();
  };
  return (
    <CardFrame kind="Storey above" name={storey.label} tag={capitalised(storeyWords(storey))}>
      <StandingPart id={id} storey={storey} />
      <DecksPart id={id} storey={storey} />
      <CardPart title="Outline">
        <p className="quiet">
          {storey.outline.length} corners
          {storey.holes.length > 0 ? `, ${storey.holes.length} courts or shafts cut out` : ""}. Drag a corner on the
          sheet to move it, or open it here.
        </p>
        <Corners table="storeyOutlines" id={id} />
        <div className="acts">
          <Button className="button small" onPress={() => start("outline")}>
            Outline it again
          </Button>
          <Button className="button small" onPress={() => start("hole")}>
            Cut out a court or shaft
          </Button>
          {storey.holes.length > 0 && (
            <Button
              className="button small"
              onPress={() => attempt((job) => removeStoreyHole(job, id, storey.holes.length - 1))}
            >
              Fill the last one
            </Button>
          )}
        </div>
        <TextRow
          label="Label on the sheet"
          value={storey.label}
          onCommit={(label) => attempt((job) => rename(job, "storeyOutlines", id, label))}
        />
      </CardPart>
      <Button
        className="button bare"
        onPress={() => {
          session.select(null);
          attempt((job) => deleteRecords(job, [{ table: "storeyOutlines", id }]));
        }}
      >
        Delete {storey.label}
      </Button>
    </CardFrame>
  );
}

function StandingPart({ id, storey }: { readonly id: Id; readonly storey: StoreyOutline }) {
  const attempt = useAttempt();
  const { above, reason, by } = storey;
  const set = (patch: Parameters<typeof setStanding>[2]) => attempt((job) => setStanding(job, id, patch));
  const choose = (choice: StandingChoice) =>
    set({
      above:
        choice === "not-recorded" || choice === "occupied-storey"
          ? { is: choice }
          : { is: "other", what: choice, makes: above.is === "other" ? above.makes : "not-settled" },
    });
  const isOpen = above.is === "other" && above.makes !== "not-settled" && makesOf(storey) === "not-settled";
  return (
    <CardPart title="What stands there?">
      <div className="rows">
        <ChoiceRow
          label="Within the outline, on the deck"
          value={above.is === "other" ? above.what : above.is}
          options={standingChoices}
          onChange={choose}
        />
        {above.is === "other" && (
          <PickRow
            label="It makes the deck below it"
            value={above.makes}
            options={makesChoices}
            onChange={(makes) => set({ above: { ...above, makes } })}
            note={
              isOpen
                ? "Reviewers do not agree about these: it counts as not settled until it is recorded why, and by whose decision."
                : undefined
            }
          />
        )}
        <TextRow label="Because" value={reason} placeholder="Not recorded" onCommit={(text) => set({ reason: text })} />
        <TextRow label="Settled by" value={by} placeholder="Not recorded" onCommit={(text) => set({ by: text })} />
      </div>
    </CardPart>
  );
}

/** Which deck areas it speaks for: on a building of several storeys only a person knows. */
function DecksPart({ id, storey }: { readonly id: Id; readonly storey: StoreyOutline }) {
  const attempt = useAttempt();
  const areas = useSession((state) => state.job.areas);
  return (
    <CardPart title="On which deck?">
      <fieldset className="layers">
        <legend>It stands on, and speaks for</legend>
        {byLabel(areas).map(([key, area]) => (
          <TickRow
            key={key}
            label={area.label}
            isSelected={outlinesOf(area.classification).includes(id)}
            onChange={(speaks) => attempt((job) => speakFor(job, id, key, speaks))}
          />
        ))}
        {Object.keys(areas).length === 0 && <p className="quiet">No deck area is outlined yet.</p>}
      </fieldset>
      <p className="quiet">
        A deck area ticked here follows from the storeys above: floor under {storey.label} as settled, roof where
        nothing stands on it.
      </p>
    </CardPart>
  );
}
