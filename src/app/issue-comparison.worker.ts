import { alignByPoints, alignIssues } from "../pdf/read/align-issues.ts";
import { issueChanges } from "../pdf/read/issue-changes.ts";
import type { IssueContent } from "../pdf/read/issue-content.ts";
import { unpackLinework } from "../pdf/read/packed-linework.ts";
import type { Compared } from "../ui/new-issue/issue-host.ts";
import { ok, type Result } from "../units/problem.ts";
import type { FromComparison, SentComparison, SentIssue } from "./issue-comparison-protocol.ts";

const opened = ({ linework, grids, texts }: SentIssue): IssueContent => ({
  linework: unpackLinework(linework),
  grids,
  texts,
});

function compared(ask: SentComparison): Result<Compared> {
  const [old, fresh] = [opened(ask.old), opened(ask.fresh)];
  const { laying } = ask;
  const laid =
    laying.is === "known"
      ? undefined
      : laying.is === "points"
        ? alignByPoints(old, fresh, laying.pairs)
        : alignIssues(old, fresh);
  if (laid && !laid.ok) return laid;
  const sim = laid ? laid.value.sim : laying.is === "known" ? laying.sim : undefined;
  if (!sim) throw new Error("nothing says how the issues lie");
  const changes = issueChanges(old, fresh, sim, ask.things, (done, total) => tell({ is: "progress", done, total }));
  return ok({ sim, alignment: laid ? laid.value : null, changes });
}

const tell = (message: FromComparison): void => self.postMessage(message);

self.onmessage = ({ data }: MessageEvent<SentComparison>) => tell({ is: "done", answer: compared(data) });
