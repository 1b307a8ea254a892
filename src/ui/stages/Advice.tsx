import { Button } from "react-aria-components";
import { ADVICE, ADVICE_NOTE, advisoryWords } from "../../issue/advisory-words.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { ReasonsTree } from "../ReasonsTree.tsx";
import { useGoTo } from "../use-go-to.ts";

/** Advice beside the code, apart from the findings: no verdict rests on it. Nothing where there is none. */
export function Advice() {
  const { session } = useDesk();
  const goTo = useGoTo();
  const advisories = useSession((state) => state.result?.advisories ?? NONE);
  if (advisories.length === 0) return null;
  return (
    <section className="block">
      <h3>{ADVICE}</h3>
      <p className="quiet">{ADVICE_NOTE}</p>
      <ul className="changes">
        {advisories.map((advisory) => (
          <li key={advisory.areaId}>
            <Button
              className="button small"
              onPress={() => {
                session.select({ table: "areas", id: advisory.areaId });
                goTo({ table: "areas", id: advisory.areaId });
              }}
            >
              {advisory.area}
            </Button>
            <p>{advisoryWords(advisory)}</p>
            <ReasonsTree reason={advisory.reasons} openTo={0} />
          </li>
        ))}
      </ul>
    </section>
  );
}

const NONE: readonly never[] = [];
