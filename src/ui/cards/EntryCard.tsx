import { Button } from "react-aria-components";
import { enclosureWords } from "../../check/kinds/entry.ts";
import { entryWords } from "../../issue/kinds/entry.ts";
import type { Entry } from "../../job/elements/entry.ts";
import type { Id } from "../../job/fields.ts";
import { byLabel } from "../by-label.ts";
import { useSession } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { FactRow } from "../fields/FactRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { conductorChoices, insulationChoices, NOT_RECORDED } from "../trade-choices.ts";
import { useChange, useDelete } from "../use-change.ts";
import { useRename } from "../use-rename.ts";
import { capitalised } from "../words.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { ElementFindings } from "./ElementFindings.tsx";
import { EntryProtectionPart } from "./EntryProtectionPart.tsx";
import { PositionRows } from "./PositionRows.tsx";

const WORDS = "words";
const orNull = (id: string): string | null => (id === NOT_RECORDED ? null : id);

/** The card of a conductor entry: which raceway enters what, its conductors, and how they are protected there. */
export function EntryCard({ id, entry }: { readonly id: Id; readonly entry: Entry }) {
  const job = useSession((state) => state.job);
  const change = useChange("elements", id);
  const rename = useRename("elements", id);
  const remove = useDelete("elements", id);
  const set = (name: string, part: Partial<Entry>) => change(`${name} of ${entry.label}`, { ...entry, ...part });
  const { enclosure } = entry;
  const unknown = { id: NOT_RECORDED, label: "Not recorded" };
  const elements = byLabel(job.elements);
  const runs = elements.flatMap(([key, one]) => (one.kind === "run" ? [{ id: key, label: one.label }] : []));
  const boxes = elements.flatMap(([key, one]) => (one.kind === "box" ? [{ id: key, label: one.label }] : []));
  const into = enclosureWords(job, enclosure);
  return (
    <CardFrame kind="Entry" name={entry.label} tag={capitalised(entryWords(entry))}>
      <ElementFindings elementId={id} />
      <CardPart title="What enters what">
        <div className="rows">
          <TextRow label="Label on the sheet" value={entry.label} onCommit={rename} />
          <PositionRows table="elements" id={id} vertex={0} />
          <div className="pair">
            <ChoiceRow
              label="Run"
              value={entry.run ?? NOT_RECORDED}
              options={[unknown, ...runs]}
              onChange={(run) => set("Change the run", { run: orNull(run) })}
            />
            <ChoiceRow
              label="Enters"
              value={enclosure.is === "box" ? enclosure.box : enclosure.is === "words" ? WORDS : NOT_RECORDED}
              options={[unknown, ...boxes, { id: WORDS, label: "Something else" }]}
              onChange={(key) =>
                set("Change the enclosure", {
                  enclosure:
                    key === NOT_RECORDED
                      ? { is: "not-recorded" }
                      : key === WORDS
                        ? { is: "words", words: into ?? "" }
                        : { is: "box", box: key },
                })
              }
            />
          </div>
          {enclosure.is === "words" && (
            <TextRow
              label="Cabinet, enclosure or raceway it enters"
              value={enclosure.words}
              placeholder="Panel LP-2"
              onCommit={(words) => {
                set("Change the enclosure", { enclosure: { is: "words", words: words.trim() } });
                return { ok: true };
              }}
            />
          )}
        </div>
      </CardPart>
      <CardPart title="Conductors">
        <div className="pair">
          <ChoiceRow
            label="Largest conductor"
            value={entry.conductor ?? NOT_RECORDED}
            options={[unknown, ...conductorChoices]}
            onChange={(size) => set("Change the conductor", { conductor: orNull(size) })}
          />
          <ChoiceRow
            label="Insulation"
            value={entry.insulation ?? NOT_RECORDED}
            options={[unknown, ...insulationChoices]}
            onChange={(letters) => set("Change the insulation", { insulation: orNull(letters) })}
          />
        </div>
      </CardPart>
      <EntryProtectionPart
        protection={entry.protection}
        onChange={(protection) => set("Change the protection", { protection })}
      />
      <CardPart title="Facts">
        <div className="rows">
          <FactRow
            label="Raceway held by a locknut or another mechanical fastening"
            value={entry.fastened}
            onChange={(fastened) => set("Record the fastening", { fastened })}
          />
          <FactRow
            label="In place before the conductors are pulled"
            value={entry.beforePulling}
            onChange={(beforePulling) => set("Record the order of work", { beforePulling })}
          />
        </div>
      </CardPart>
      <Button className="button bare" onPress={remove}>
        Delete {entry.label}
      </Button>
    </CardFrame>
  );
}
