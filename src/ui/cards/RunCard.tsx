import { Button } from "react-aria-components";
import type { Run } from "../../job/elements/run.ts";
import type { Id } from "../../job/fields.ts";
import { findRacewayKind, findRacewaySize } from "../../trade/raceways.ts";
import { formatLength } from "../../units/format-length.ts";
import { useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { tagWords } from "../tag-words.ts";
import { allRacewayChoices, sizeChoices } from "../trade-choices.ts";
import { useChange, useDelete } from "../use-change.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { ElementFindings } from "./ElementFindings.tsx";
import { FactsPart } from "./FactsPart.tsx";
import { VerticesPart } from "./VerticesPart.tsx";

/** The card of a run: what it is, its vertices with their tags, what the check says of it, its facts. */
export function RunCard({ id, run }: { readonly id: Id; readonly run: Run }) {
  const system = useSystem();
  const job = useSession((state) => state.job);
  const change = useChange("elements", id);
  const remove = useDelete("elements", id, `Delete ${run.label}`);
  const { type, tradeSize, outsideDiameter } = run.wiring;
  const kind = findRacewayKind(type);
  const row = findRacewaySize(type, tradeSize);
  const wire = (name: string, wiring: Partial<Run["wiring"]>) =>
    change(name, { ...run, wiring: { ...run.wiring, ...wiring } });
  const tagged = [...new Set(run.vertices.map((vertex) => tagWords(vertex.tag, job, system)))];
  return (
    <CardFrame
      kind="Run"
      name={run.label}
      tag={tagged.length === 1 ? tagged[0] : `${tagged[0]} to ${tagged[tagged.length - 1]}`}
    >
      <ElementFindings elementId={id} />
      <CardPart title="Wiring">
        <div className="rows">
          <TextRow
            label="Label on the sheet"
            value={run.label}
            onCommit={(label) => {
              if (label.trim() === "") return { ok: false, words: "A run needs a label." };
              change(`Rename ${run.label}`, { ...run, label: label.trim() });
              return { ok: true };
            }}
          />
          <div className="pair">
            <ChoiceRow
              label="Type"
              value={type}
              options={allRacewayChoices}
              onChange={(next) => {
                const sizes = findRacewayKind(next)?.sizes ?? [];
                const size = sizes.some((one) => one.size === tradeSize) ? tradeSize : (sizes[0]?.size ?? "");
                wire(`Change the type of ${run.label}`, { type: next, tradeSize: size, outsideDiameter: null });
              }}
            />
            <ChoiceRow
              label={kind?.elementClass === "cable" ? "Size" : "Trade size"}
              value={tradeSize}
              options={sizeChoices(type)}
              onChange={(next) => wire(`Change the size of ${run.label}`, { tradeSize: next, outsideDiameter: null })}
            />
          </div>
          <LengthRow
            label="Outside diameter"
            value={outsideDiameter}
            system={system}
            empty={row ? `${formatLength(row.outside.value, system)} by the table` : "Not in the table"}
            note={kind?.variesByMaker ? "Differs by maker: give the one used." : undefined}
            onCommit={(length) => wire(`Change the diameter of ${run.label}`, { outsideDiameter: length })}
          />
        </div>
      </CardPart>
      <VerticesPart id={id} run={run} />
      <FactsPart facts={run.facts} onChange={(facts) => change(`Record facts of ${run.label}`, { ...run, facts })} />
      <Button className="button bare" onPress={remove}>
        Delete {run.label}
      </Button>
    </CardFrame>
  );
}
