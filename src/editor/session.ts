import type { StoreApi } from "zustand/vanilla";
import type { CheckResult } from "../check/finding.ts";
import type { Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Edit } from "../job/edit.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { Problem, Result } from "../units/problem.ts";
import type { DrawnLines } from "./drawn-lines.ts";
import type { Lock } from "./lock.ts";
import type { DrawnWords } from "./said/drawn-words.ts";
import type { Assumed } from "./said/suggestion.ts";
import type { Selection } from "./selection.ts";
import type { Stage } from "./stage.ts";
import type { AskKind } from "./tool.ts";
import type { ToolKey, ToolPointer } from "./tool-event.ts";
import type { ToolRequest } from "./tool-request.ts";
import type { ToolState } from "./tools/tool-state.ts";
import type { WordsRoom } from "./words-room.ts";

/** Where the next point would go and why there: shown at the crosshair or under the pointer. */
export interface Aim {
  /** Sheet space. */
  readonly at: Point2;
  /** Why the point is not exactly where it was asked for ("Vertex of R-14", "Right angle"); null when it is. */
  readonly why: string | null;
}

/** Everything a screen needs to know. Every field is replaced, never changed in place. */
export interface SessionState {
  readonly job: Job;
  /** What can be taken back, oldest first; the last is next. */
  readonly undo: readonly Edit[];
  /** What can be done again; the last is next. */
  readonly redo: readonly Edit[];
  readonly stage: Stage;
  readonly sheet: Id | null;
  readonly viewport: Id | null;
  /** Sheet units in a pixel of the present view. */
  readonly pixel: number;
  readonly selection: Selection;
  /** The lines of the drawing, and the sheet they are on; null while none are known. */
  readonly drawn: { readonly sheet: Id; readonly lines: DrawnLines } | null;
  /** Whether points are attracted by the lines of the drawing. */
  readonly toDrawing: boolean;
  /** Which directions the pieces of a line may have while it is drawn. */
  readonly lock: Lock;
  /** What finds room for words on a sheet, and which; null while it is not known what is drawn there. */
  readonly room: { readonly sheet: Id; readonly find: WordsRoom } | null;
  /** What the text of the drawing says, and the sheet it is on; null while it is not known. */
  readonly words: { readonly sheet: Id; readonly words: DrawnWords } | null;
  /** What a person has said of the texts of each sheet that they do not say themselves. */
  readonly assumed: Readonly<Record<Id, Assumed>>;
  /** The key of the suggestion in hand; null for none. */
  readonly said: string | null;
  /** The tool in hand; `tool.tool` is "edit" while none was started. Never null. */
  readonly tool: ToolState;
  /** The keyboard's place on the sheet, sheet space; null while a pointer leads. */
  readonly crosshair: Point2 | null;
  /** Where the next point would go; null while the pointer is off the sheet. */
  readonly aim: Aim | null;
  /** The edit a drag would make if it ended now; drawn by `draft()`, not part of `job`. */
  readonly preview: Edit | null;
  readonly result: CheckResult | null;
  /** True while the job is being checked: `result` is of an older one. */
  readonly checking: boolean;
  /** True when the last check was stopped: `result` stays that of an older job until the next edit, or until it is checked again. */
  readonly stopped: boolean;
  /** True while the tool is in the middle of something that Escape would put back. */
  readonly busy: boolean;
  /** What the tool wants next, in words. */
  readonly prompt: string;
  /** What may be typed now; empty when nothing may. */
  readonly asks: readonly AskKind[];
  /** The last thing that was refused, until the next act; worded by `editorMessage` of messages.ts. */
  readonly notice: Problem | null;
}

/** The state is read and watched as in any zustand store (`useStore(session, selector)`); it changes through the methods only. */
export interface Session extends Pick<StoreApi<SessionState>, "getState" | "getInitialState" | "subscribe"> {
  /** Does an edit: one undo step, then a check. An edit without changes does nothing. */
  commit(edit: Edit): void;
  /** Does what an edit builder returned, or shows its first problem as the notice. True when done. */
  attempt(edit: Result<Edit>): boolean;
  /** Takes back the last edit; while a tool is in the middle of something, its last point instead. */
  undo(): void;
  redo(): void;
  /** Takes a tool in hand. What it still needs and cannot find (a sheet, an area) becomes the notice, and the answer is false. */
  start(request: ToolRequest): boolean;
  /** The answer to a "down" says what a drag from there does: the tool in hand takes it, or it may move the sheet. */
  pointer(event: ToolPointer): "taken" | "pan";
  /** A key while the sheet has the focus; false when it meant nothing here, so that the browser may have it. */
  key(event: ToolKey): boolean;
  /** Typed text: a position (`12'-6", 4'-0"` right and up from the last point; `@100, 200` in sheet space) or what `asks` says. */
  typed(text: string): Result<void>;
  /** Done: ends what is half done, as a double click does, wherever the crosshair is. False when there is nothing to end. */
  finish(): boolean;
  /** Escape: what is half done is put back exactly; a second one leaves the tool, a third one selects nothing. */
  cancel(): void;
  select(selection: Selection): void;
  setStage(stage: Stage): void;
  /** Shows a sheet; the viewport is the one given, or the first on that sheet. */
  setSheet(sheet: Id | null, viewport?: Id): void;
  /** Says how the sheet is seen: sheet units per screen pixel, and the middle of the view in sheet space. Steps of the crosshair follow. */
  setView(view: { readonly unitsPerPixel: number; readonly centre: Point2 }): void;
  /** The lines of a sheet's drawing, once they are known; null where it has none. They replace those of any other sheet. */
  setDrawn(sheet: Id, lines: DrawnLines | null): void;
  /** Whether points are attracted by the lines of the drawing. */
  snapToDrawing(on: boolean): void;
  /** Which directions the pieces of a line may have while it is drawn; what is aimed at follows at once. */
  lockTo(lock: Lock): void;
  /** What the text of a sheet says, once it is known; null where it was not read. It replaces that of any other sheet. */
  setWords(sheet: Id, words: DrawnWords | null): void;
  /** Finds room for words on a sheet from now on, whatever else is there. */
  setRoom(sheet: Id, find: WordsRoom): void;
  /** Says for the texts of the sheet shown what they do not say themselves. */
  assume(patch: Partial<Assumed>): void;
  /** Takes a suggestion in hand by its key; null for none. */
  choose(key: string | null): void;
  /** Has the job checked although nothing was edited: after a check that was stopped. */
  checkAgain(): void;
  /** Another job altogether: nothing of the old one can be taken back. */
  replaceJob(job: Job): void;
  /** Shows a problem as the notice; null dismisses it. */
  notify(problem: Problem | null): void;
  /** The half-done thing, the handles of what is selected and the crosshair, in sheet space of the sheet shown. */
  draft(): Picture;
  readonly newId: () => Id;
}

/** What a session is made from. */
export interface SessionOptions {
  readonly job: Job;
  /** Ids for new records: lower-case letters, digits and hyphens, never the same twice. */
  readonly newId: () => Id;
  /** Called after every edit; an answer that comes after a later edit is dropped. Null: the check was stopped. */
  readonly check: (job: Job) => CheckResult | Promise<CheckResult | null>;
  /** Told when `check` fails, which is a bug; without it the error is thrown. */
  readonly onBug?: (error: unknown) => void;
}
