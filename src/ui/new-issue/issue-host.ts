import type { PointPair, Similarity } from "../../geometry/similarity.ts";
import type { Alignment } from "../../pdf/read/align-issues.ts";
import type { IssueChanges, ThingOnSheet } from "../../pdf/read/issue-changes.ts";
import type { Result } from "../../units/problem.ts";

/** A page of a drawing that is open. */
export interface OpenPage {
  readonly handle: number;
  readonly page: number;
}

/** How one issue is to be laid on the other: found, by points a person gave, or as it was laid before. */
export type LayingAsk =
  | { readonly is: "find" }
  | { readonly is: "points"; readonly pairs: readonly PointPair[] }
  | { readonly is: "known"; readonly sim: Similarity };

/** Two issues of a sheet and what lies on the old one, in its sheet space. */
export interface ComparisonAsk {
  readonly old: OpenPage;
  readonly fresh: OpenPage;
  readonly laying: LayingAsk;
  readonly things: readonly ThingOnSheet[];
}

/** What comparing came to. `alignment` of issues laid before is null: it is recorded. */
export interface Compared {
  readonly sim: Similarity;
  readonly alignment: Alignment | null;
  readonly changes: IssueChanges;
}

/** A comparison at work. */
export interface Comparing {
  /** Null where it was stopped. Problems are those of laying one issue on the other. */
  readonly answer: Promise<Result<Compared> | null>;
  stop(): void;
}

/** What the application does for new issues of a sheet. */
export interface IssueHost {
  /** Has the person choose a PDF and opens it, without adding sheets; its content hash, null where none was chosen. Whether it opened is said by the drawings of the host's state. */
  choose(): Promise<string | null>;
  /** Opens a drawing this browser keeps; whether it is there is said by the drawings of the host's state. */
  open(file: { readonly sha256: string; readonly name: string }): Promise<void>;
  /** Compares two issues off the main thread. */
  compare(
    ask: ComparisonAsk,
    onProgress: (progress: { readonly done: number; readonly total: number }) => void,
  ): Comparing;
}
