import { Button } from "react-aria-components";
import { findingKey, findingKeyText } from "../../check/finding.ts";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { VerdictSymbol } from "../VerdictSymbol.tsx";
import { findingWords } from "../words.ts";

/** What the check says of an element, each finding a way to its own card. */
export function ElementFindings({ elementId }: { readonly elementId: Id }) {
  const { session } = useDesk();
  const result = useSession((state) => state.result);
  const checking = useSession((state) => state.checking);
  const label = useSession((state) => state.job.elements[elementId]?.label);
  const own = result?.findings.filter((finding) => finding.elementId === elementId) ?? [];
  if (own.length === 0) return checking ? <p className="quiet">Being checked…</p> : null;
  return (
    <ul className="own-findings">
      {own.map((finding) => (
        <li key={findingKeyText(finding)}>
          <Button className="button bare finding-link" onPress={() => session.select({ finding: findingKey(finding) })}>
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
  );
}
