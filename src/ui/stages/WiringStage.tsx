import { useMemo } from "react";
import type { Verdict } from "../../check/finding.ts";
import { pickedIn, selectionOf } from "../../editor/selection.ts";
import { type Element, tagsOf } from "../../job/elements/element.ts";
import type { Job } from "../../job/schema.ts";
import type { UnitSystem } from "../../units/length.ts";
import { ActButton } from "../ActButton.tsx";
import { idsByLabel } from "../by-label.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { lineOf } from "../line-of.ts";
import { type MirrorItem, MirrorList } from "../MirrorList.tsx";
import { tagWords } from "../tag-words.ts";
import { useGoTo } from "../use-go-to.ts";
import { VerdictSymbol } from "../VerdictSymbol.tsx";
import { whatItIs } from "../what-it-is.ts";
import { verdictWords } from "../words.ts";
import { worstByElement } from "../worst-by-element.ts";
import { Lacking } from "./Lacking.tsx";
import { NextRun } from "./NextRun.tsx";
import { SaidPart } from "./SaidPart.tsx";
import { SelectedActs } from "./SelectedActs.tsx";
import { SeveralPart } from "./SeveralPart.tsx";

/** An element in a line of the list. */
function wiringLine(
  element: Element,
  verdict: Verdict | undefined,
  job: Job,
  system: UnitSystem,
): Omit<MirrorItem, "id"> {
  const tags = tagsOf(element);
  const tag = tags.find((one) => one.tag !== null)?.tag ?? null;
  // A kind without an elevation has no room for a tag, and lacks none.
  const words = tags.length === 0 ? "" : tagWords(tag, job, system);
  return {
    name: element.label,
    mark: verdict ? <VerdictSymbol verdict={verdict} labelled /> : <span className="no-symbol" />,
    end: whatItIs(element),
    more: words === "" ? undefined : <span className={tag ? "" : "lack"}>{words}</span>,
    said: `${element.label}, ${whatItIs(element)}, ${words}${verdict ? `, ${verdictWords[verdict]}` : ""}`,
  };
}

/** The Wiring stage: trace runs, place boxes and fittings, each with its elevation tag. */
export function WiringStage() {
  const { session } = useDesk();
  const goTo = useGoTo();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const result = useSession((state) => state.result);
  const selection = useSession((state) => state.selection);
  const worst = useMemo(() => worstByElement(result), [result]);
  const selected =
    selection && "table" in selection && selection.table === "elements"
      ? selection.id
      : selection && "finding" in selection
        ? selection.finding.elementId
        : null;
  const several = useMemo(() => pickedIn(selection, "elements"), [selection]);
  // What is selected changes no line.
  const items = useMemo(
    () =>
      idsByLabel(job, "elements").map((id) => {
        const element = job.elements[id]!;
        const verdict = worst.get(id);
        return lineOf(element, id, [verdict, system, job.storeys], () => wiringLine(element, verdict, job, system));
      }),
    [job, system, worst],
  );
  return (
    <>
      <div className="acts">
        <ActButton id="trace-run" main={Object.keys(job.elements).length === 0} />
        <ActButton id="follow-line" />
        <ActButton id="make-rack" />
        <ActButton id="trace-rack" />
        <ActButton id="place-box" />
        <ActButton id="place-fitting" />
        <ActButton id="place-entry" />
        <SelectedActs />
        <ActButton id="measure" />
      </div>
      <NextRun />
      <Lacking stage="wiring" />
      <SaidPart />
      <section className="block">
        <h3>Wiring</h3>
        <MirrorList
          label="Wiring"
          empty="Nothing traced yet."
          selected={selected}
          several={several}
          onSelectSeveral={(ids) => session.select(selectionOf(ids.map((id) => ({ table: "elements", id }))))}
          onSelect={(id) => {
            session.select({ table: "elements", id });
            goTo({ table: "elements", id });
          }}
          items={items}
        />
      </section>
      <SeveralPart />
    </>
  );
}
