import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { deleteRecords } from "../../editor/edits/delete-records.ts";
import { factsMany, raiseMany, tagMany } from "../../editor/edits/many.ts";
import { ANY_WIRING, findWiring, type WiringQuery } from "../../editor/find-wiring.ts";
import type { Edit } from "../../job/edit.ts";
import type { Tag } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import { type Length, toInches } from "../../units/length.ts";
import type { Result } from "../../units/problem.ts";
import { inches } from "../../units/quantity.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { type Choice, ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { TagFields } from "../fields/TagFields.tsx";
import { allRacewayChoices, sizeChoices } from "../trade-choices.ts";

const ANY = "";
const any: Choice<string> = { id: ANY, label: "Any" };

/** Finds wiring by what it is and how high it is tagged, and changes all that is found in one step. */
export function SeveralPart() {
  const { session, view } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const [query, setQuery] = useState<WiringQuery>(ANY_WIRING);
  const [by, setBy] = useState<Length | null>(null);
  const [tag, setTag] = useState<Tag | null>(null);
  const ids = useMemo(() => findWiring(job, query), [job, query]);
  const ask = (more: Partial<WiringQuery>) => setQuery({ ...query, ...more });
  const doAll = (edit: (present: Job) => Result<Edit>, done: string) => {
    if (session.attempt(edit(session.getState().job))) view.store.setState({ said: done });
  };
  const raise = (way: 1 | -1) => {
    const length = by && toInches(by);
    if (length)
      doAll((present) => raiseMany(present, ids, inches(way * length)), way < 0 ? "All lowered." : "All raised.");
  };
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
        <>
          <div className="rows">
            <LengthRow label="By" value={by} system={system} empty="So much" onCommit={setBy} />
          </div>
          <div className="acts">
            <Button className="button small" isDisabled={by === null} onPress={() => raise(-1)}>
              Lower all
            </Button>
            <Button className="button small" isDisabled={by === null} onPress={() => raise(1)}>
              Raise all
            </Button>
            <Button
              className="button small"
              onPress={() => doAll((now) => factsMany(now, ids, { steelFittings: true }), "Recorded for all.")}
            >
              Fittings of all are listed, of steel
            </Button>
            <Button
              className="button small"
              onPress={() =>
                doAll(
                  (now) =>
                    deleteRecords(
                      now,
                      ids.map((id) => ({ table: "elements" as const, id })),
                    ),
                  "All deleted.",
                )
              }
            >
              Delete all
            </Button>
          </div>
          <TagFields tag={tag} storey={null} onChange={setTag} />
          {tag && (
            <div className="acts">
              <Button
                className="button small"
                onPress={() => doAll((now) => tagMany(now, ids, tag), "All have that tag.")}
              >
                Give all this tag
              </Button>
            </div>
          )}
        </>
      )}
    </details>
  );
}

/** So many labels are said; of more, how many. */
const MOST_LABELS = 12;
const shortened = (labels: readonly string[]): string =>
  labels.length <= MOST_LABELS
    ? `${labels.join(", ")}.`
    : `${labels.slice(0, MOST_LABELS).join(", ")} and ${labels.length - MOST_LABELS} more.`;
