import { proxy, type Remote } from "comlink";
import type { BriefLanguage } from "../issue/brief/brief-languages.ts";
import type { HandedOn } from "../issue/handed-on.ts";
import type { CarriedJob } from "../issue/issue-sheets.ts";
import type { Job } from "../job/schema.ts";
import type { FoundViewport } from "../pdf/read/read-viewports.ts";
import type { Progress } from "../ui/host.ts";
import type { Result } from "../units/problem.ts";
import type { IssueAnswer, IssueRequest, IssueWorker } from "./issue-protocol.ts";
import { lastingWorker, WorkStopped } from "./lasting-worker.ts";

/** The issuing worker, started when it is first needed. */
const issuer = lastingWorker<IssueWorker>(
  () => new Worker(new URL("./issue.worker.ts", import.meta.url), { type: "module", name: "issue" }),
  (remote) => void remote.listen(proxy((step: Progress) => told(step))),
);
/** Writing that takes longer is shown, milliseconds. */
const A_WHILE = 250;
let told: (step: Progress | null) => void = () => undefined;

/** Says to `listener` how far writing is: null when nothing is being written. */
export const onIssueProgress = (listener: (step: Progress | null) => void): void => {
  told = listener;
};

/** Ends what is being written. Its promise resolves to the problem `issue.stopped`. */
export const stopIssuing = (): void => issuer.stop();

/** Writing that shows how far it is and can be stopped. */
async function written(ask: (worker: Remote<IssueWorker>) => Promise<IssueAnswer>): Promise<IssueAnswer> {
  const timer = setTimeout(() => told({ done: 0, total: 0 }), A_WHILE);
  try {
    return await issuer.callStoppable(ask);
  } catch (error) {
    if (!(error instanceof WorkStopped)) throw error;
    return { problems: [{ code: "issue.stopped", where: "", params: {} }] };
  } finally {
    clearTimeout(timer);
    told(null);
  }
}

/**
 * Writes the annotated sheets and the report off the main thread. The result stays here: with all its reasons, which are worked out when
 * they are read, it is dearer to send than to come to again, and it is the same there.
 */
export const issueInBackground = ({ result: _, ...request }: IssueRequest): Promise<IssueAnswer> =>
  written((worker) => worker.issue(request));

/** Writes the crew's brief off the main thread. `now`: milliseconds since 1970. */
export const briefInBackground = (
  job: Job,
  author: string,
  language: BriefLanguage,
  now: number,
): Promise<IssueAnswer> => written((worker) => worker.brief(job, author, language, now));

/** Writes review comments or schedules off the main thread. `now`: milliseconds since 1970. */
export const handOnInBackground = (job: Job, wanted: HandedOn, author: string, now: number): Promise<IssueAnswer> =>
  written((worker) => worker.handOn(job, wanted, author, now));

/** The viewports a PDF names, read off the main thread. */
export const viewportsIn = (bytes: Uint8Array, password: string | undefined): Promise<readonly FoundViewport[]> =>
  issuer.call<readonly FoundViewport[]>((worker) => worker.viewports(bytes, password));

/** The marker of an embedded file that carries a job, as every PDF that carries one holds it in plain bytes. */
const MARKER = new TextEncoder().encode("/EmbeddedFile");

/** The job that an issued PDF carries, and the drawing it was issued from; undefined where it carries none. */
export async function jobInside(bytes: Uint8Array): Promise<Result<CarriedJob> | undefined> {
  return holds(bytes, MARKER)
    ? issuer.call<Result<CarriedJob> | undefined>((worker) => worker.inside(bytes))
    : undefined;
}

function holds(bytes: Uint8Array, wanted: Uint8Array): boolean {
  for (let at = bytes.indexOf(wanted[0]!); at !== -1; at = bytes.indexOf(wanted[0]!, at + 1)) {
    if (wanted.every((byte, i) => bytes[at + i] === byte)) return true;
  }
  return false;
}
