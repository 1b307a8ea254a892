import { proxy, type Remote } from "comlink";
import { createStore, type StoreApi } from "zustand/vanilla";
import { createExplainer } from "../check/explained-result.ts";
import type { CheckResult } from "../check/finding.ts";
import { changedList } from "../check/list-change.ts";
import type { Mark } from "../issue/mark.ts";
import type { Id } from "../job/fields.ts";
import { jobText } from "../job/parse-job.ts";
import type { Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import type { EditionChanges, FindingsForm, Progress } from "../ui/host.ts";
import type { CheckWork, CheckWorker } from "./check-protocol.ts";
import type { FirstView } from "./first-view.ts";
import { jobChanges } from "./job-changes.ts";
import { lastingWorker, WorkerLost } from "./lasting-worker.ts";

/** A worker that checks jobs, writes their findings, and draws the marks of large ones. What takes long answers null when it was stopped. */
export interface BackgroundCheck {
  /** Null, too, when no worker would stay up. */
  check(job: Job): Promise<CheckResult | null>;
  findings(job: Job, form: FindingsForm): Promise<string | null>;
  compare(job: Job, edition: string): Promise<EditionChanges | null>;
  /** The marks of a sheet of the job checked last; those that are as they were are the same objects. Null when others were asked for meanwhile. */
  marks(sheet: Id, words: readonly TextRun[]): Promise<readonly Mark[] | null>;
  /** The text of a job as it is kept, written off the main thread; where that cannot be, on it. */
  text(job: Job): Promise<string>;
  stop(work: CheckWork): void;
  /** How far the work is that has taken a while. */
  readonly progress: Pick<StoreApi<Readonly<Record<CheckWork, Progress | null>>>, "getState" | "subscribe">;
  /** Called when no worker would stay up. */
  onLost: (lost: WorkerLost) => void;
}

/** Work that takes longer is shown, milliseconds. */
const A_WHILE = 250;

/**
 * Checks jobs in a worker. While one check runs, only the newest job waits: those in between are never checked, and their promises
 * resolve with the newest result. A worker that fails is replaced, and given the whole job. None is begun while a sheet is about to be seen.
 */
export function backgroundCheck(seen: FirstView): BackgroundCheck {
  const explained = createExplainer();
  const progress = createStore<Readonly<Record<CheckWork, Progress | null>>>(() => ({
    check: null,
    findings: null,
    edition: null,
  }));
  /** What the present worker has; undefined when it has nothing, or nobody knows. */
  let sent: Job | undefined;
  /** Whether the present worker has checked anything. */
  let checked = false;
  let latest: Job | undefined;
  /** The marks taken last from the present worker. */
  let drawn: { readonly sheet: Id; readonly marks: readonly Mark[] } | undefined;
  const worker = lastingWorker<CheckWorker>(
    () => new Worker(new URL("./check.worker.ts", import.meta.url), { type: "module", name: "check" }),
    (remote) => {
      sent = undefined;
      checked = false;
      drawn = undefined;
      const listen = (work: CheckWork, step: Progress) => {
        if (progress.getState()[work]) progress.setState({ [work]: step });
      };
      void remote.listen(proxy(listen));
    },
  );

  /** Asks the worker about a job, which it is given first. */
  const asked = async <R>(job: Job, ask: (remote: Remote<CheckWorker>) => Promise<R>): Promise<R> => {
    await seen.wait();
    try {
      return await worker.call((remote) => {
        if (sent === undefined) void remote.start(job);
        else if (sent !== job) void remote.change(jobChanges(sent, job));
        sent = job;
        return ask(remote);
      });
    } catch (error) {
      // What the worker has now is not known: the next one is sent the whole job.
      sent = undefined;
      throw error;
    }
  };

  /** Shows how far work is once it has taken a while. */
  const shown = async <R>(work: CheckWork, doing: Promise<R>): Promise<R> => {
    const timer = setTimeout(() => progress.setState({ [work]: { done: 0, total: 0 } }), A_WHILE);
    try {
      return await doing;
    } finally {
      clearTimeout(timer);
      progress.setState({ [work]: null });
    }
  };

  let running: Promise<CheckResult | null> | undefined;
  let waiting: { job: Job; answer: Promise<CheckResult | null> } | undefined;

  const ask = (job: Job): Promise<CheckResult | null> => {
    latest = job;
    const answer = shown(
      "check",
      asked(job, async (remote) => {
        const first = await remote.check();
        if (!first) return null;
        const findings = [...first.findings];
        for (let left = first.more; left > 0; left--) findings.push(...(await remote.moreFindings()));
        return { ...first, findings };
      }),
    ).then(
      (bare) => {
        checked ||= bare !== null;
        return bare && explained(job, bare);
      },
      (error: unknown) => {
        if (!(error instanceof WorkerLost)) throw error;
        background.onLost(error);
        return null;
      },
    );
    running = answer;
    const done = () => {
      if (running === answer) running = undefined;
    };
    answer.then(done, done);
    return answer;
  };

  const check = (job: Job): Promise<CheckResult | null> => {
    if (!running) return ask(job);
    if (waiting) {
      waiting.job = job;
      return waiting.answer;
    }
    const entry = { job } as { job: Job; answer: Promise<CheckResult | null> };
    const next = () => {
      waiting = undefined;
      return ask(entry.job);
    };
    entry.answer = running.then(next, next);
    waiting = entry;
    return entry.answer;
  };

  let marksAsked = 0;
  let marksBefore: Promise<unknown> = Promise.resolve();

  const askMarks = async (sheet: Id, words: readonly TextRun[]): Promise<readonly Mark[] | null> => {
    // A worker that took the place of another has said nothing of the job yet.
    if (latest && !checked && !(await check(latest))) throw new DOMException("The check was stopped.", "AbortError");
    if (!latest) return [];
    return asked(latest, async (remote) => {
      const before = drawn?.sheet === sheet ? drawn.marks : undefined;
      const first = await remote.marks(sheet, words, before === undefined);
      if (!first) return null;
      const change = [...first.marks];
      for (let left = first.more; left > 0; left--) change.push(...(await remote.moreMarks()));
      drawn = { sheet, marks: changedList(before ?? [], change) };
      return drawn.marks;
    });
  };

  const background: BackgroundCheck = {
    check,
    findings: (job, form) =>
      shown(
        "findings",
        asked(job, (remote) => remote.findings(form)),
      ),
    compare: (job, edition) =>
      shown(
        "edition",
        asked(job, (remote) => remote.compare(edition)),
      ),
    marks(sheet, words) {
      const turn = ++marksAsked;
      void worker.call((remote) => remote.stopMarks()).catch(() => undefined);
      // One after the other: each answer is said by the one before it.
      const answer = marksBefore.then(() => (turn === marksAsked ? askMarks(sheet, words) : null));
      marksBefore = answer.catch(() => undefined);
      return answer;
    },
    text: (job) => asked(job, (remote) => remote.text()).catch(() => jobText(job)),
    stop: (work) => void worker.call((remote) => remote.stop(work)).catch(() => undefined),
    progress,
    onLost: () => undefined,
  };
  return background;
}
