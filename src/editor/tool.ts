import type { Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Edit } from "../job/edit.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { Problem, Result } from "../units/problem.ts";
import type { DrawnLines } from "./drawn-lines.ts";
import type { Selection } from "./selection.ts";
import type { Stage } from "./stage.ts";
import type { Held, ToolEvent } from "./tool-event.ts";
import type { ToolRequestOf } from "./tool-request.ts";
import type { ToolState } from "./tools/tool-state.ts";
import type { WordsRoom } from "./words-room.ts";

/** What a tool may know of the session; all in the present. */
export interface ToolContext {
  readonly job: Job;
  /** The sheet that is shown: points are in its space. */
  readonly sheet: Id | null;
  /** The viewport new things belong to where no region says otherwise. */
  readonly viewport: Id | null;
  /** The stage in hand: what is selected by the many belongs to it. */
  readonly stage: Stage;
  readonly selection: Selection;
  /** How near counts as on something, in sheet units. */
  readonly reach: number;
  /** Where the pointer or the crosshair is, before anything attracted it; null while it is off the sheet. */
  readonly place: Point2 | null;
  /** The lines of the shown sheet's drawing; null while they are not known or there are none. */
  readonly drawn: DrawnLines | null;
  /** Finds room for words on the shown sheet; null while it is not known what is drawn there. */
  readonly room: WordsRoom | null;
  /** A pixel of the present view, in sheet units: drafts are drawn as wide as they look. */
  readonly pixel: number;
  /** A step of an arrow key right and up as displayed, as a step in sheet space; for keys that move things. */
  readonly stepOf: (key: string, held: Held) => Point2 | null;
  readonly newId: () => Id;
}

/** What a tool answers to an event. */
export interface ToolStep<S> {
  /** The state to go on with; null when the tool is done and the standing tool takes over. */
  readonly state: S | null;
  /** Another tool takes over in this state. */
  readonly next?: ToolState;
  /** To be done to the job, as one undo step. */
  readonly edit?: Edit;
  /** Why the event was refused; the state is then what it was before. */
  readonly problem?: Problem;
  readonly select?: Selection;
  /** The sheet to show next, where the next point is wanted on another one. */
  readonly sheet?: Id;
  /** False when the event meant nothing to the tool, so that others may have it. */
  readonly used?: boolean;
}

/** What a tool takes as typed text besides a position. */
export type AskKind =
  | "position"
  | "distance"
  | "elevation"
  | "tag"
  | "slope"
  | "fold"
  | "label"
  | "conductor"
  | "words"
  | "length"
  | "copies"
  | "times"
  | "spread";

/** What a tool wants next: a code for the words (see words.ts), values for them, and what may be typed. */
export interface Wanted {
  readonly code: string;
  readonly params?: Readonly<Record<string, string | number>>;
  readonly asks: readonly AskKind[];
}

/** A tool: a small state machine over plain data. It never sees a device, and never changes anything itself. */
export interface Tool<S extends ToolState> {
  /** The state to begin with; a problem where something it needs is missing. */
  start(request: ToolRequestOf<S["tool"]>, context: ToolContext): Result<S>;
  reduce(state: S, event: ToolEvent, context: ToolContext): ToolStep<S>;
  wanted(state: S, context: ToolContext): Wanted;
  /** What has been put so far, in sheet space of `context.sheet`: snapping, right angles and typed positions start from the last. */
  points(state: S, context: ToolContext): readonly Point2[];
  /** The half-done thing on the shown sheet, `at` being where the next point would go. */
  draft(state: S, at: Point2 | null, context: ToolContext): Picture;
  /** Whether something is half done that Escape would put back. */
  busy(state: S): boolean;
  /** The sheet the work is on, where the state knows it; shown when the tool is taken in hand. */
  sheetOf?(state: S, job: Job): Id | null;
  /** Points go on more than one sheet: the tool says itself which one is next. */
  readonly acrossSheets?: true;
  /** Its points make a line piece by piece, whose directions may be locked. */
  readonly draws?: true;
  /** Whether points are attracted by what is there; left out, they are. */
  snaps?(state: S): boolean;
  /** Whether the state still makes sense in another job: what it names is there. */
  stands(state: S, job: Job): boolean;
  /** Records that must not attract the next point, being moved themselves. */
  moving?(state: S): readonly { readonly table: string; readonly id: Id }[];
  /** What would be done if it ended now, so that a drag can be shown without being done; null for nothing. */
  preview?(state: S, context: ToolContext): Edit | null;
}
