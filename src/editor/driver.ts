import { createStore, type StoreApi } from "zustand/vanilla";
import type { Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Edit } from "../job/edit.ts";
import type { Id } from "../job/fields.ts";
import { doEdit, type Past, redoEdit, undoEdit } from "../job/history.ts";
import { keepNumbers } from "../job/keep-numbers.ts";
import { sheetToBuilding } from "../job/registration.ts";
import type { Job } from "../job/schema.ts";
import type { Result } from "../units/problem.ts";
import { type Radians, radians } from "../units/quantity.ts";
import { DraftPen } from "./draft.ts";
import { drawParts } from "./draw-parts.ts";
import { fresh, STANDING } from "./fresh-state.ts";
import type { Lock } from "./lock.ts";
import { asDisplayed } from "./parse-position.ts";
import { type Assumed, NOTHING_ASSUMED } from "./said/suggestion.ts";
import { type Selection, sameSelection, standing } from "./selection.ts";
import type { SessionOptions, SessionState } from "./session.ts";
import { firstSheet, firstViewport } from "./sheet-order.ts";
import { type Snapped, snapped } from "./snap.ts";
import type { Stage } from "./stage.ts";
import type { Tool, ToolContext, ToolStep } from "./tool.ts";
import type { Held, ToolEvent } from "./tool-event.ts";
import type { ToolRequest } from "./tool-request.ts";
import type { ToolState } from "./tools/tool-state.ts";
import { toolNamed } from "./tools/tools.ts";
import { viewportAt } from "./viewport-at.ts";
import { wordLock, wordWanted } from "./words.ts";

/** How near counts as on something while no pointer has said so, pixels. */
const REACH_PX = 8;
/** Arrow keys, pixels a step: as they are, with Shift, with Alt. */
const STEP_PX = { plain: 10, coarse: 50, fine: 1 } as const;
/** What the prompt and the preview follow from: a pointer that merely moves touches none of them. */
const DERIVED_FROM = ["job", "tool", "selection", "sheet", "viewport", "stage", "pixel", "drawn", "lock"] as const;
const ARROWS: Readonly<Record<string, Point2>> = {
  ArrowRight: [1, 0],
  ArrowLeft: [-1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

type Changed = Partial<SessionState>;

/** Holds the state of a session, hands events to the tool in hand and does what it answers. */
export class Driver {
  readonly store: StoreApi<SessionState>;
  readonly #options: SessionOptions;
  /** Inclusive, sheet units. */
  #reach: number | undefined;
  #centre: Point2 | undefined;
  /** Where a point was asked for last, before anything attracted it. */
  #asked: Point2 | null = null;
  /** The sheet the first point of what is half done was put on. */
  #home: Id | null = null;
  #drawn: { state: SessionState; picture: Picture } | undefined;

  constructor(options: SessionOptions) {
    this.#options = options;
    this.store = createStore<SessionState>(() => this.#derived(fresh(options.job)));
  }

  get state(): SessionState {
    return this.store.getState();
  }

  get tool(): Tool<ToolState> {
    return toolNamed(this.state.tool.tool);
  }

  get reach(): number {
    return this.#reach ?? REACH_PX * this.state.pixel;
  }

  set reach(reach: number) {
    this.#reach = reach;
  }

  context(state: SessionState = this.state): ToolContext {
    const { job, sheet, viewport, stage, selection, pixel } = state;
    const reach = this.#reach ?? REACH_PX * pixel;
    const stepOf = (key: string, held: Held) => this.stepOf(key, held);
    const place = state.aim === null ? null : this.#asked;
    const drawn = state.drawn?.sheet === sheet ? state.drawn.lines : null;
    const room = state.room?.sheet === sheet ? state.room.find : null;
    const { newId } = this.#options;
    return { job, sheet, viewport, stage, selection, pixel, reach, place, drawn, room, stepOf, newId };
  }

  /** Replaces fields of the state, and what follows from them. */
  patch(changed: Changed): void {
    const { state } = this;
    const next = { ...state, ...changed };
    const same = DERIVED_FROM.every((field) => next[field] === state[field]);
    this.store.setState(same ? next : this.#derived(next), true);
  }

  #derived(state: SessionState): SessionState {
    const tool = toolNamed(state.tool.tool);
    const context = this.context(state);
    const wanted = tool.wanted(state.tool, context);
    const asks =
      wanted.asks.length === state.asks.length && wanted.asks.every((ask, i) => ask === state.asks[i])
        ? state.asks
        : wanted.asks;
    return {
      ...state,
      asks,
      prompt: wordWanted(wanted) + (tool.draws && state.lock.on ? ` ${wordLock(state.lock)}` : ""),
      busy: tool.busy(state.tool),
      preview: tool.preview?.(state.tool, context) ?? null,
    };
  }

  /** Whether something half done has points: a tag typed before the first belongs to no sheet yet. */
  get #begun(): boolean {
    const { state, tool } = this;
    return state.busy && tool.points(state.tool, this.context()).length > 0;
  }

  /** Hands an event to the tool and does what it answers. */
  feed(event: ToolEvent): ToolStep<ToolState> {
    const { state, tool } = this;
    if (event.is === "point") {
      const home = tool.sheetOf?.(state.tool, state.job) ?? (this.#begun ? this.#home : null);
      if (home !== null && home !== state.sheet && !tool.acrossSheets && home in state.job.sheets) {
        const problem = { code: "tool.other-sheet", where: "", params: { sheet: state.job.sheets[home]!.title } };
        this.patch({ ...this.#shown(home), notice: problem });
        return { state: state.tool, problem };
      }
    }
    // A key may put points too.
    if (!this.#begun && (event.is === "point" || event.is === "key")) this.#home = state.sheet;
    const step = tool.reduce(state.tool, event, this.context());
    if (step.used === false && !step.problem) return step;
    const changed: Changed = {
      tool: step.next ?? step.state ?? STANDING,
      notice: step.problem ?? null,
      ...(step.select === undefined ? {} : { selection: this.#sameOr(step.select) }),
      ...(step.sheet === undefined || step.sheet === state.sheet ? {} : this.#shown(step.sheet)),
    };
    if (step.edit) this.#did(doEdit(this.#past(), keepNumbers(state.job, step.edit)), changed);
    else this.patch(changed);
    return step;
  }

  /** Whether something is being moved: the standing tool is in the middle of nothing else. */
  get moving(): boolean {
    return this.state.busy && this.state.tool.tool === STANDING.tool;
  }

  /** Where the next point would go, or how far what is moved has come: a length without a word of direction goes that way. Null for nowhere. */
  get pointed(): Point2 | null {
    const { tool, aim } = this.state;
    return (tool.tool === STANDING.tool && "moving" in tool ? tool.moving?.to : aim?.at) ?? null;
  }

  /** Ends a movement by keys that waits for Enter: whatever comes next, it stays where it was moved. */
  settle(): void {
    if (this.moving) this.feed({ is: "finish" });
  }

  commit(edit: Edit): void {
    // A movement by keys that waits for Enter goes on: the edit was built on the job without it, and is done first.
    this.#did(doEdit(this.#past(), keepNumbers(this.state.job, edit)), { notice: null });
  }

  attempt(edit: Result<Edit>): boolean {
    if (edit.ok) this.commit(edit.value);
    else this.patch({ notice: edit.problems[0] ?? null });
    return edit.ok;
  }

  undo(): void {
    if (this.state.busy) {
      this.feed({ is: "back" });
      return;
    }
    const past = undoEdit(this.#past());
    if (past) this.#did(past, { notice: null });
  }

  redo(): void {
    this.settle();
    const past = redoEdit(this.#past());
    if (past) this.#did(past, { notice: null });
  }

  start(request: ToolRequest): boolean {
    this.settle();
    const tool = toolNamed(request.tool);
    const begun = tool.start(request as never, this.context());
    if (!begun.ok) {
      this.patch({ notice: begun.problems[0] ?? null });
      return false;
    }
    const sheet = tool.sheetOf?.(begun.value, this.state.job) ?? null;
    this.patch({ tool: begun.value, notice: null, ...(sheet === null ? {} : this.#shown(sheet)) });
    // What begins with points of its own, as a movement does, has them on this sheet.
    this.#home = this.state.sheet;
    return true;
  }

  /** One step back out; false when there is nothing to leave. */
  cancel(): boolean {
    const { busy, tool, selection, crosshair, notice } = this.state;
    if (busy) this.feed({ is: "release" });
    else if (tool.tool !== STANDING.tool) this.patch({ tool: STANDING, notice: null });
    else if (selection !== null) this.patch({ selection: null, notice: null });
    else if (crosshair !== null || notice !== null) this.patch({ crosshair: null, aim: null, notice: null });
    else return false;
    return true;
  }

  select(selection: Selection): void {
    this.settle();
    this.patch({ selection: standing(this.state.job, this.#sameOr(selection)), notice: null });
  }

  #sameOr(selection: Selection): Selection {
    return sameSelection(selection, this.state.selection) ? this.state.selection : selection;
  }

  setStage(stage: Stage): void {
    if (stage === this.state.stage) return;
    this.settle();
    this.patch({ stage, notice: null, ...(this.state.busy ? {} : { tool: STANDING }) });
  }

  setSheet(sheet: Id | null, viewport?: Id): void {
    this.settle();
    if (sheet === null || sheet in this.state.job.sheets) this.patch(this.#shown(sheet, viewport));
  }

  /** The sheet and viewport to show; the crosshair does not go along, since it is a place on the other sheet. */
  #shown(sheet: Id | null, asked?: Id): Changed {
    const { job } = this.state;
    if (sheet === this.state.sheet && asked === undefined) return {};
    const viewport = asked !== undefined && job.viewports[asked]?.sheet === sheet ? asked : firstViewport(job, sheet);
    return sheet === this.state.sheet ? { viewport } : { sheet, viewport, crosshair: null, aim: null };
  }

  setView({ unitsPerPixel, centre }: { readonly unitsPerPixel: number; readonly centre: Point2 }): void {
    this.#centre = centre;
    if (unitsPerPixel === this.state.pixel) return;
    this.#reach = undefined;
    this.patch({ pixel: unitsPerPixel });
  }

  /** Turns the attraction of the drawing's lines on or off; what is aimed at follows at once. */
  snapToDrawing(toDrawing: boolean): void {
    this.patch({ toDrawing });
    this.#aimAgain();
  }

  /** Says which directions may be drawn in; what is aimed at follows at once. */
  lockTo(lock: Lock): void {
    this.patch({ lock });
    this.#aimAgain();
  }

  #aimAgain(): void {
    const at = this.#asked;
    if (this.state.aim && at) this.patch({ aim: this.aimAt(at, { shift: false, alt: false }) });
  }

  /** Says for the texts of the sheet shown what they do not say themselves. */
  assume(patch: Partial<Assumed>): void {
    const { sheet, assumed } = this.state;
    if (sheet === null) return;
    this.patch({ assumed: { ...assumed, [sheet]: { ...(assumed[sheet] ?? NOTHING_ASSUMED), ...patch } } });
  }

  replaceJob(job: Job): void {
    const { pixel, stage, drawn, toDrawing, words, lock } = this.state;
    this.store.setState(this.#derived({ ...fresh(job), pixel, stage, drawn, toDrawing, words, lock }), true);
    this.check();
  }

  /** Where a point goes that is asked for at `at`. */
  aimAt(at: Point2, held: Pick<Held, "shift" | "alt">): Snapped {
    const { tool, state } = this;
    this.#asked = at;
    if (state.sheet === null || tool.snaps?.(state.tool) === false) return { at, why: null };
    return snapped(at, {
      job: state.job,
      sheet: state.sheet,
      reach: held.alt ? 0 : this.reach,
      points: this.points(),
      passing: tool.moving?.(state.tool) ?? [],
      drawn: state.toDrawing && state.drawn?.sheet === state.sheet ? state.drawn.lines : null,
      rightAngle: held.shift,
      ...(tool.draws && state.lock.on ? { lock: { lock: state.lock, building: this.#turn() } } : {}),
    });
  }

  /** How the plan that is drawn on is turned to the building; as the sheet lies while it has no scale. */
  #turn(): Radians {
    const { job, sheet, viewport } = this.state;
    const first = this.points()[0];
    const own = sheet === null || !first ? viewport : viewportAt(job, sheet, first, viewport);
    const registered = own === null ? undefined : sheetToBuilding(job, own);
    return registered?.ok ? registered.value.sim.angle : radians(0);
  }

  /** The points of the tool that lie on the shown sheet. */
  points(): readonly Point2[] {
    const { tool, state } = this;
    const elsewhere = state.busy && !tool.acrossSheets && this.#home !== state.sheet;
    return elsewhere ? [] : tool.points(state.tool, this.context());
  }

  /** The step of an arrow key in sheet space; null for other keys. */
  stepOf(key: string, { shift, alt }: Pick<Held, "shift" | "alt">): Point2 | null {
    const way = ARROWS[key];
    if (!way) return null;
    const { job, sheet, pixel } = this.state;
    const length = pixel * (alt ? STEP_PX.fine : shift ? STEP_PX.coarse : STEP_PX.plain);
    const rotate = sheet === null ? 0 : (job.sheets[sheet]?.rotate ?? 0);
    return asDisplayed([way[0] * length, way[1] * length], rotate);
  }

  /** Where the crosshair starts: at the last point, under the pointer, in the middle of what is seen, in the middle of the sheet. */
  crosshairStart(): Point2 {
    const { aim, job, sheet } = this.state;
    const [x0, y0, x1, y1] = (sheet === null ? undefined : job.sheets[sheet]?.view) ?? [0, 0, 0, 0];
    return this.points().at(-1) ?? aim?.at ?? this.#centre ?? [(x0 + x1) / 2, (y0 + y1) / 2];
  }

  draft(): Picture {
    const { state, tool } = this;
    if (this.#drawn?.state === state) return this.#drawn.picture;
    const pen = new DraftPen(state.pixel);
    const elsewhere = state.busy && !tool.acrossSheets && this.#home !== state.sheet;
    const { stage, sheet, job, selection, pixel } = state;
    const chosen = selection && "table" in selection && selection.table === "viewports" ? selection.id : null;
    const picture = [
      ...(stage === "sheet" && sheet !== null ? drawParts(job, sheet, chosen, pixel) : []),
      ...(elsewhere ? [] : tool.draft(state.tool, state.aim?.at ?? null, this.context())),
      ...(state.aim?.why ? pen.ring(state.aim.at, 6) : []),
      ...(state.crosshair ? pen.cross(state.crosshair, 16) : []),
    ];
    this.#drawn = { state, picture };
    return picture;
  }

  #past(): Past {
    const { job, undo, redo } = this.state;
    return { job, history: { done: undo, undone: redo } };
  }

  /** Takes over a job after an edit: whatever names records that are gone is let go. */
  #did({ job, history }: Past, changed: Changed): void {
    if (job === this.state.job) {
      this.patch(changed);
      return;
    }
    const next = { ...this.state, ...changed, job, undo: history.done, redo: history.undone };
    const sheet = next.sheet !== null && next.sheet in job.sheets ? next.sheet : firstSheet(job);
    const kept = sheet === next.sheet && next.viewport !== null && job.viewports[next.viewport]?.sheet === sheet;
    this.patch({
      ...changed,
      job,
      undo: history.done,
      redo: history.undone,
      sheet,
      viewport: kept ? next.viewport : firstViewport(job, sheet),
      selection: standing(job, next.selection),
      tool: toolNamed(next.tool.tool).stands(next.tool, job) ? next.tool : STANDING,
      ...(sheet === next.sheet ? {} : { crosshair: null, aim: null }),
    });
    this.check();
  }

  /** Has the present job checked; an answer that comes after a later edit is dropped. */
  check(): void {
    const { job } = this.state;
    const failed = (error: unknown): void => {
      if (this.state.job === job) this.patch({ checking: false, stopped: true });
      if (!this.#options.onBug) throw error;
      this.#options.onBug(error);
    };
    this.patch({ checking: true, stopped: false });
    try {
      const answer = this.#options.check(job);
      if (!(answer instanceof Promise)) {
        this.patch({ result: answer, checking: false });
        return;
      }
      answer.then((result) => {
        if (this.state.job !== job) return;
        this.patch(result ? { result, checking: false } : { checking: false, stopped: true });
      }, failed);
    } catch (error) {
      failed(error);
    }
  }
}
