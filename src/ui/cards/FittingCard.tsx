import { Button } from "react-aria-components";
import type { Fitting } from "../../job/elements/fitting.ts";
import type { Id } from "../../job/fields.ts";
import { findConduitBody } from "../../trade/fittings.ts";
import { formatLength } from "../../units/format-length.ts";
import { type Inches, inches } from "../../units/quantity.ts";
import { useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { TagFields } from "../fields/TagFields.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { tagWords } from "../tag-words.ts";
import { fittingChoices, fittingSizeChoices } from "../trade-choices.ts";
import { useChange, useDelete } from "../use-change.ts";
import { useRename } from "../use-rename.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { ElementFindings } from "./ElementFindings.tsx";
import { FactsPart } from "./FactsPart.tsx";
import { SizeRows, TurnRow } from "./PlaceFields.tsx";
import { PositionRows } from "./PositionRows.tsx";

/** The card of a conduit body or other fitting. */
export function FittingCard({ id, fitting }: { readonly id: Id; readonly fitting: Fitting }) {
  const system = useSystem();
  const job = useSession((state) => state.job);
  const change = useChange("elements", id);
  const rename = useRename("elements", id);
  const remove = useDelete("elements", id);
  const body = fitting.item === "other" ? undefined : findConduitBody(fitting.tradeSize);
  const set = (name: string, part: Partial<Fitting>) => change(`${name} of ${fitting.label}`, { ...fitting, ...part });
  const show = (length: Inches | undefined) => formatLength(length ?? inches(0), system);
  const inch = (length: Inches | undefined) => ({ value: length ?? 2, unit: "in" as const });
  return (
    <CardFrame kind="Fitting" name={fitting.label} tag={tagWords(fitting.tag, job, system)}>
      <ElementFindings elementId={id} />
      <CardPart title="Elevation tag">
        <TagFields
          tag={fitting.tag}
          storey={job.viewports[fitting.viewport]?.storey ?? null}
          onChange={(tag) => set("Change the tag", { tag })}
        />
      </CardPart>
      <CardPart title="Fitting">
        <div className="rows">
          <TextRow label="Label on the sheet" value={fitting.label} onCommit={rename} />
          <div className="pair">
            <ChoiceRow
              label="Fitting"
              value={fitting.item}
              options={fittingChoices}
              onChange={(item) => set("Change the kind", { item })}
            />
            <ChoiceRow
              label="Trade size"
              value={fitting.tradeSize}
              options={fittingSizeChoices}
              onChange={(tradeSize) => set("Change the size", { tradeSize })}
            />
          </div>
          <SizeRows
            names={{ width: "Width", length: "Length", height: "Height" }}
            size={fitting.size}
            table={
              body && {
                width: show(body.width.value),
                length: show(body.length.value),
                height: show(body.depth.value),
              }
            }
            fallback={{
              width: inch(body?.width.value),
              length: inch(body?.length.value),
              height: inch(body?.depth.value),
            }}
            onChange={(size) => set("Change the size", { size })}
          />
          <PositionRows table="elements" id={id} vertex={0} />
          <TurnRow value={fitting.rotationDeg} onCommit={(rotationDeg) => set("Turn", { rotationDeg })} />
        </div>
      </CardPart>
      <FactsPart facts={fitting.facts} onChange={(facts) => set("Record facts", { facts })} />
      <Button className="button bare" onPress={remove}>
        Delete {fitting.label}
      </Button>
    </CardFrame>
  );
}
