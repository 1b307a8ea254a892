import type { Point2 } from "../geometry/point.ts";
import { applyMatrix, invert } from "../pdf/read/matrix.ts";
import type { PageGeometry } from "../pdf/read/page-geometry.ts";
import { DrawingLayer, type RenderingState, type SheetRenderer } from "./drawing-layer.ts";
import { loadMarkFonts } from "./fonts.ts";
import type { LikelyPage } from "./likely-pages.ts";
import { MarksLayer } from "./marks-layer.ts";
import type { MarksView } from "./marks-view.ts";
import { PointerInput, type PointerNews } from "./pointer-input.ts";
import { MARK_LAYERS, type MarkLayer, type ScreenMark, type SheetRect } from "./screen-mark.ts";
import {
  type Covered,
  fitView,
  keptInSight,
  onDevicePixels,
  sheetToScreen,
  type ViewSize,
  type ViewState,
  viewOf,
  zoomed,
} from "./view-state.ts";

/** What a pointer does over the sheet. */
export interface SheetPointer {
  readonly kind: PointerNews["kind"];
  /** Sheet space. */
  readonly at: Point2;
  /** Sheet units in one CSS pixel. */
  readonly unitsPerPixel: number;
  /** The button that goes down or up, or is held while moving; -1 when none is. */
  readonly button: number;
  readonly shift: boolean;
  readonly alt: boolean;
  /** Control, or the command key. */
  readonly ctrl: boolean;
  /** "mouse", "pen" or "touch". */
  readonly pointerType: string;
  /** Keys of the marks near, topmost first. */
  readonly hit: readonly string[];
}

/** Who hears what happens in a view. */
export interface SheetViewEvents {
  /**
   * The answer to a "down" of the first button says what a drag does: a tool takes it, or it moves the sheet. A press
   * that turns into a move of the sheet ends with "cancel", one that does not with "up".
   */
  onPointer(event: SheetPointer): "taken" | "pan";
  onView?(view: ViewState): void;
  onRendering?(state: RenderingState): void;
  /** The page could not be drawn: an Error of the surroundings (`RendererLost`) or a bug. */
  onError?(error: unknown): void;
}

/** How near a mark counts as near, CSS pixels, by kind of pointer. */
const REACH = { mouse: 6, pen: 8, touch: 14 } as const;
/** So long after the last turn of the wheel a zoom counts as ended. */
const REST_MS = 140;
/** A sheet held still for so long is made sharp though the hand has not let go. */
const HELD_STILL_MS = 500;

/**
 * A sheet with marks on it, in a host element whose size it follows. For the eyes only (`aria-hidden`): what is on it
 * has to be listed elsewhere too. During a gesture only pictures move; when it rests, sharp ones follow.
 */
export class SheetView {
  readonly #host: HTMLElement;
  readonly #root = document.createElement("div");
  readonly #drawing: DrawingLayer;
  readonly #marks = new MarksLayer();
  readonly #input: PointerInput;
  readonly #events: SheetViewEvents;
  readonly #resized: ResizeObserver;
  readonly #stop = new AbortController();
  #page: { handle: number; geometry: PageGeometry } | undefined;
  #hidden: readonly string[] | undefined;
  #state: ViewState = { scale: 1, origin: [0, 0] };
  #size: ViewSize = { width: 0, height: 0 };
  #ratio = window.devicePixelRatio || 1;
  /** The page is fitted and stays so when the host changes its size. */
  #fitted = true;
  #covered: Covered = {};
  /** The drawing of `showPage` waits for a host that has a size. */
  #waiting = false;
  #frame = 0;
  /** The view is on the move: pictures are moved, and nothing is drawn until it rests. */
  #moving = false;
  #wanted: "nothing" | "draft" | "marks" | "view" = "nothing";
  #restTimer: ReturnType<typeof setTimeout> | undefined;

  constructor(host: HTMLElement, renderer: SheetRenderer, events: SheetViewEvents) {
    this.#host = host;
    this.#events = events;
    this.#drawing = new DrawingLayer(renderer, {
      rendering: (state) => events.onRendering?.(state),
      failed: (error) => events.onError?.(error),
      ready: () => this.#rest(),
    });
    this.#root.style.cssText = "position:absolute;inset:0;overflow:hidden;contain:strict";
    this.#root.setAttribute("aria-hidden", "true");
    this.#root.append(this.#drawing.element, this.#marks.element);
    if (getComputedStyle(host).position === "static") host.style.position = "relative";
    host.append(this.#root);
    this.#input = new PointerInput(this.#root, {
      pointer: (news) => this.#pointer(news),
      pan: (dx, dy, held) => this.#panBy(dx, dy, held ? HELD_STILL_MS : REST_MS),
      zoom: (factor, about, held) => this.#zoomBy(factor, about, held ? HELD_STILL_MS : REST_MS),
      rest: () => this.#rest(),
    });
    this.#resized = new ResizeObserver(() => this.#resize());
    this.#resized.observe(host);
    this.#watchRatio();
    this.#resize();
    void loadMarkFonts().then(() => {
      this.#marks.spoil();
      this.#want("marks");
    });
  }

  /** Shows a page, fitted. Marks stay until they are replaced. */
  showPage(handle: number, geometry: PageGeometry, covered: Covered = {}): void {
    this.#covered = covered;
    this.#page = { handle, geometry };
    this.#fitted = true;
    this.#hidden = undefined;
    this.#waiting = true;
    this.#fitToStart();
    // What is said in the same breath (fit, hidden layers) goes into the first drawing.
    queueMicrotask(() => this.#start());
  }

  /** Pages that are likely to be shown next: coarse pictures of them are drawn while nothing else is to be done. */
  expectPages(pages: readonly LikelyPage[]): void {
    this.#drawing.expect(pages);
  }

  #fitToStart(): void {
    if (!this.#page || this.#size.width === 0 || this.#size.height === 0) return;
    this.#state = fitView(this.#page.geometry, this.#size, this.#covered);
  }

  /** Draws the page of `showPage` as soon as the host has a size. */
  #start(): void {
    if (!this.#page || !this.#waiting || this.#size.width === 0 || this.#size.height === 0) return;
    this.#waiting = false;
    const { handle, geometry } = this.#page;
    this.#state = onDevicePixels(this.#state, this.#ratio);
    this.#drawing.show(handle, geometry, this.#hidden, this.#state, this.#ratio);
    this.#want("marks");
    this.#events.onView?.(this.#state);
  }

  /** Hides exactly these layers of the drawing, by id; undefined: as the file has it. A newly shown page starts so. */
  setHiddenLayers(ids: readonly string[] | undefined): void {
    this.#hidden = ids;
    if (this.#page && !this.#waiting) this.#drawing.hide(this.#hidden, this.#state, this.#ratio);
  }

  /** Takes the page and all marks away. */
  clear(): void {
    this.#page = undefined;
    this.#drawing.clear();
    for (const layer of MARK_LAYERS) this.#marks.set(layer, []);
    this.#marks.select([]);
    this.#want("marks");
  }

  /** Replaces the marks of a layer. */
  setMarks(layer: MarkLayer, marks: readonly ScreenMark[]): void {
    this.#marks.set(layer, marks);
    this.#want(layer === "draft" ? "draft" : "marks");
  }

  /** The marks with a halo. */
  setSelected(keys: readonly string[]): void {
    this.#marks.select(keys);
    this.#want("marks");
  }

  /** Greys the drawing so that the marks stand out. */
  setFaded(on: boolean): void {
    this.#drawing.setFaded(on);
  }

  /** Light lines on a dark sheet. */
  setDark(on: boolean): void {
    this.#drawing.element.style.filter = on ? "invert(0.88) hue-rotate(180deg)" : "";
  }

  /** The whole page in the middle of what nothing covers; it stays so when the host changes its size, until it is moved. */
  fit(covered: Covered = {}): void {
    this.#covered = covered;
    if (!this.#page) return;
    this.#moveTo(fitView(this.#page.geometry, this.#size, covered), true);
    this.#rest();
  }

  /** A rectangle of the sheet in the middle, as large as fits. */
  zoomTo(rect: SheetRect): void {
    if (!this.#page) return;
    this.#moveTo(viewOf(this.#page.geometry, rect, this.#size));
    this.#rest();
  }

  /** Zooms about a point of the view (CSS pixels), else about its middle. */
  zoomBy(factor: number, about: Point2 = [this.#size.width / 2, this.#size.height / 2]): void {
    this.#zoomBy(factor, about, REST_MS);
  }

  /** Moves the sheet by CSS pixels. */
  panBy(dx: number, dy: number): void {
    this.#panBy(dx, dy, REST_MS);
  }

  view(): ViewState {
    return this.#state;
  }

  /** Takes a view back that `view` gave. */
  setView(state: ViewState): void {
    if (!this.#page) return;
    this.#moveTo(zoomed(state, 1, [0, 0], this.#page.geometry, this.#size));
    this.#rest();
  }

  /** Sheet space to CSS pixels of the view. Without a page the point comes back as it is. */
  sheetToScreen(p: Point2): Point2 {
    return this.#page ? applyMatrix(sheetToScreen(this.#page.geometry, this.#state), p) : p;
  }

  /** CSS pixels of the view to sheet space. Without a page the point comes back as it is. */
  screenToSheet(p: Point2): Point2 {
    return this.#page ? applyMatrix(invert(sheetToScreen(this.#page.geometry, this.#state)), p) : p;
  }

  /** Sheet units in one CSS pixel. */
  unitsPerPixel(): number {
    return this.#page ? 1 / (this.#state.scale * this.#page.geometry.userUnit) : 1;
  }

  /** The part of the sheet in view. */
  sheetInView(): SheetRect {
    const a = this.screenToSheet([0, 0]);
    const b = this.screenToSheet([this.#size.width, this.#size.height]);
    return { x0: Math.min(a[0], b[0]), y0: Math.min(a[1], b[1]), x1: Math.max(a[0], b[0]), y1: Math.max(a[1], b[1]) };
  }

  /** Keys of the marks that touch a rectangle of the sheet, topmost layer first. */
  marksIn(rect: SheetRect): string[] {
    return this.#marks.touching(rect);
  }

  /** Keys of the marks near a point of the sheet, topmost first; `reach` in CSS pixels. */
  marksNear(at: Point2, reach: number = REACH.mouse): string[] {
    return this.#marks.near(at, reach * this.unitsPerPixel());
  }

  destroy(): void {
    this.#page = undefined;
    this.#stop.abort();
    this.#resized.disconnect();
    this.#input.destroy();
    this.#drawing.destroy();
    this.#marks.destroy();
    clearTimeout(this.#restTimer);
    cancelAnimationFrame(this.#frame);
    this.#root.remove();
  }

  #pointer(news: PointerNews): "taken" | "pan" {
    if (!this.#page) return "pan";
    const at = this.screenToSheet(news.at);
    const reach = REACH[news.pointerType as keyof typeof REACH] ?? REACH.mouse;
    const hit = news.kind === "cancel" || news.kind === "hover-end" ? [] : this.marksNear(at, reach);
    return this.#events.onPointer({ ...news, at, hit, unitsPerPixel: this.unitsPerPixel() });
  }

  #zoomBy(factor: number, about: Point2, restMs: number): void {
    if (!this.#page) return;
    this.#moveTo(zoomed(this.#state, factor, about, this.#page.geometry, this.#size));
    this.#restIn(restMs);
  }

  #panBy(dx: number, dy: number, restMs: number): void {
    if (!this.#page) return;
    const { scale, origin } = this.#state;
    this.#moveTo(keptInSight({ scale, origin: [origin[0] + dx, origin[1] + dy] }, this.#page.geometry, this.#size));
    this.#restIn(restMs);
  }

  #moveTo(state: ViewState, fitted = false): void {
    this.#state = state;
    this.#fitted = fitted;
    this.#want("view");
  }

  #restIn(ms: number): void {
    this.#moving = true;
    clearTimeout(this.#restTimer);
    this.#restTimer = setTimeout(() => this.#rest(), ms);
  }

  /** A gesture is over: pictures onto whole pixels, marks drawn for this view, the sharp region asked for. */
  #rest(): void {
    clearTimeout(this.#restTimer);
    this.#moving = false;
    if (!this.#page || this.#waiting) return;
    this.#state = onDevicePixels(this.#state, this.#ratio);
    this.#drawing.place(this.#state);
    this.#want("marks");
    this.#drawing.settle(this.#state, this.#size, this.#ratio);
    this.#events.onView?.(this.#state);
  }

  /** At most one update a frame, the most thorough one asked for. */
  #want(what: "draft" | "marks" | "view"): void {
    const order = ["nothing", "draft", "view", "marks"];
    // Moved pictures and new marks together mean drawing the marks where the view is now.
    if (order.indexOf(what) > order.indexOf(this.#wanted)) this.#wanted = what;
    this.#frame ||= requestAnimationFrame(() => {
      this.#frame = 0;
      const wanted = this.#wanted;
      this.#wanted = "nothing";
      this.#update(wanted);
    });
  }

  #update(wanted: "nothing" | "draft" | "marks" | "view"): void {
    this.#drawing.place(this.#state);
    const view = this.#marksView();
    if (wanted === "view" || (wanted === "marks" && this.#moving)) {
      this.#marks.follow(view);
      this.#events.onView?.(this.#state);
    } else if (wanted === "draft") this.#marks.drawDraft(view);
    else this.#marks.draw(view);
  }

  #marksView(): MarksView {
    const toScreen = this.#page ? sheetToScreen(this.#page.geometry, this.#state) : ([1, 0, 0, 1, 0, 0] as const);
    return { toScreen, ...this.#size, ratio: this.#ratio };
  }

  #resize(): void {
    const [width, height] = [this.#host.clientWidth, this.#host.clientHeight];
    const ratio = window.devicePixelRatio || 1;
    if (width === this.#size.width && height === this.#size.height && ratio === this.#ratio) return;
    const before = this.#size;
    this.#size = { width, height };
    this.#ratio = ratio;
    this.#want("marks");
    if (!this.#page || width === 0 || height === 0) return;
    if (this.#waiting) {
      this.#fitToStart();
      this.#start();
      return;
    }
    if (this.#fitted) this.fit(this.#covered);
    else {
      // What was in the middle stays there.
      this.panBy((width - before.width) / 2, (height - before.height) / 2);
      this.#rest();
    }
  }

  /** A window moved to another screen, or the browser's own zoom, changes the pixels in a CSS pixel. */
  #watchRatio(): void {
    const query = window.matchMedia(`(resolution: ${window.devicePixelRatio}dppx)`);
    const changed = () => {
      this.#resize();
      this.#watchRatio();
    };
    query.addEventListener("change", changed, { once: true, signal: this.#stop.signal });
  }
}
