import { pickedIn, selectionOf } from "../../editor/selection.ts";
import { storeyWords } from "../../issue/kinds/storey.ts";
import type { Area } from "../../job/schema.ts";
import { makesOf, outlinesOf } from "../../job/storey-outline.ts";
import { type Length, toInches, type UnitSystem } from "../../units/length.ts";
import { ActButton } from "../ActButton.tsx";
import { byLabel } from "../by-label.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { shownLength } from "../fields/LengthRow.tsx";
import { MirrorList } from "../MirrorList.tsx";
import { useGoTo } from "../use-go-to.ts";
import { capitalised, classificationChoices } from "../words.ts";
import { Lacking } from "./Lacking.tsx";
import { RoomMapPart } from "./RoomMapPart.tsx";
import { SaidPart } from "./SaidPart.tsx";

/** The Roof stage: outline the deck areas, say what each is and how high it lies. */
export function RoofStage() {
  const { session } = useDesk();
  const goTo = useGoTo();
  const system = useSystem();
  const areas = useSession((state) => state.job.areas);
  const storeys = useSession((state) => state.job.storeyOutlines);
  const selection = useSession((state) => state.selection);
  const selected = selection && "table" in selection && selection.table === "areas" ? selection.id : null;
  const several = pickedIn(selection, "areas");
  return (
    <>
      <div className="acts">
        <ActButton id="outline-area" main={Object.keys(areas).length === 0} />
        <ActButton id="take-region" />
        <ActButton id="outline-storey" />
      </div>
      <Lacking stage="roof" />
      <SaidPart />
      <section className="block">
        <h3>Deck areas</h3>
        <MirrorList
          label="Deck areas"
          empty="No deck area yet. Outline what lies above the wiring: roof and floor decks alike."
          selected={selected}
          several={several}
          onSelectSeveral={(ids) => session.select(selectionOf(ids.map((id) => ({ table: "areas", id }))))}
          onSelect={(id) => {
            session.select({ table: "areas", id });
            goTo({ table: "areas", id });
          }}
          items={byLabel(areas).map(([id, area]) => {
            const height = elevationState(area, system);
            const is = classificationChoices.find((choice) => choice.id === area.classification.is)?.label ?? "";
            return {
              id,
              name: area.label,
              end: <span className={area.classification.is === "not-settled" ? "lack" : ""}>{is}</span>,
              more: <span className={height.lacks ? "lack" : ""}>{height.words}</span>,
              said: `${area.label}, ${is}, ${height.words}`,
            };
          })}
        />
      </section>
      <RoomMapPart />
      {Object.keys(storeys).length > 0 && (
        <section className="block">
          <h3>Storeys above</h3>
          <MirrorList
            label="Storeys above"
            empty=""
            selected={selection && "table" in selection && selection.table === "storeyOutlines" ? selection.id : null}
            onSelect={(id) => {
              session.select({ table: "storeyOutlines", id });
              goTo({ table: "storeyOutlines", id });
            }}
            items={byLabel(storeys).map(([id, storey]) => {
              const words = capitalised(storeyWords(storey));
              const below = byLabel(areas).filter(([, area]) => outlinesOf(area.classification).includes(id));
              const decks =
                below.length > 0 ? `On ${below.map(([, { label }]) => label).join(", ")}` : "On no deck yet";
              return {
                id,
                name: storey.label,
                end: <span className={makesOf(storey) === "not-settled" ? "lack" : ""}>{words}</span>,
                more: <span className={below.length === 0 ? "lack" : ""}>{decks}</span>,
                said: `${storey.label}, ${words}, ${decks}`,
              };
            })}
          />
        </section>
      )}
    </>
  );
}

const lower = (a: Length, b: Length): Length => (toInches(a) <= toInches(b) ? a : b);

/** The elevation of an area in one line. */
function elevationState({ elevation }: Area, system: UnitSystem): { readonly words: string; readonly lacks: boolean } {
  const { shape } = elevation;
  const given = shape.is === "spots" ? shape.spots.map((spot) => spot.elevation) : [shape.at];
  const known = given.filter((length) => length !== null);
  if (known.length < given.length || known.length === 0) return { words: "No elevation yet", lacks: true };
  if (known.length > 3) {
    const [low, high] = [known.reduce(lower), known.reduce((a, b) => (lower(a, b) === a ? b : a))];
    return {
      words: `${known.length} spots, ${shownLength(low, system)} to ${shownLength(high, system)}`,
      lacks: false,
    };
  }
  const figures = known.map((length) => shownLength(length, system)).join(", ");
  return { words: shape.is === "slope" ? `${figures}, falls ${shape.text}` : figures, lacks: false };
}
