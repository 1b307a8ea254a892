import { useEffect, useState } from "react";
import type { Verdict } from "../../check/finding.ts";
import type { VerdictChange } from "../../check/verdict-changes.ts";
import { findRuleSet, ruleSets } from "../../rules/rule-sets.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { problemWords } from "../problem-words.ts";
import { WorkBar } from "../WorkBar.tsx";
import { counted, verdictWords } from "../words.ts";

/** What another edition would change for the whole job, and why; asked for, not computed along. Local amendments stay. */
export function OtherEdition() {
  const own = useSession((state) => state.job.settings.job.edition);
  const [other, setOther] = useState<string | null>(null);
  const compared = useCompared(other === own ? null : other);
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
      <WorkBar work="edition" label="Checking under the other edition" />
      {compared === null && <p className="quiet">Stopped: nothing was compared. Choose the edition again.</p>}
      {compared && changes && (
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

/** What differs under the other edition; undefined before it is known, null when it was stopped. Computed once the job itself is checked. */
function useCompared(
  other: string | null,
): { readonly changes: readonly VerdictChange[]; readonly notices: readonly string[] } | null | undefined {
  const { host } = useDesk();
  const result = useSession((state) => state.result);
  const ready = useSession((state) => !state.checking && !state.stopped);
  const [compared, setCompared] = useState<ReturnType<typeof useCompared>>();
  useEffect(() => {
    setCompared(undefined);
    if (other === null || !result || !ready) return;
    let wanted = true;
    void host.compareEdition(other).then((found) => {
      if (!wanted) return;
      if (!found) return setCompared(null);
      const here = new Set(result.notices.map(problemWords));
      // Such as an amendment that strikes an exception the other edition does not have.
      const notices = found.notices.map(problemWords).filter((words) => !here.has(words));
      setCompared({ changes: found.changes, notices });
    });
    return () => {
      wanted = false;
      host.stop("edition");
    };
  }, [host, other, result, ready]);
  return compared;
}
