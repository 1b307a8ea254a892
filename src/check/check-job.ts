import type { Edit } from "../job/edit.ts";
import type { Element } from "../job/elements/element.ts";
import type { Job } from "../job/schema.ts";
import { advise } from "./advisories.ts";
import { checkElement, type Explaining } from "./check-element.ts";
import { type CheckResult, isQuiet, VERDICTS, type Verdict } from "./finding.ts";
import { type FindingOrder, findingOrder } from "./finding-order.ts";
import type { FoundFinding } from "./found-finding.ts";
import { elementNotices, hasNotice, sceneNotices } from "./notices.ts";
import { workingRemedies } from "./remedies/working-remedies.ts";
import type { FindRules } from "./rules-of-job.ts";
import { makeScene, type Scene, sameScene } from "./scene.ts";
import { changesBetween, Dependents } from "./touched.ts";

/** Checks every element of the job. Pure: the same job gives the same result. `rules`: where rule sets come from, if not from this program. */
export function checkJob(job: Job, rules?: FindRules): CheckResult {
  return createChecker(rules)(job);
}

/** How far a check has come: elements checked so far, of those it has to check. */
export interface CheckProgress {
  readonly done: number;
  readonly total: number;
}

/** A checker with a count of how many elements it has checked so far, for tests and benchmarks. */
export interface Checker {
  /** The findings of a job. `edit`: what made it of the job checked before, where the caller knows; else the two are compared. */
  (job: Job, edit?: Edit): CheckResult;
  /**
   * The same check, resting after every element so that whoever drives it can show how far it is, or leave it: one that is left half way
   * counts for nothing, and the next check goes over every element again.
   */
  readonly inSteps: (job: Job, edit?: Edit) => Generator<CheckProgress, CheckResult, void>;
  readonly checked: () => number;
}

/** What is remembered of an element. */
class Known implements Explaining {
  findings: readonly FoundFinding[] = [];
  /** The scene its findings are explained in: that of the newest job, until the element is checked again. */
  last: Scene | undefined;
  readonly remedies = workingRemedies;

  constructor(
    private readonly first: Scene,
    private readonly newest: () => Scene | undefined,
  ) {}

  /** While an element is not touched, an explanation asked for later is the same in the newest scene, and older jobs need not be kept. */
  scene(): Scene {
    return this.last ?? this.newest() ?? this.first;
  }
}

/** A result whose findings can be numbered anew. */
interface FoundResult extends CheckResult {
  readonly findings: readonly FoundFinding[];
}

/** More elements than this at once, and the whole list is put in order again instead of each being put in its place. */
const MANY_CHANGES = 64;

/**
 * A checker that remembers the job before: after an edit of elements only those it touches are checked again, after an
 * edit of anything they are checked against, all of them. Gives exactly what `checkJob` gives.
 */
export function createChecker(rules?: FindRules): Checker {
  let before: { readonly job: Job; readonly scene: Scene; readonly result: FoundResult } | undefined;
  let sceneProblems: CheckResult["notices"] = [];
  let order = findingOrder([]);
  let known = new Map<string, Known>();
  let dependents = new Dependents({});
  let checked = 0;

  const newest = (): Scene | undefined => before?.scene;
  const checkOne = (scene: Scene, id: string): Known => {
    checked++;
    const entry = new Known(scene, newest);
    entry.findings = checkElement(scene, id, scene.job.elements[id] as Element, entry);
    return entry;
  };

  function* whole(job: Job): Generator<CheckProgress, CheckResult, void> {
    const scene = makeScene(job, rules);
    for (const entry of known.values()) entry.last ??= before?.scene;
    before = undefined;
    dependents = new Dependents(job.elements);
    known = new Map();
    const ids = Object.keys(job.elements);
    for (const id of ids) {
      known.set(id, checkOne(scene, id));
      yield { done: known.size, total: ids.length };
    }
    sceneProblems = sceneNotices(scene);
    order = findingOrder(sheetsInOrder(job));
    const result = resultOf(scene, arranged(known.values(), order), sceneProblems);
    before = { job, scene, result };
    return result;
  }

  function* again(
    job: Job,
    from: NonNullable<typeof before>,
    edit: Edit | undefined,
  ): Generator<CheckProgress, CheckResult, void> {
    // Should this fail or be left half way, the next check starts afresh.
    before = undefined;
    const scene = { ...from.scene, job };
    const touched = dependents.touchedBy(scene, changesBetween(from.job.elements, job.elements, edit));
    const old: FoundFinding[] = [];
    const fresh: FoundFinding[] = [];
    let done = 0;
    for (const id of touched) {
      yield { done: done++, total: touched.size };
      const entry = known.get(id);
      if (entry) {
        entry.last = from.scene;
        old.push(...entry.findings);
      }
      known.delete(id);
      if (!Object.hasOwn(job.elements, id)) continue;
      const now = checkOne(scene, id);
      known.set(id, now);
      fresh.push(...now.findings);
    }
    const result =
      touched.size > MANY_CHANGES
        ? resultOf(scene, arranged(known.values(), order), sceneProblems)
        : changedResult(scene, from, touched, old, fresh, order, sceneProblems);
    before = { job, scene, result };
    return result;
  }

  function* inSteps(job: Job, edit?: Edit): Generator<CheckProgress, CheckResult, void> {
    const last = before;
    if (last && last.job === job) return last.result;
    try {
      return yield* last && sameScene(last.job, job) ? again(job, last, edit) : whole(job);
    } finally {
      // Left or failed half way: what was found in the job before is still explained in it.
      if (!before) for (const entry of known.values()) entry.last ??= last?.scene;
    }
  }

  const check = (job: Job, edit?: Edit): CheckResult => {
    const steps = inSteps(job, edit);
    for (;;) {
      const { done, value } = steps.next();
      if (done) return value;
    }
  };
  return Object.assign(check, { inSteps, checked: () => checked });
}

/** All findings in order; those of one element as they come. */
function arranged(known: Iterable<Known>, order: FindingOrder): FoundFinding[] {
  const findings: FoundFinding[] = [];
  for (const entry of known) findings.push(...entry.findings);
  // Elements mostly lie in the job in the order of their labels.
  for (let i = 1; i < findings.length; i++) if (order(findings[i - 1]!, findings[i]!) > 0) return findings.sort(order);
  return findings;
}

function resultOf(scene: Scene, ordered: readonly FoundFinding[], notices: CheckResult["notices"]): FoundResult {
  const counts = Object.fromEntries(VERDICTS.map((verdict) => [verdict, 0])) as Record<Verdict, number>;
  let number = 0;
  const findings = ordered.map((finding) => {
    counts[finding.verdict]++;
    return finding.numbered(isQuiet(finding.verdict) ? null : ++number);
  });
  return withAdvice(scene, { findings, counts, notices: [...notices, ...elementNotices(scene.job)] });
}

/** The result with its advice, which is worked out when it is read: it goes through all findings. */
function withAdvice(scene: Scene, { findings, counts, notices }: Omit<FoundResult, "advisories">): FoundResult {
  let advisories: CheckResult["advisories"] | undefined;
  return {
    findings,
    counts,
    notices,
    get advisories() {
      advisories ??= advise(scene, findings);
      return advisories;
    },
  };
}

/** The result before with the findings of some elements taken out and new ones put in their places; only numbers that change are written anew. */
function changedResult(
  scene: Scene,
  { job: oldJob, result }: { readonly job: Job; readonly result: FoundResult },
  touched: ReadonlySet<string>,
  old: readonly FoundFinding[],
  fresh: readonly FoundFinding[],
  order: FindingOrder,
  sceneProblems: CheckResult["notices"],
): FoundResult {
  const findings = result.findings.slice();
  const counts = { ...result.counts };
  let [first, last] = [findings.length, 0];
  const changedAt = (at: number): void => {
    first = Math.min(first, at);
    last = Math.max(last, at);
  };
  for (const finding of old) {
    counts[finding.verdict]--;
    const at = placeOf(findings, finding, order, false);
    findings.splice(at, 1);
    changedAt(at);
  }
  for (const finding of fresh) {
    counts[finding.verdict]++;
    const at = placeOf(findings, finding, order, true);
    findings.splice(at, 0, finding);
    changedAt(at);
  }
  renumber(findings, first, last + old.length + fresh.length);
  const isOnePoint = (from: Job): boolean => {
    for (const id of touched) if (from.elements[id] && hasNotice(from.elements[id] as Element)) return true;
    return false;
  };
  const sameNotices = !isOnePoint(oldJob) && !isOnePoint(scene.job);
  const notices = sameNotices ? result.notices : [...sceneProblems, ...elementNotices(scene.job)];
  return withAdvice(scene, { findings, counts, notices });
}

/** Where a finding is among the ordered ones, or is to go: before the first that is not before it, or after the last of its element. */
function placeOf(
  findings: readonly FoundFinding[],
  finding: FoundFinding,
  order: FindingOrder,
  after: boolean,
): number {
  let [low, high] = [0, findings.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    const way = order(findings[middle]!, finding);
    if (way < 0 || (after && way === 0)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Numbers the findings from `first` on, up to where they are right again beyond `last`. */
function renumber(findings: FoundFinding[], first: number, last: number): void {
  let number = 0;
  for (let i = first - 1; i >= 0 && number === 0; i--) number = findings[i]!.number ?? 0;
  for (let i = first; i < findings.length; i++) {
    const finding = findings[i]!;
    const right = isQuiet(finding.verdict) ? null : ++number;
    if (finding.number !== right) findings[i] = finding.numbered(right);
    else if (right !== null && i > last) return;
  }
}

/** Sheets as a set is leafed through: by file name, then page. */
export function sheetsInOrder(job: Job): string[] {
  return Object.entries(job.sheets)
    .sort(([idA, a], [idB, b]) => compare(a.file.name, b.file.name) || a.page - b.page || compare(idA, idB))
    .map(([id]) => id);
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
