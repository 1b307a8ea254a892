import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { ANY_WIRING, findWiring, type WiringQuery } from "../../editor/find-wiring.ts";
import { selectionOf, withAlso } from "../../editor/selection.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { type Choice, ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { shortened } from "../shortened.ts";
import { allRacewayChoices, sizeChoices } from "../trade-choices.ts";

const ANY = "";
const any: Choice<string> = { id: ANY, label: "Any" };

/** Finds wiring by what it is and how high it is tagged, and selects all that is found: the card then changes it in one step. */
export function SeveralPart() {
  const { session } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const [query, setQuery] = useState<WiringQuery>(ANY_WIRING);
  const ids = useMemo(() => findWiring(job, query), [job, query]);
  const ask = (more: Partial<WiringQuery>) => setQuery({ ...query, ...more });
  const labels = ids.map((id) => job.elements[id]!.label);
  if (Object.keys(job.elements).length < 2) return null;
  return (
    <details className="block several">
      <summary>Several at once</summary>
      <div className="rows">
        <ChoiceRow
          label="Type"
          value={query.type ?? ANY}
          options={[any, ...allRacewayChoices]}
          onChange={(type) => ask({ type: type === ANY ? null : type, tradeSize: null })}
        />
        {query.type !== null && (
          <ChoiceRow
            label="Trade size"
            value={query.tradeSize ?? ANY}
            options={[any, ...sizeChoices(query.type)]}
            onChange={(size) => ask({ tradeSize: size === ANY ? null : size })}
          />
        )}
        <LengthRow
          label="Tagged above"
          value={query.above}
          system={system}
          empty="Any"
          onCommit={(above) => ask({ above })}
        />
        <LengthRow
          label="Tagged below"
          value={query.below}
          system={system}
          empty="Any"
          onCommit={(below) => ask({ below })}
        />
      </div>
      <p role="status">{ids.length === 0 ? "Nothing found." : `${ids.length} found: ${shortened(labels)}`}</p>
      {ids.length > 0 && (
        <div className="acts">
          <Button
            className="button"
            onPress={() => session.select(selectionOf(ids.map((id) => ({ table: "elements", id }))))}
          >
            Select {ids.length === 1 ? "it" : `all ${ids.length}`}
          </Button>
          <Button
            className="button"
            onPress={() => {
              const { selection } = session.getState();
              session.select(
                withAlso(
                  selection,
                  ids.map((id) => ({ table: "elements" as const, id })),
                ),
              );
            }}
          >
            Add to what is selected
          </Button>
        </div>
      )}
    </details>
  );
}
