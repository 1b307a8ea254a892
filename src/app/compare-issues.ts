import { packLinework } from "../pdf/read/packed-linework.ts";
import type { PageContents } from "../pdf/read/plan-contents.ts";
import type { PageLines, Progress } from "../ui/host.ts";
import type { Compared, Comparing, ComparisonAsk, OpenPage } from "../ui/new-issue/issue-host.ts";
import type { Result } from "../units/problem.ts";
import type { FromComparison, SentComparison, SentIssue } from "./issue-comparison-protocol.ts";

/** Where the lines and words of a page come from; null where reading its lines was stopped. */
export interface PageSource {
  lines(handle: number, page: number): Promise<PageLines | null>;
  words(handle: number, page: number): Promise<PageContents>;
}

/** Compares two issues of a sheet in a worker of its own, which ends with it. A worker that fails rejects with what it said. */
export function compareIssues(
  source: PageSource,
  ask: ComparisonAsk,
  onProgress: (progress: Progress) => void,
): Comparing {
  let worker: Worker | undefined;
  let stopped = false;
  let leave: (answer: null) => void = () => undefined;
  const left = new Promise<null>((resolve) => {
    leave = resolve;
  });
  const sent = async ({ handle, page }: OpenPage): Promise<SentIssue | null> => {
    const [lines, words] = await Promise.all([source.lines(handle, page), source.words(handle, page)]);
    return lines && { linework: packLinework(lines.linework), grids: lines.grids, texts: words.texts };
  };
  const work = async (): Promise<Result<Compared> | null> => {
    const [old, fresh] = [await sent(ask.old), await sent(ask.fresh)];
    if (stopped || !old || !fresh) return null;
    worker = new Worker(new URL("./issue-comparison.worker.ts", import.meta.url), { type: "module", name: "issues" });
    const running = worker;
    return new Promise((resolve, reject) => {
      running.onerror = (event) => reject(new Error(event.message || "the worker stopped"));
      running.onmessage = ({ data }: MessageEvent<FromComparison>) => {
        if (data.is === "progress") onProgress(data);
        else resolve(data.answer);
      };
      // Copied, not handed over: the lines stay in use here.
      running.postMessage({ old, fresh, laying: ask.laying, things: ask.things } satisfies SentComparison);
    });
  };
  const answer = Promise.race([work(), left]).finally(() => worker?.terminate());
  return {
    answer,
    stop() {
      stopped = true;
      worker?.terminate();
      leave(null);
    },
  };
}
