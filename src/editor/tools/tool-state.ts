import type { Point2 } from "../../geometry/point.ts";
import type { Edit } from "../../job/edit.ts";
import type { Id, Tag } from "../../job/fields.ts";
import type { NoteAbout } from "../../job/note.ts";
import type { FoldLine } from "../../job/schema.ts";
import type { Length } from "../../units/length.ts";
import type { DrawnRun } from "../drawn-lines.ts";
import type { Spread } from "../parse-copies.ts";
import type { Picked, SelectableTable } from "../selection.ts";
import type { WindowTakes } from "../window.ts";

/** Two points of a viewport, then the distance between them in the building. */
export interface MeasureScaleState {
  readonly tool: "measure-scale";
  readonly viewport: Id;
  /** Asked for by name: the points have to lie in it. Otherwise the viewport is the one the first point lies in. */
  readonly fixed: boolean;
  readonly points: readonly Point2[];
}

/** A part of a sheet with a scale of its own: two opposite corners. */
export interface MarkViewportState {
  readonly tool: "mark-viewport";
  readonly corner: Point2 | null;
}

/** A part of a sheet whose corners are moved, counted as `cornersOf` counts them. */
export interface ReshapePartState {
  readonly tool: "reshape-part";
  readonly viewport: Id;
  /** The corner that is to be put elsewhere; null while none is chosen. */
  readonly corner: number | null;
  /** Where it is being dragged. */
  readonly to: Point2 | null;
}

interface Pair {
  readonly label: string;
  readonly here: Point2;
  readonly there: Point2;
}

/** The same points on two viewports, at least two pairs. */
export interface RegisterState {
  readonly tool: "register";
  readonly viewport: Id;
  readonly to: Id;
  readonly pairs: readonly Pair[];
  /** The pairs that were there when the tool was taken in hand. */
  readonly begun: readonly Pair[];
  /** The half of a pair that has been put. */
  readonly here: Point2 | null;
  /** Label typed for the pair being put. */
  readonly label: string;
}

/** A ring of points; a new deck area, a new outline for one, or a hole in one. */
export interface OutlineAreaState {
  readonly tool: "outline-area";
  /** The area that gets the outline or the hole; null makes a new one. */
  readonly area: Id | null;
  readonly part: "outline" | "hole";
  readonly points: readonly Point2[];
  /** The next point is put into a closed region of the drawing, which gives all the corners. */
  readonly byRegion?: boolean;
}

/** A ring of points round what stands on a deck; a new one, another ring for one, or a hole in one. */
export interface OutlineStoreyState {
  readonly tool: "outline-storey";
  /** The outline that gets the ring or the hole; null makes a new one. */
  readonly storey: Id | null;
  readonly part: "outline" | "hole";
  readonly points: readonly Point2[];
  /** The next point is put into a closed region of the drawing, which gives all the corners. */
  readonly byRegion?: boolean;
}

/** The place of the given elevation, the direction the deck falls in, and the slope. */
export interface SlopeDirectionState {
  readonly tool: "slope-direction";
  readonly area: Id;
  readonly point: Point2 | null;
  readonly at: Length | null;
  readonly towards: Point2 | null;
}

/** Spots, each with an elevation; at least three. */
export interface SpotsState {
  readonly tool: "spots";
  readonly area: Id;
  readonly spots: readonly { readonly at: Point2; readonly elevation: Length | null }[];
  /** How many of them the area had when the tool was taken in hand, the first in the list. */
  readonly begun: number;
}

/** A line a deck folds along, from one of its spots to another. */
export interface FoldLineState {
  readonly tool: "fold-line";
  readonly area: Id;
  readonly kind: FoldLine["kind"];
  /** The number of the spot it starts at, counted from 1; null while none is chosen. */
  readonly from: number | null;
}

/** The vertices of a run. */
export interface TraceRunState {
  readonly tool: "trace-run";
  readonly wiring: { readonly type: string; readonly tradeSize: string; readonly outsideDiameter: Length | null };
  readonly vertices: readonly { readonly at: Point2; readonly tag: Tag | null }[];
  /** The tag of the first vertex of the next run, as typed before its first point. */
  readonly firstTag: Tag | null;
}

/** A run that follows a line of the drawing, then goes on as one that is traced by hand. */
export interface FollowLineState {
  readonly tool: "follow-line";
  readonly run: TraceRunState;
  /** What following came to; null while no line has been pointed at. */
  readonly line: DrawnRun | null;
  /** The line and the run as followed first, and which of its branches has been gone along since, -1 for none; null while there is no line. */
  readonly first: { readonly line: DrawnRun; readonly run: TraceRunState; readonly taken: number } | null;
}

/** A box where the next point is put. */
export interface PlaceBoxState {
  readonly tool: "place-box";
  readonly item: string;
  readonly cover: "down" | "sideways";
  readonly tag: Tag | null;
}

/** A fitting where the next point is put. */
export interface PlaceFittingState {
  readonly tool: "place-fitting";
  readonly item: string;
  readonly tradeSize: string;
  readonly tag: Tag | null;
}

/** A conductor entry where the next point is put. */
export interface PlaceEntryState {
  readonly tool: "place-entry";
  /** Row of the conductor table, and type letters of the insulation, as typed last. */
  readonly conductor: string | null;
  readonly insulation: string | null;
}

/** The line of a rack, traced as a run is. */
export interface TraceRackState {
  readonly tool: "trace-rack";
  readonly line: TraceRunState;
}

/** Runs to be laid beside one, so far from centre to centre. */
export interface ParallelRunsState {
  readonly tool: "parallel-runs";
  readonly run: Id;
  readonly count: number;
  readonly apart: Length;
  /** As the run is traced; null while it is where the pointer or the crosshair is. */
  readonly side: "left" | "right" | null;
}

/** Elements to be copied, one or more times, each time as far on. */
export interface CopySelectedState {
  readonly tool: "copy-selected";
  readonly elements: readonly Id[];
  /** The place that is told where to go, in sheet space: a vertex of the first of them. */
  readonly from: Point2;
  readonly count: number;
}

/** Things placed at a point that are to be copied along a line. */
export interface CopyAlongState {
  readonly tool: "copy-along";
  readonly element: Id;
  /** The line: of a run or a rack that was pointed at, or put point by point. */
  readonly line: readonly Point2[];
  /** Whether the line is as long as it gets. */
  readonly whole: boolean;
  readonly spread: Spread | null;
  /** Whether the ends of the line get copies too. */
  readonly ends: boolean;
}

/** Points that something is measured between; no record comes of it. */
export interface MeasureState {
  readonly tool: "measure";
  readonly points: readonly Point2[];
  /** Whether that was all: the next point begins again. */
  readonly done: boolean;
  /** Whether the last is joined to the first. */
  readonly closed: boolean;
}

/** Several things to be selected, by clicks and windows. Places in sheet space. */
export interface SelectSeveralState {
  readonly tool: "select-several";
  /** The first corner of a window that is put by two clicks; null while none is. */
  readonly corner: Point2 | null;
  /** The window a held pointer draws; null while none is held. */
  readonly held: { readonly from: Point2; readonly to: Point2 } | null;
  readonly takes: WindowTakes;
  /** Stays in hand after a window, until it is put away. */
  readonly lasts: boolean;
}

/** A note that is being written. */
export interface PlaceNoteState {
  readonly tool: "place-note";
  /** The point its leader shows to, and where its words stand, sheet space; null while not put. */
  readonly at: Point2 | null;
  readonly place: Point2 | null;
  /** What lies at that point. */
  readonly about: NoteAbout | null;
}

/** The standing tool: selects, moves, inserts and deletes vertices, moves whole things. */
export interface EditState {
  readonly tool: "edit";
  /** What is being moved, from where, by how much so far; null while nothing is. */
  readonly moving: {
    readonly table: Exclude<SelectableTable, "viewports">;
    readonly id: Id;
    /** All that moves by the same distance, where several are selected: `id` is one of them. */
    readonly along?: readonly Picked[];
    /** Null moves the whole thing. */
    readonly vertex: number | null;
    readonly from: Point2;
    readonly to: Point2;
    /** Moved by a held pointer, or by keys until Enter, Escape or anything else. */
    readonly by: "pointer" | "keys";
    /** The vertex was made by this very movement. */
    readonly inserted: boolean;
    /** From where it was taken hold of to the vertex, where that lies elsewhere. */
    readonly hold?: Point2;
    /** What letting go now would do to the job; null while nothing has moved. */
    readonly edit: Edit | null;
  } | null;
}

/** The state of whichever tool is in hand: plain data. */
export type ToolState =
  | EditState
  | SelectSeveralState
  | MeasureScaleState
  | MarkViewportState
  | ReshapePartState
  | RegisterState
  | OutlineAreaState
  | OutlineStoreyState
  | SlopeDirectionState
  | SpotsState
  | FoldLineState
  | TraceRunState
  | FollowLineState
  | PlaceBoxState
  | PlaceFittingState
  | PlaceEntryState
  | TraceRackState
  | PlaceNoteState
  | ParallelRunsState
  | CopySelectedState
  | CopyAlongState
  | MeasureState;

/** What a tool goes by. */
export type ToolName = ToolState["tool"];
