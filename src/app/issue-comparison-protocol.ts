import type { FoundGrid } from "../pdf/read/find-grid.ts";
import type { ThingOnSheet } from "../pdf/read/issue-changes.ts";
import type { PackedLinework } from "../pdf/read/packed-linework.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import type { Compared, LayingAsk } from "../ui/new-issue/issue-host.ts";
import type { Result } from "../units/problem.ts";

/** One issue of a sheet as it is sent to the comparing worker. */
export interface SentIssue {
  readonly linework: PackedLinework;
  readonly grids: readonly FoundGrid[];
  readonly texts: readonly TextRun[];
}

/** What the comparing worker is asked. */
export interface SentComparison {
  readonly old: SentIssue;
  readonly fresh: SentIssue;
  readonly laying: LayingAsk;
  readonly things: readonly ThingOnSheet[];
}

/** What it answers: how far it is, and at the end what it came to. */
export type FromComparison =
  | { readonly is: "progress"; readonly done: number; readonly total: number }
  | { readonly is: "done"; readonly answer: Result<Compared> };
