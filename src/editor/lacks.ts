import { type CheckResult, isQuiet } from "../check/finding.ts";
import type { Id } from "../job/fields.ts";
import { inLabelOrder } from "../job/label-order.ts";
import { sheetToBuilding } from "../job/registration.ts";
import type { AreaShape, Job } from "../job/schema.ts";
import { makesOf, outlinesOf } from "../job/storey-outline.ts";
import type { Stage } from "./stage.ts";
import { WIRING_LACKS, type WiringState, wiringState } from "./wiring-lacks.ts";

/** Something a stage still lacks, counted; worded by `wordLack` of words.ts. */
export interface Lack {
  readonly stage: Stage;
  /** Such as "areas-without-elevation". */
  readonly code: string;
  readonly count: number;
  /** The records that lack it, in the order of their labels; empty where it is the job itself. */
  readonly ids: readonly Id[];
}

/**
 * What every stage still lacks, in the order of the stages, the most pressing of each first. `stopped`: the last check was, and `result` is
 * of an older job.
 */
export function lacks(job: Job, result: CheckResult | null, stopped = false): readonly Lack[] {
  const { areas, elements, viewports, sheets } = job;
  const registered = new Map(Object.keys(viewports).map((id) => [id, sheetToBuilding(job, id)]));
  const unscaled = idsWhere(viewports, (_, id) => {
    const placed = registered.get(id)!;
    return (
      !placed.ok &&
      placed.problems.some(({ code, where }) => code === "registration.no-scale" && where === `viewports/${id}`)
    );
  });
  const open = new Set<Id>();
  let count = 0;
  for (const { verdict, elementId } of result?.findings ?? []) {
    if (isQuiet(verdict)) continue;
    count++;
    open.add(elementId);
  }
  const wiring = wiringState(job);
  // An empty check is no good news: it must not look done.
  const none = wiring.count === 0;
  return [
    ...missing("sheet", "no-sheets", Object.keys(sheets).length === 0),
    ...some("sheet", "viewports-without-scale", unscaled),
    ...some("sheet", "viewports-not-together", apart(job, registered, wiring)),
    ...some("sheet", "marks-to-look-at", marksToLookAt(job)),
    ...missing("roof", "no-areas", Object.keys(areas).length === 0),
    ...some(
      "roof",
      "areas-without-elevation",
      idsWhere(areas, ({ elevation: { shape } }) => !isGiven(shape)),
    ),
    ...some(
      "roof",
      "areas-not-settled",
      idsWhere(areas, ({ classification: { is } }) => is === "not-settled"),
    ),
    ...some(
      "roof",
      "areas-without-outline",
      idsWhere(
        areas,
        ({ classification }) => classification.is === "from-outline" && outlinesOf(classification).length === 0,
      ),
    ),
    ...some(
      "roof",
      "outlines-not-settled",
      idsWhere(job.storeyOutlines, (outline) => makesOf(outline) === "not-settled"),
    ),
    ...some(
      "roof",
      "outlines-without-deck",
      idsWhere(
        job.storeyOutlines,
        (_, id) => !Object.values(areas).some(({ classification }) => outlinesOf(classification).includes(id)),
      ),
    ),
    ...some(
      "roof",
      "areas-without-deck",
      idsWhere(areas, ({ deck: { profile } }) => profile === ""),
    ),
    ...some(
      "roof",
      "layers-without-thickness",
      idsWhere(areas, ({ elevation: { layers } }) => layers.some(({ thickness }) => thickness === null)),
    ),
    ...missing("wiring", "no-elements", none),
    ...WIRING_LACKS.flatMap((code) => some("wiring", code, inOrder(elements, [...wiring.lacking[code]]))),
    ...missing("check", "nothing-to-check", none),
    ...missing("check", "check-stopped", stopped),
    ...missing("check", "not-checked", result === null && !none),
    ...(count === 0 ? [] : [{ stage: "check" as const, code: "findings-open", count, ids: [...open] }]),
    ...missing("issue", "nothing-to-issue", none),
    ...missing("issue", "edition-not-confirmed", job.settings.job.editionBy.trim() === ""),
  ];
}

const missing = (stage: Stage, code: string, isMissing: boolean): Lack[] =>
  isMissing ? [{ stage, code, count: 1, ids: [] }] : [];
const some = (stage: Stage, code: string, ids: readonly Id[]): Lack[] =>
  ids.length === 0 ? [] : [{ stage, code, count: ids.length, ids }];

type Named = { readonly label: string } | { readonly name: string };

const idsWhere = <T extends Named>(table: Readonly<Record<Id, T>>, test: (record: T, id: Id) => boolean): Id[] =>
  inOrder(
    table,
    Object.keys(table).filter((id) => test(table[id]!, id)),
  );

/** Ids of records by their labels or names. */
function inOrder<T extends Named>(table: Readonly<Record<Id, T>>, ids: readonly Id[]): Id[] {
  const nameOf = (id: Id) => {
    const record = table[id]!;
    return "label" in record ? record.label : record.name;
  };
  return ids.toSorted((a, b) => inLabelOrder(nameOf(a), nameOf(b)) || (a < b ? -1 : 1));
}

const given: { readonly [K in AreaShape["is"]]: (shape: Extract<AreaShape, { is: K }>) => boolean } = {
  level: ({ at }) => at !== null,
  slope: ({ at }) => at !== null,
  spots: ({ spots }) => spots.length >= 3 && spots.every(({ elevation }) => elevation !== null),
};
const isGiven = <K extends AreaShape["is"]>(shape: Extract<AreaShape, { is: K }>): boolean =>
  given[shape.is as K](shape);

/** Viewports with wiring that cannot be compared with any deck: theirs is a frame in which no area lies, while other frames have some. */
function apart(job: Job, registered: ReadonlyMap<Id, ReturnType<typeof sheetToBuilding>>, wiring: WiringState): Id[] {
  const rootOf = (viewport: Id): Id => {
    const placed = registered.get(viewport);
    return placed?.ok ? placed.value.root : viewport;
  };
  const decks = new Set(Object.values(job.areas).map(({ viewport }) => rootOf(viewport)));
  if (decks.size === 0) return [];
  return idsWhere(job.viewports, (_, id) => wiring.viewports.has(id) && !decks.has(rootOf(id)));
}

/** What new issues of sheets left to look at, of what is still there. */
const marksToLookAt = (job: Job): Id[] =>
  Object.values(job.sheets).flatMap(({ toLookAt = [] }) =>
    toLookAt.flatMap(({ table, id }) => (job[table][id] ? [id] : [])),
  );
