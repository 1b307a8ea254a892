import { startDrawingWorker } from "../canvas/start-drawing-worker.ts";
import { JOB_FILE_EXTENSION } from "../store/job-file-kind.ts";

/** What a sheet waits for longest, asked for by the page's first script, while the program itself is on its way. */
const query = new URLSearchParams(window.location.search);
const sample = query.get("sample");

/** Whether the address names a job. */
export const namesJob = sample !== null || query.has("job");

/** The drawing worker, begun where the address names a job: nobody speaks to it yet, so that a failure is only noted. */
const worker = namesJob ? startDrawingWorker() : undefined;
let failed = false;
worker?.addEventListener("error", () => {
  failed = true;
});
let taken = false;

/** The file of the sample that the address names, on its way. */
const fetched = sample === null ? undefined : { sample, answer: fetch(sampleAddress(sample)) };
// Told where it is waited for.
fetched?.answer.catch(() => undefined);

/** Where the file of a sample lies. */
function sampleAddress(name: string): string {
  return `./samples/${encodeURIComponent(name)}${JOB_FILE_EXTENSION}`;
}

/** The answer for a sample's file: the one that is on its way, once, else asked for now. */
export function fetchSample(name: string): Promise<Response> {
  if (fetched?.sample !== name) return fetch(sampleAddress(name));
  return fetched.answer.then((answer) => (answer.bodyUsed ? fetch(sampleAddress(name)) : answer));
}

/** A drawing worker: the one begun with the page, once and if it stands, else another. */
export function drawingWorker(): Worker {
  if (!worker || taken || failed) return startDrawingWorker();
  taken = true;
  return worker;
}
