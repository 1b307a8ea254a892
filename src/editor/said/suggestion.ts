import type { Point2 } from "../../geometry/point.ts";
import type { Edit } from "../../job/edit.ts";
import type { Id, Tag } from "../../job/fields.ts";
import type { Area, Job } from "../../job/schema.ts";
import type { Length } from "../../units/length.ts";
import type { Result } from "../../units/problem.ts";
import type { DrawnText } from "./drawn-words.ts";

/** What a person says once for a sheet, where its texts do not: nothing of it is ever filled in by itself. */
export interface Assumed {
  /** Which surface of a raceway a tag is of that names none. */
  readonly basis: Tag["basis"] | null;
  /** Which surface of a deck. */
  readonly deckBasis: Area["elevation"]["basis"] | null;
  /** What an elevation is counted from that does not say so. */
  readonly datum: Area["elevation"]["datum"] | null;
  /** The kind of raceway that C or CONDUIT stands for. */
  readonly type: string | null;
}
export const NOTHING_ASSUMED: Assumed = { basis: null, deckBasis: null, datum: null, type: null };
/** What a suggestion lacks before it can be accepted. */
export type Lacking = keyof Assumed;

/** What a text may mean: which record, and where in it. */
export type Target =
  | { readonly is: "element"; readonly id: Id; readonly vertex: number | "all" }
  | { readonly is: "area"; readonly id: Id; readonly spot: number | null }
  | { readonly is: "storey"; readonly id: Id };

/** What is read, as far as the drawing tells it; null is for a person to say. */
export type Read =
  | {
      readonly is: "tag";
      readonly length: Length;
      readonly basis: Tag["basis"] | null;
      readonly datum: Tag["datum"] | null;
      readonly plusMinus: Length | null;
    }
  | {
      readonly is: "deck";
      readonly length: Length;
      readonly basis: Area["elevation"]["basis"] | null;
      readonly datum: Area["elevation"]["datum"] | null;
    }
  | { readonly is: "floor"; readonly length: Length }
  | { readonly is: "wiring"; readonly type: string | null; readonly tradeSize: string };

/** One thing a text may mean, and how it compares with what is recorded there. */
export interface Meaning {
  readonly target: Target;
  readonly read: Read;
  /** What is recorded there now, in the same terms; null where nothing is. */
  readonly recorded: Read | null;
  readonly stands: "open" | "same" | "other";
  readonly lacks: readonly Lacking[];
  /** Records it; null where it lacks something, or where there is nothing to be recorded. */
  readonly accept: ((job: Job) => Result<Edit>) | null;
}

/** Something the drawing says, and what it may mean in this job. */
export interface Suggestion {
  /** The same as long as the text stands where it does. */
  readonly key: string;
  readonly kind: "elevation" | "size" | "conductors";
  /** What it is about: decks and floors, or what hangs below them. */
  readonly about: "roof" | "wiring";
  /** As read. */
  readonly text: string;
  readonly run: DrawnText;
  /** Its middle, sheet space. */
  readonly at: Point2;
  /** Of what stands already, and only about so: as the text says. */
  readonly existing: boolean;
  readonly approximate: boolean;
  /**
   * "disagrees": its one meaning has something else recorded; "offered": its one meaning has nothing; "unsure": it may mean several things,
   * or something that is not traced; "agrees": it is recorded so; "loose": nothing near that it could mean.
   */
  readonly state: "disagrees" | "offered" | "unsure" | "agrees" | "loose";
  readonly meanings: readonly Meaning[];
}

/** Whether a suggestion may be taken with others of its kind: it means exactly one thing, and lacks nothing. */
export function isPlain({ kind, state, meanings }: Suggestion): boolean {
  const taken = kind === "size" ? state === "offered" || state === "disagrees" : state === "offered";
  return taken && meanings.length === 1 && meanings[0]!.accept !== null;
}
