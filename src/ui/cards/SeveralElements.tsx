import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { sameData } from "../../editor/edits/change.ts";
import { factsMany, raiseMany, tagMany, wireMany } from "../../editor/edits/many.ts";
import type { Edit } from "../../job/edit.ts";
import { runsIn, tagsOf } from "../../job/elements/element.ts";
import type { Id, Tag } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import { type Length, toInches } from "../../units/length.ts";
import type { Result } from "../../units/problem.ts";
import { inches } from "../../units/quantity.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { TagFields } from "../fields/TagFields.tsx";
import { tagWords } from "../tag-words.ts";
import { allRacewayChoices, sizeChoices } from "../trade-choices.ts";
import { whatItIs } from "../what-it-is.ts";
import { CardPart } from "./CardFrame.tsx";

/** What several elements have in common, "differs" where they do not, and their wiring, tags and facts changed together. */
export function SeveralElements({ ids }: { readonly ids: readonly Id[] }) {
  const { session, view } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const [by, setBy] = useState<Length | null>(null);
  const [tag, setTag] = useState<Tag | null>(null);
  const { what, tagged, type, tradeSize } = useMemo(() => inCommon(job, ids), [job, ids]);
  const doAll = (edit: (present: Job) => Result<Edit>, done: string) => {
    if (session.attempt(edit(session.getState().job))) view.store.setState({ said: done });
  };
  const raise = (way: 1 | -1) => {
    const length = by && toInches(by);
    if (length)
      doAll((present) => raiseMany(present, ids, inches(way * length)), way < 0 ? "All lowered." : "All raised.");
  };
  return (
    <>
      <CardPart title={`Wiring: ${ids.length}`}>
        <p>{what ?? DIFFERS}</p>
        {type !== undefined && (
          <div className="pair">
            <ChoiceRow
              label="Type of all"
              value={type}
              placeholder={DIFFERS}
              options={allRacewayChoices}
              onChange={(next) => {
                const size = findRacewayKind(next)?.sizes.find((one) => one.size === tradeSize)?.size;
                const first = findRacewayKind(next)?.sizes[0]?.size ?? "";
                doAll(
                  (now) => wireMany(now, ids, { type: next, tradeSize: size ?? first, outsideDiameter: null }),
                  "All are of that type.",
                );
              }}
            />
            {type !== null && (
              <ChoiceRow
                label="Trade size of all"
                value={tradeSize ?? null}
                placeholder={DIFFERS}
                options={sizeChoices(type)}
                onChange={(next) =>
                  doAll(
                    (now) => wireMany(now, ids, { tradeSize: next, outsideDiameter: null }),
                    "All are of that size.",
                  )
                }
              />
            )}
          </div>
        )}
      </CardPart>
      <CardPart title="Elevation tags">
        <p>{tagged === null ? DIFFERS : tagged === undefined ? "None" : tagWords(tagged.tag, job, system)}</p>
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
      </CardPart>
      <CardPart title="Facts">
        <div className="acts">
          <Button
            className="button small"
            onPress={() => doAll((now) => factsMany(now, ids, { steelFittings: true }), "Recorded for all.")}
          >
            Fittings of all are listed, of steel
          </Button>
        </div>
      </CardPart>
    </>
  );
}

const DIFFERS = "Differs";

interface InCommon {
  /** What all of them are, in words; null where they differ. */
  readonly what: string | null;
  /** The tag all of them have at all their points, null where they differ, undefined where none has room for one. */
  readonly tagged: { readonly tag: Tag | null } | null | undefined;
  /** Type and trade size of runs: null where they differ, undefined where not all are runs. */
  readonly type: string | null | undefined;
  readonly tradeSize: string | null | undefined;
}

function inCommon(job: Job, ids: readonly Id[]): InCommon {
  const elements = ids.flatMap((id) => job.elements[id] ?? []);
  const tags = elements.flatMap(tagsOf).map(({ tag }) => tag);
  const first = tags[0];
  const areRuns = elements.every((element) => "wiring" in element);
  const wiring = areRuns ? elements.flatMap(runsIn).map((run) => run.wiring) : [];
  const one = <T,>(values: readonly T[]): T | null | undefined =>
    values.length === 0 ? undefined : values.every((value) => value === values[0]) ? values[0]! : null;
  return {
    what: one(elements.map(whatItIs)) ?? null,
    tagged: first === undefined ? undefined : tags.every((tag) => sameData(tag, first)) ? { tag: first } : null,
    type: one(wiring.map(({ type }) => type)),
    tradeSize: one(wiring.map(({ tradeSize }) => tradeSize)),
  };
}
