import { Button } from "react-aria-components";
import { makeRack } from "../../editor/edits/racks.ts";
import type { Run } from "../../job/elements/run.ts";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { TextRow } from "../fields/TextRow.tsx";
import { tagWords } from "../tag-words.ts";
import { useChange, useDelete } from "../use-change.ts";
import { useRename } from "../use-rename.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { ElementFindings } from "./ElementFindings.tsx";
import { FactsPart } from "./FactsPart.tsx";
import { VerticesPart } from "./VerticesPart.tsx";
import { WiringRows } from "./WiringRows.tsx";

/** The card of a run: what it is, its vertices with their tags, what the check says of it, its facts. */
export function RunCard({ id, run }: { readonly id: Id; readonly run: Run }) {
  const { session } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const change = useChange("elements", id);
  const rename = useRename("elements", id);
  const remove = useDelete("elements", id);
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
          <TextRow label="Label on the sheet" value={run.label} onCommit={rename} />
          <WiringRows label={run.label} raceway={run} onChange={(name, next) => change(name, () => next)} />
        </div>
      </CardPart>
      <VerticesPart id={id} run={run} />
      <FactsPart facts={run.facts} onChange={(facts) => change(`Record facts of ${run.label}`, { ...run, facts })} />
      <Button
        className="button small"
        onPress={() => {
          if (session.attempt(makeRack(session.getState().job, id))) session.select({ table: "elements", id });
        }}
      >
        Make it a rack of several raceways
      </Button>
      <Button className="button bare" onPress={remove}>
        Delete {run.label}
      </Button>
    </CardFrame>
  );
}
