import { useMemo, useState } from "react";
import { checkJob } from "../../check/check-job.ts";
import type { Verdict } from "../../check/finding.ts";
import { verdictChanges } from "../../check/verdict-changes.ts";
import { findRuleSet, ruleSets } from "../../rules/rule-sets.ts";
import { useSession } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { problemWords } from "../problem-words.ts";
import { counted, verdictWords } from "../words.ts";

/** What another edition would change for the whole job, and why; asked for, not computed along. Local amendments stay. */
export function OtherEdition() {
  const job = useSession((state) => state.job);
  const result = useSession((state) => state.result);
  const own = job.settings.job.edition;
  const [other, setOther] = useState<string | null>(null);
  const compared = useMemo(() => {
    if (other === null || other === own || !result) return undefined;
    const there = checkJob({ ...job, settings: { job: { ...job.settings.job, edition: other } } });
    const here = new Set(result.notices.map(problemWords));
    // Such as an amendment that strikes an exception the other edition does not have.
    const notices = there.notices.map(problemWords).filter((words) => !here.has(words));
    return { changes: verdictChanges(result, there), notices };
  }, [job, result, other, own]);
  const changes = compared?.changes;
  const words = (verdicts: readonly Verdict[]) =>
    verdicts.map((verdict) => verdictWords[verdict]).join(" and ") || "None";
  const name = other === null ? "" : (findRuleSet(other)?.edition ?? other);
  return (
    <section className="block">
      <h3>Under another edition</h3>
      <ChoiceRow
        label="What would change under"
        value={other === own ? null : other}
        placeholder="Choose an edition"
        options={ruleSets
          .filter(({ id }) => id !== own)
          .map(({ id, code, edition, section }) => ({ id, label: `${code}, ${edition} edition`, note: section }))}
        onChange={setOther}
      />
      {changes && (
        <div role="status">
          {compared.notices.map((words) => (
            <p className="notice" key={words}>
              {words}
            </p>
          ))}
          {changes.length === 0 ? (
            <p className="quiet">No verdict would change.</p>
          ) : (
            <>
              <p className="quiet">
                {counted(changes.length, "element")} would come off differently under the {name} edition.
              </p>
              <ul className="changes">
                {changes.map(({ elementId, element, before, after, whyBefore, whyAfter }) => (
                  <li key={elementId}>
                    <b>{element}</b> {words(before)} → {words(after)}
                    <p className="quiet">
                      {findRuleSet(own)?.edition ?? own}: {whyBefore.join(". ")}.
                    </p>
                    <p className="quiet">
                      {name}: {whyAfter.join(". ")}.
                    </p>
                  </li>
                ))}
              </ul>
            </>
          )}
        </div>
      )}
    </section>
  );
}
