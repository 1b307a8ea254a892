import type { CheckResult, Finding } from "../check/finding.ts";
import type { Mark } from "../issue/mark.ts";
import { marksOf } from "../issue/marks-of.ts";
import { changedIds } from "../job/changed-records.ts";
import type { Job } from "../job/schema.ts";

/** The marks of a sheet as they were drawn, and the job they show. */
export interface DrawnMarks {
  readonly sheet: string;
  readonly job: Job;
  readonly marks: readonly Mark[];
  /** The id of the record each mark is about. */
  readonly about: readonly string[];
}

/** Marks drawn for a sheet of a job. */
export const drawnMarks = (sheet: string, job: Job, marks: readonly Mark[]): DrawnMarks => ({
  sheet,
  job,
  marks,
  about: marks.map(({ key }) => key.split(/[:@]/, 2)[1] ?? ""),
});

/** The tables whose records have marks. */
const MARKED = ["elements", "areas", "storeyOutlines", "notes"] as const;

/**
 * The marks with whatever changed since they were drawn done anew, each thing once however often this is asked: few records, so at once.
 * Labels find their final places when all is drawn again.
 */
export function upToDate(drawn: DrawnMarks, job: Job, result: CheckResult | null): readonly Mark[] {
  const changed = changedSince(drawn, job);
  if (changed.size === 0) return drawn.marks;
  const findings = new Map<string, Finding[]>();
  for (const finding of result?.findings ?? []) {
    if (!changed.has(finding.elementId)) continue;
    const list = findings.get(finding.elementId);
    if (list) list.push(finding);
    else findings.set(finding.elementId, [finding]);
  }
  const kept = drawn.marks.filter((_, i) => !changed.has(drawn.about[i]!));
  for (const [id, record] of changed)
    if (record) kept.push(...marksOfRecord(drawn.sheet, job, result, id, record, findings.get(id) ?? []));
  return kept;
}

/** The records that may have changed since marks were drawn, and the job they were looked for in last. */
const seen = new WeakMap<
  DrawnMarks,
  { readonly job: Job; readonly ids: Readonly<Record<string, ReadonlySet<string>>> }
>();

/** The records that are not as they were drawn, by id; undefined where one is no more. What changed before the last time is not looked for again. */
function changedSince(drawn: DrawnMarks, job: Job): Map<string, object | undefined> {
  const last = seen.get(drawn);
  const ids = Object.fromEntries(
    MARKED.map((table) => [
      table,
      new Set([...(last?.ids[table] ?? []), ...changedIds(last?.job ?? drawn.job, job, table)]),
    ]),
  );
  seen.set(drawn, { job, ids });
  const changed = new Map<string, object | undefined>();
  for (const table of MARKED) {
    const [old, now] = [drawn.job[table], job[table]] as [Record<string, object>, Record<string, object>];
    for (const id of ids[table]!) if (old[id] !== now[id]) changed.set(id, now[id]);
  }
  return changed;
}

/** What was drawn of a record, and what it was drawn from. */
interface Piece {
  readonly sheet: string;
  readonly job: Job;
  readonly findings: readonly Finding[];
  readonly marks: readonly Mark[];
}
const pieces = new WeakMap<object, Piece>();

function marksOfRecord(
  sheet: string,
  job: Job,
  result: CheckResult | null,
  id: string,
  record: object,
  findings: readonly Finding[],
): readonly Mark[] {
  const known = pieces.get(record);
  if (known && known.sheet === sheet && sameBesides(known.job, job) && sameItems(known.findings, findings))
    return known.marks;
  const said = result ? { ...result, findings } : undefined;
  const marks = marksOf(job, said, { sheets: new Set([sheet]), only: new Set([id]) });
  pieces.set(record, { sheet, job, findings, marks });
  return marks;
}

/** Whether two jobs say the same of what a mark rests on beside its own record. */
const sameBesides = (a: Job, b: Job): boolean =>
  a.settings === b.settings && a.sheets === b.sheets && a.viewports === b.viewports && a.storeys === b.storeys;

const sameItems = <T>(a: readonly T[], b: readonly T[]): boolean =>
  a.length === b.length && a.every((item, i) => item === b[i]);
