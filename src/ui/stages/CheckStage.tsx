import { Button, ToggleButton } from "react-aria-components";
import { useStore } from "zustand";
import { type Finding, findingKey, findingKeyText, VERDICTS, type Verdict } from "../../check/finding.ts";
import { distanceWords, stretchWords } from "../../issue/finding-sentence.ts";
import { amendmentWords } from "../../issue/rule-words.ts";
import { findRuleSet } from "../../rules/rule-sets.ts";
import type { UnitSystem } from "../../units/length.ts";
import type { Problem } from "../../units/problem.ts";
import { Cautions } from "../Cautions.tsx";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { later } from "../later.tsx";
import { lineOf } from "../line-of.ts";
import { type MirrorItem, MirrorList } from "../MirrorList.tsx";
import { problemWords } from "../problem-words.ts";
import { useGoTo } from "../use-go-to.ts";
import { VerdictSymbol } from "../VerdictSymbol.tsx";
import { capitalised, findingWords, verdictWords } from "../words.ts";
import { Advice } from "./Advice.tsx";
import { Lacking } from "./Lacking.tsx";
import { NotesPart } from "./NotesPart.tsx";

const OtherEdition = later(() => import("./OtherEdition.tsx").then((part) => part.OtherEdition));

/** The Check stage: how many of each verdict, every finding with its way to the spot, and what is doubtful in the job itself. */
export function CheckStage() {
  const { view } = useDesk();
  const result = useSession((state) => state.result);
  const checking = useSession((state) => state.checking);
  const stopped = useSession((state) => state.stopped);
  const settings = useSession((state) => state.job.settings);
  const { edition, editionBy } = settings.job;
  const hidden = useStore(view.store, (state) => state.hidden);
  const set = findRuleSet(edition);
  if (!result)
    return (
      <>
        <p className="quiet">{checking ? "Being checked…" : stopped ? "Not checked." : "Nothing to check yet."}</p>
        <NotesPart />
      </>
    );
  return (
    <>
      <p className="quiet">
        {set ? `By ${set.code}, ${set.edition} edition, ${set.section}` : "No rule edition chosen"}
        {editionBy ? `, as decided by ${editionBy}` : ""}.{checking ? " Being checked again…" : ""}
      </p>
      {amendmentWords({ settings }).map((words) => (
        <p className="quiet" key={words}>
          Amended: {words}.
        </p>
      ))}
      <Counts counts={result.counts} hidden={hidden} />
      <Lacking stage="check" />
      <Notices notices={result.notices} />
      <Findings hidden={hidden} />
      <NotesPart />
      <Advice />
      <OtherEdition />
      <Cautions />
    </>
  );
}

/** What is doubtful in the job itself, behind one line, so that the findings stay in sight under it. */
function Notices({ notices }: { readonly notices: readonly Problem[] }) {
  if (notices.length === 0) return null;
  return (
    <details className="notices">
      <summary>{notices.length === 1 ? "1 doubt" : `${notices.length} doubts`} about the job itself</summary>
      {notices.map((notice) => (
        <Notice key={`${notice.code}:${notice.where}:${problemWords(notice)}`} notice={notice} />
      ))}
    </details>
  );
}

/** One doubt, with the way to the place where it has one. */
function Notice({ notice }: { readonly notice: Problem }) {
  const goTo = useGoTo();
  const { sheet, x, y } = notice.params;
  return (
    <p className="notice">
      {problemWords(notice)}
      {typeof sheet === "string" && typeof x === "number" && typeof y === "number" && (
        <>
          {" "}
          <Button className="button small" onPress={() => goTo({ sheet, at: [x, y] })}>
            Show it
          </Button>
        </>
      )}
    </p>
  );
}

function Counts({ counts, hidden }: { counts: Readonly<Record<Verdict, number>>; hidden: readonly Verdict[] }) {
  const { view } = useDesk();
  return (
    <fieldset className="counts">
      <legend className="unseen">Verdicts shown in the list</legend>
      {VERDICTS.filter((verdict) => counts[verdict] > 0).map((verdict) => (
        <ToggleButton
          key={verdict}
          className="count"
          isSelected={!hidden.includes(verdict)}
          onChange={(shown) =>
            view.store.setState({ hidden: shown ? hidden.filter((one) => one !== verdict) : [...hidden, verdict] })
          }
        >
          <VerdictSymbol verdict={verdict} size="1.75rem" />
          <b>{counts[verdict]}</b>
          <span className="count-word">{verdictWords[verdict]}</span>
        </ToggleButton>
      ))}
    </fieldset>
  );
}

function Findings({ hidden }: { hidden: readonly Verdict[] }) {
  const { session } = useDesk();
  const goTo = useGoTo();
  const system = useSystem();
  const findings = useSession((state) => state.result?.findings ?? NONE);
  const selection = useSession((state) => state.selection);
  const selected = selection && "finding" in selection ? findingKeyText(selection.finding) : null;
  const all = findings.filter((finding) => !hidden.includes(finding.verdict));
  // What needs attention first, in the order of its numbers.
  const shown = [...all.filter(({ number }) => number !== null), ...all.filter(({ number }) => number === null)];
  return (
    <section className="block">
      <h3>
        Findings <small>{shown.length < findings.length ? `${shown.length} of ${findings.length}` : ""}</small>
      </h3>
      <MirrorList
        label="Findings"
        empty={
          findings.length === 0
            ? "Nothing has been checked: there is no wiring yet."
            : "All findings are left out above."
        }
        selected={selected}
        onSelect={(key) => {
          const finding = findings.find((one) => findingKeyText(one) === key);
          if (!finding) return;
          session.select({ finding: findingKey(finding) });
          goTo({ sheet: finding.sheet, at: finding.at });
        }}
        items={shown.map((finding) =>
          lineOf(finding, findingKeyText(finding), [system], () => findingLine(finding, system)),
        )}
      />
    </section>
  );
}

/** A finding in a line of the list. */
function findingLine(finding: Finding, system: UnitSystem): Omit<MirrorItem, "id"> {
  const words = [capitalised(stretchWords(finding, system)), distanceWords(finding, system)].filter(Boolean).join(". ");
  return {
    name: finding.number === null ? finding.element : `${finding.number} · ${finding.element}`,
    mark: <VerdictSymbol verdict={finding.verdict} />,
    end: findingWords(finding),
    more: words === "" ? <FirstReason finding={finding} /> : words,
    said: `${finding.number === null ? "" : `Number ${finding.number}, `}${finding.element}, ${findingWords(finding)}. ${words}`,
  };
}

/** What a finding comes down to: worked out only while its line is in the list. */
function FirstReason({ finding }: { readonly finding: Finding }) {
  return <>{finding.reasons.text}</>;
}

const NONE: readonly never[] = [];
