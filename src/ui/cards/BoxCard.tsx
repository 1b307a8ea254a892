import { Button } from "react-aria-components";
import type { Box } from "../../job/elements/box.ts";
import type { Id } from "../../job/fields.ts";
import { findBoxKind } from "../../trade/boxes.ts";
import { formatLength } from "../../units/format-length.ts";
import { type Inches, inches } from "../../units/quantity.ts";
import { useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { TagFields } from "../fields/TagFields.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { tagWords } from "../tag-words.ts";
import { boxChoices } from "../trade-choices.ts";
import { useChange, useDelete } from "../use-change.ts";
import { useRename } from "../use-rename.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { ElementFindings } from "./ElementFindings.tsx";
import { FactsPart } from "./FactsPart.tsx";
import { SizeRows, TurnRow } from "./PlaceFields.tsx";
import { PositionRows } from "./PositionRows.tsx";

/** The card of a box: which, how its cover faces, its tag, what the check says of it, its facts. */
export function BoxCard({ id, box }: { readonly id: Id; readonly box: Box }) {
  const system = useSystem();
  const job = useSession((state) => state.job);
  const change = useChange("elements", id);
  const rename = useRename("elements", id);
  const remove = useDelete("elements", id);
  const kind = findBoxKind(box.item);
  const set = (name: string, part: Partial<Box>) => change(`${name} of ${box.label}`, { ...box, ...part });
  const show = (length: Inches | undefined) => formatLength(length ?? inches(0), system);
  const inch = (length: Inches | undefined) => ({ value: length ?? 4, unit: "in" as const });
  return (
    <CardFrame kind="Box" name={box.label} tag={tagWords(box.tag, job, system)}>
      <ElementFindings elementId={id} />
      <CardPart title="Elevation tag">
        <TagFields
          tag={box.tag}
          storey={job.viewports[box.viewport]?.storey ?? null}
          onChange={(tag) => set("Change the tag", { tag })}
        />
      </CardPart>
      <CardPart title="Box">
        <div className="rows">
          <TextRow label="Label on the sheet" value={box.label} onCommit={rename} />
          <ChoiceRow
            label="Box"
            value={box.item}
            options={boxChoices}
            onChange={(item) => set("Change the kind", { item })}
          />
          <SizeRows
            names={{ width: "Width", length: "Length", depth: "Depth" }}
            size={box.size}
            table={
              kind && {
                width: show(kind.width.value),
                length: show(kind.length.value),
                depth: show(kind.depth.value),
              }
            }
            fallback={{
              width: inch(kind?.width.value),
              length: inch(kind?.length.value),
              depth: inch(kind?.depth.value),
            }}
            onChange={(size) => set("Change the size", { size })}
          />
          <PickRow
            label="Cover faces"
            value={box.cover}
            options={[
              { id: "down", label: "Down" },
              { id: "sideways", label: "Sideways" },
            ]}
            onChange={(cover) => set("Turn the cover", { cover })}
          />
          <PositionRows table="elements" id={id} vertex={0} />
          <TurnRow value={box.rotationDeg} onCommit={(rotationDeg) => set("Turn", { rotationDeg })} />
        </div>
      </CardPart>
      <FactsPart facts={box.facts} onChange={(facts) => set("Record facts", { facts })} />
      <Button className="button bare" onPress={remove}>
        Delete {box.label}
      </Button>
    </CardFrame>
  );
}
