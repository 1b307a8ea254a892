import { useMemo } from "react";
import { type Element, type ElementKind, tagsOf } from "../../job/elements/element.ts";
import { findBoxKind } from "../../trade/boxes.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import { ActButton } from "../ActButton.tsx";
import { byLabel } from "../by-label.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { MirrorList } from "../MirrorList.tsx";
import { tagWords } from "../tag-words.ts";
import { useGoTo } from "../use-go-to.ts";
import { VerdictSymbol } from "../VerdictSymbol.tsx";
import { verdictWords } from "../words.ts";
import { worstByElement } from "../worst-by-element.ts";
import { Lacking } from "./Lacking.tsx";
import { NextRun } from "./NextRun.tsx";
import { SaidPart } from "./SaidPart.tsx";
import { SelectedActs } from "./SelectedActs.tsx";
import { SeveralPart } from "./SeveralPart.tsx";

/** What an element is, in a few words; a new kind is one line here. */
const whatItIs: { readonly [K in ElementKind]: (element: Extract<Element, { kind: K }>) => string } = {
  run: ({ wiring }) => `${findRacewayKind(wiring.type)?.short ?? wiring.type} ${wiring.tradeSize}`,
  rack: ({ raceways }) => `Rack of ${raceways.length}`,
  box: ({ item }) => findBoxKind(item)?.label ?? "Box",
  entry: ({ conductor }) => (conductor === null ? "Conductor entry" : `Entry, ${conductor}`),
  fitting: ({ tradeSize }) => `Conduit body ${tradeSize}`,
};
const describe = <K extends ElementKind>(element: Extract<Element, { kind: K }>): string =>
  whatItIs[element.kind as K](element);

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
          onSelect={(id) => {
            session.select({ table: "elements", id });
            goTo({ table: "elements", id });
          }}
          items={byLabel(job.elements).map(([id, element]) => {
            const verdict = worst.get(id);
            const tags = tagsOf(element);
            const tag = tags.find((one) => one.tag !== null)?.tag ?? null;
            // A kind without an elevation has no room for a tag, and lacks none.
            const words = tags.length === 0 ? "" : tagWords(tag, job, system);
            return {
              id,
              name: element.label,
              mark: verdict ? <VerdictSymbol verdict={verdict} labelled /> : <span className="no-symbol" />,
              end: describe(element),
              more: words === "" ? undefined : <span className={tag ? "" : "lack"}>{words}</span>,
              said: `${element.label}, ${describe(element)}, ${words}${verdict ? `, ${verdictWords[verdict]}` : ""}`,
            };
          })}
        />
      </section>
      <SeveralPart />
    </>
  );
}
