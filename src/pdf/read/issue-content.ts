import type { FoundGrid } from "./find-grid.ts";
import type { Linework } from "./linework.ts";
import type { TextRun } from "./plan-contents.ts";

/** What one issue of a sheet shows, as far as another can be laid on it: all in its own sheet space. */
export interface IssueContent {
  readonly linework: Linework;
  readonly grids: readonly FoundGrid[];
  readonly texts: readonly TextRun[];
}
