import { Button } from "react-aria-components";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { VerdictSymbol } from "../VerdictSymbol.tsx";
import { verdictWords } from "../words.ts";

/** What the check says of an element, each finding a way to its own card. */
export function ElementFindings({ elementId }: { readonly elementId: Id }) {
  const { session } = useDesk();
  const result = useSession((state) => state.result);
  const checking = useSession((state) => state.checking);
  const own = result?.findings.filter((finding) => finding.elementId === elementId) ?? [];
  if (own.length === 0) return checking ? <p className="quiet">Being checked…</p> : null;
  return (
    <ul className="own-findings">
      {own.map((finding) => (
        <li key={finding.verdict}>
          <Button
            className="button bare finding-link"
            onPress={() => session.select({ finding: { elementId, verdict: finding.verdict } })}
          >
            <VerdictSymbol verdict={finding.verdict} />
            <span>
              {finding.number === null ? "" : `${finding.number} · `}
              {verdictWords[finding.verdict]}
            </span>
            <span className="quiet">Reasons</span>
          </Button>
        </li>
      ))}
    </ul>
  );
}
