import type { ReactNode } from "react";
import { findingKeyText, isSameFinding } from "../check/finding.ts";
import type { Element, ElementKind } from "../job/elements/element.ts";
import { AreaCard } from "./cards/AreaCard.tsx";
import { BoxCard } from "./cards/BoxCard.tsx";
import { EntryCard } from "./cards/EntryCard.tsx";
import { FindingCard } from "./cards/FindingCard.tsx";
import { FittingCard } from "./cards/FittingCard.tsx";
import { NoteCard } from "./cards/NoteCard.tsx";
import { RackCard } from "./cards/RackCard.tsx";
import { RunCard } from "./cards/RunCard.tsx";
import { SeveralCard } from "./cards/SeveralCard.tsx";
import { StoreyCard } from "./cards/StoreyCard.tsx";
import { ViewportCard } from "./cards/ViewportCard.tsx";
import { useSession } from "./desk-context.ts";

/** The card of every kind of element; a new kind is one line here. */
const elementCards: { readonly [K in ElementKind]: (id: string, element: Extract<Element, { kind: K }>) => ReactNode } =
  {
    run: (id, run) => <RunCard key={id} id={id} run={run} />,
    rack: (id, rack) => <RackCard key={id} id={id} rack={rack} />,
    box: (id, box) => <BoxCard key={id} id={id} box={box} />,
    fitting: (id, fitting) => <FittingCard key={id} id={id} fitting={fitting} />,
    entry: (id, entry) => <EntryCard key={id} id={id} entry={entry} />,
  };

const elementCard = <K extends ElementKind>(id: string, element: Extract<Element, { kind: K }>): ReactNode =>
  elementCards[element.kind as K](id, element);

/** The card of what is selected; nothing while nothing is. */
export function Card() {
  const selection = useSession((state) => state.selection);
  const job = useSession((state) => state.job);
  const result = useSession((state) => state.result);
  if (selection === null) return null;
  if ("finding" in selection) {
    const { elementId } = selection.finding;
    const finding = result?.findings.find((one) => isSameFinding(one, selection.finding));
    if (finding) return <FindingCard key={findingKeyText(finding)} finding={finding} />;
    // The finding went away with the last edit: what it was about is still of interest.
    const element = job.elements[elementId];
    return element ? elementCard(elementId, element) : null;
  }
  if ("several" in selection) return <SeveralCard several={selection.several} />;
  const { table, id } = selection;
  if (table === "elements") {
    const element = job.elements[id];
    return element ? elementCard(id, element) : null;
  }
  if (table === "areas") {
    const area = job.areas[id];
    return area ? <AreaCard key={id} id={id} area={area} /> : null;
  }
  if (table === "storeyOutlines") {
    const storey = job.storeyOutlines[id];
    return storey ? <StoreyCard key={id} id={id} storey={storey} /> : null;
  }
  if (table === "notes") {
    const note = job.notes[id];
    return note ? <NoteCard key={id} id={id} note={note} /> : null;
  }
  const viewport = job.viewports[id];
  return viewport ? <ViewportCard key={id} id={id} viewport={viewport} /> : null;
}
