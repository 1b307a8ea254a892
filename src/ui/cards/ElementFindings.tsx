import { Button } from "react-aria-components";
import { findingKey, findingKeyText } from "../../check/finding.ts";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { LookNote } from "../new-issue/LookNote.tsx";
import { VerdictSymbol } from "../VerdictSymbol.tsx";
import { findingWords } from "../words.ts";

/** What the check says of an element, each finding a way to its own card; before it, that its drawing changed where nobody has looked yet. */
export function ElementFindings({ elementId }: { readonly elementId: Id }) {
  const { session } = useDesk();
  const result = useSession((state) => state.result);
  const checking = useSession((state) => state.checking);
  const label = useSession((state) => state.job.elements[elementId]?.label);
  const own = result?.findings.filter((finding) => finding.elementId === elementId) ?? [];
  if (own.length === 0)
    return (
      <>
        <LookNote id={elementId} />
        {checking && <p className="quiet">Being checked…</p>}
      </>
    );
  return (
    <>
      <LookNote id={elementId} />
      <ul className="own-findings">
        {own.map((finding) => (
          <li key={findingKeyText(finding)}>
            <Button
              className="button bare finding-link"
              onPress={() => session.select({ finding: findingKey(finding) })}
            >
              <VerdictSymbol verdict={finding.verdict} />
              <span>
                {finding.number === null ? "" : `${finding.number} · `}
                {finding.element === label ? "" : `${finding.element}: `}
                {findingWords(finding)}
              </span>
              <span className="quiet">Reasons</span>
            </Button>
          </li>
        ))}
      </ul>
    </>
  );
}
