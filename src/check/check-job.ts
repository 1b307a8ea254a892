import type { Job } from "../job/schema.ts";
import { advise } from "./advisories.ts";
import { checkElement, type UnnumberedFinding } from "./check-element.ts";
import { type CheckResult, type Finding, isQuiet, VERDICTS, type Verdict } from "./finding.ts";
import { elementNotices, sceneNotices } from "./notices.ts";
import { withRemedies } from "./remedies/with-remedies.ts";
import type { FindRules } from "./rules-of-job.ts";
import { makeScene, type Scene } from "./scene.ts";
import { elementsTouchedBy } from "./touched.ts";

/** Checks every element of the job. Pure: the same job gives the same result. `rules`: where rule sets come from, if not from this program. */
export function checkJob(job: Job, rules?: FindRules): CheckResult {
  return createChecker(rules)(job);
}

/** A checker with a count of how many elements it has checked so far, for tests and benchmarks. */
export interface Checker {
  (job: Job): CheckResult;
  readonly checked: () => number;
}

/**
 * A checker that remembers the job before: after an edit of elements only those it touches are checked again, after an
 * edit of anything they are checked against, all of them. Gives exactly what `checkJob` gives.
 */
export function createChecker(rules?: FindRules): Checker {
  let before: { job: Job; scene: Scene; notices: CheckResult["notices"] } | undefined;
  let known = new Map<string, readonly UnnumberedFinding[]>();
  let checked = 0;
  const check = (job: Job): CheckResult => {
    const sameScene = before !== undefined && sceneTables.every((table) => before!.job[table] === job[table]);
    const scene = sameScene ? { ...before!.scene, job } : makeScene(job, rules);
    const touched = sameScene ? elementsTouchedBy(before!.job, job) : undefined;
    const next = new Map<string, readonly UnnumberedFinding[]>();
    for (const [id, element] of Object.entries(job.elements)) {
      const old = touched?.has(id) === false ? known.get(id) : undefined;
      if (!old) checked++;
      next.set(id, old ?? withRemedies(scene, id, element, checkElement(scene, id, element)));
    }
    known = next;
    const notices = sameScene ? before!.notices : sceneNotices(scene);
    before = { job, scene, notices };
    const whole = result([...next.values()].flat(), [...notices, ...elementNotices(job)], job);
    return { ...whole, advisories: advise(scene, whole.findings) };
  };
  return Object.assign(check, { checked: () => checked });
}

/** What elements are checked against: while these tables are the same objects, the scene holds. */
const sceneTables = ["settings", "sheets", "storeys", "viewports", "areas"] as const;

function result(
  findings: UnnumberedFinding[],
  notices: CheckResult["notices"],
  job: Job,
): Omit<CheckResult, "advisories"> {
  const sheetOrder = new Map(sheetsInOrder(job).map((id, i) => [id, i]));
  const place = (f: UnnumberedFinding): number => sheetOrder.get(f.sheet) ?? sheetOrder.size;
  const ordered = findings
    .map((finding, i) => ({ finding, i }))
    .sort(
      (a, b) =>
        place(a.finding) - place(b.finding) ||
        byLabel(a.finding.element, b.finding.element) ||
        byId(a.finding, b.finding) ||
        a.i - b.i,
    );
  const counts = Object.fromEntries(VERDICTS.map((verdict) => [verdict, 0])) as Record<Verdict, number>;
  let number = 0;
  const numbered: Finding[] = ordered.map(({ finding }) => {
    counts[finding.verdict]++;
    return { number: isQuiet(finding.verdict) ? null : ++number, ...finding };
  });
  return { findings: numbered, counts, notices };
}

/** Sheets as a set is leafed through: by file name, then page. */
export function sheetsInOrder(job: Job): string[] {
  return Object.entries(job.sheets)
    .sort(([idA, a], [idB, b]) => compare(a.file.name, b.file.name) || a.page - b.page || compare(idA, idB))
    .map(([id]) => id);
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
const byId = (a: UnnumberedFinding, b: UnnumberedFinding): number => compare(a.elementId, b.elementId);

/** R-2 before R-10: letters by code point, runs of digits by value. */
function byLabel(a: string, b: string): number {
  const x = wordsAndNumbers(a);
  const y = wordsAndNumbers(b);
  for (let i = 0; i < Math.min(x.length, y.length); i++) {
    const [p, q] = [x[i]!, y[i]!];
    const both = /^\d/.test(p) && /^\d/.test(q);
    const order = both ? Number(p) - Number(q) || compare(p, q) : compare(p, q);
    if (order !== 0) return order;
  }
  return x.length - y.length;
}

const wordsAndNumbers = (text: string): readonly string[] => text.match(/\d+|\D+/g) ?? [];
