import { Button } from "react-aria-components";
import { removeHole } from "../../editor/edits/areas.ts";
import { deleteRecords } from "../../editor/edits/delete-records.ts";
import { rename } from "../../editor/edits/rename.ts";
import type { Id } from "../../job/fields.ts";
import type { Area } from "../../job/schema.ts";
import { useDesk } from "../desk-context.ts";
import { TextRow } from "../fields/TextRow.tsx";
import { useAttempt } from "../use-attempt.ts";
import { AreaClassificationPart } from "./AreaClassificationPart.tsx";
import { AreaDeckPart } from "./AreaDeckPart.tsx";
import { AreaElevationPart } from "./AreaElevationPart.tsx";
import { AreaRoofingPart } from "./AreaRoofingPart.tsx";
import { AreaSurfacePart, useSurface } from "./AreaSurfacePart.tsx";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { Corners } from "./Corners.tsx";

/** The card of a deck area: whether it is a roof, its deck, its elevation, and how the lowest surface follows from it. */
export function AreaCard({ id, area }: { readonly id: Id; readonly area: Area }) {
  const { session } = useDesk();
  const attempt = useAttempt();
  const surface = useSurface(area);
  return (
    <CardFrame
      kind="Deck area"
      name={area.label}
      tag={surface?.known ? `Lowest surface ${surface.explain().value ?? ""}` : "Lowest surface not known"}
    >
      <AreaClassificationPart id={id} area={area} />
      <AreaElevationPart id={id} area={area} />
      <AreaDeckPart id={id} area={area} />
      <AreaSurfacePart area={area} />
      <AreaRoofingPart id={id} area={area} />
      <CardPart title="Outline">
        <p className="quiet">
          {area.outline.length} corners{area.holes.length > 0 ? `, ${area.holes.length} openings cut out` : ""}. Drag a
          corner on the sheet to move it, or open it here.
        </p>
        <Corners table="areas" id={id} />
        <div className="acts">
          <Button
            className="button small"
            onPress={() => session.start({ tool: "outline-area", area: id, part: "outline" })}
          >
            Outline it again
          </Button>
          <Button
            className="button small"
            onPress={() => session.start({ tool: "outline-area", area: id, part: "hole" })}
          >
            Cut out an opening
          </Button>
          {area.holes.length > 0 && (
            <Button
              className="button small"
              onPress={() => attempt((job) => removeHole(job, id, area.holes.length - 1))}
            >
              Fill the last opening
            </Button>
          )}
        </div>
        <TextRow
          label="Label on the sheet"
          value={area.label}
          onCommit={(label) => attempt((job) => rename(job, "areas", id, label))}
        />
      </CardPart>
      <Button
        className="button bare"
        onPress={() => {
          session.select(null);
          attempt((job) => deleteRecords(job, [{ table: "areas", id }]));
        }}
      >
        Delete {area.label}
      </Button>
    </CardFrame>
  );
}
