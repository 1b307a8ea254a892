import { setElevation } from "../../editor/edits/areas.ts";
import type { Id } from "../../job/fields.ts";
import type { Area } from "../../job/schema.ts";
import { useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { datumKey, datumOf, useDatums } from "../fields/TagFields.tsx";
import { useAttempt } from "../use-attempt.ts";
import { deckBasisChoices } from "../words.ts";
import { AreaLayers } from "./AreaLayers.tsx";
import { AreaShapeFields } from "./AreaShapeFields.tsx";
import { CardPart } from "./CardFrame.tsx";

/** The elevation of a deck as the drawing gives it: to which surface, from what, and how the deck lies. */
export function AreaElevationPart({ id, area }: { readonly id: Id; readonly area: Area }) {
  const system = useSystem();
  const attempt = useAttempt();
  const datums = useDatums();
  const { elevation } = area;
  const set = (change: Partial<Area["elevation"]>) => attempt((job) => setElevation(job, id, change));
  return (
    <CardPart title="Elevation as given">
      <div className="rows">
        <ChoiceRow
          label="Given to"
          value={elevation.basis}
          options={deckBasisChoices}
          onChange={(basis) => set({ basis })}
        />
        <ChoiceRow
          label="Counted from"
          value={datumKey(elevation.datum)}
          options={datums}
          onChange={(key) => {
            const datum = datumOf(key);
            if (datum.from !== "below-deck") set({ datum });
          }}
        />
        <AreaShapeFields id={id} shape={elevation.shape} />
        {(elevation.basis === "top-of-slab" || elevation.basis === "top-of-roofing" || elevation.layers.length > 0) && (
          <AreaLayers layers={elevation.layers} onChange={(layers) => set({ layers })} />
        )}
        <LengthRow
          label="May be off, each way"
          value={elevation.plusMinus}
          system={system}
          empty="The job's tolerance"
          onCommit={(plusMinus) => set({ plusMinus })}
        />
      </div>
    </CardPart>
  );
}
