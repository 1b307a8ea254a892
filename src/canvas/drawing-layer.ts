import { displaySize, type PageGeometry } from "../pdf/read/page-geometry.ts";
import { type LikelyPage, LikelyPages } from "./likely-pages.ts";
import { type PageRenderer, RendererLost } from "./page-renderer.ts";
import type { PixelRegion, RenderedPage } from "./page-renderer-protocol.ts";
import type { ViewSize, ViewState } from "./view-state.ts";

/** How far the pictures of the drawing are: nothing yet, the whole page, or everything as sharp as the screen. */
export interface RenderingState {
  readonly phase: "first" | "sharpening" | "done";
  /** The page asks for a colour transfer that is left out here: the picture is close, not exact. */
  readonly approximate: boolean;
}

/** What a drawing layer tells its owner. */
export interface DrawingEvents {
  rendering(state: RenderingState): void;
  failed(error: unknown): void;
  /** The whole page is there: time to `settle`, for the view may have moved since. */
  ready(): void;
}

/** What the drawing's pictures need from a renderer. */
export type SheetRenderer = Pick<PageRenderer, "render" | "coarse">;

type Part = "coarse" | "base" | "sharp";

/** A picture of a part of the page: a canvas, the scale it was drawn at (its pixels per 1/72 in.) and which part it is. */
interface Shown {
  readonly canvas: HTMLCanvasElement;
  readonly scale: number;
  readonly region: PixelRegion;
}

/** A layer of its own each, so that moving it lays out and paints nothing. */
const MOVED = "position:absolute;left:0;top:0;transform-origin:0 0;will-change:transform";
/** Drawn beyond the view on each side, as a part of it, so that a small move needs no new picture. */
const MARGIN = 0.2;
/** Most pixels of one picture. */
const MOST_PIXELS = 20_000_000;
/** The pictures shown take at most so many bytes: two, and a coarse one while there is no other. */
export const MOST_SHOWN_BYTES = 2 * 4 * MOST_PIXELS;
/** So long after the last sharp picture pages that are likely next are drawn, milliseconds. */
const AHEAD_AFTER_MS = 1500;
/** Longest side of the picture of the whole page, in pixels. */
const LONGEST_BASE = 4096;

/**
 * The drawing under the marks: a picture of the whole page, and over it a sharp one of what is in view. While the view
 * moves both are only moved; `settle` then asks for a sharp one.
 */
export class DrawingLayer {
  readonly element: HTMLDivElement;
  readonly #paper: HTMLDivElement;
  /** Over the pictures, where the drawing is greyed: the paper stays white, the ink gets paler. */
  readonly #veil: HTMLDivElement;
  readonly #renderer: SheetRenderer;
  readonly #events: DrawingEvents;
  /** Where the view was last. */
  #state: ViewState = { scale: 1, origin: [0, 0] };
  #page: { handle: number; geometry: PageGeometry; hiddenLayers: readonly string[] | undefined } | undefined;
  /** What is shown while the first picture of the page is being drawn. */
  #coarse: Shown | undefined;
  #base: Shown | undefined;
  #sharp: Shown | undefined;
  #leaving = new AbortController();
  #sharpening:
    | { readonly controller: AbortController; readonly scale: number; readonly region: PixelRegion }
    | undefined;
  #approximate = false;
  #faded = false;
  readonly #likely: LikelyPages;
  #aheadTimer: ReturnType<typeof setTimeout> | undefined;

  constructor(renderer: SheetRenderer, events: DrawingEvents) {
    this.#renderer = renderer;
    this.#likely = new LikelyPages(renderer);
    this.#events = events;
    this.element = document.createElement("div");
    this.element.style.cssText = "position:absolute;inset:0;overflow:hidden;pointer-events:none";
    this.#paper = document.createElement("div");
    this.#paper.style.cssText = `${MOVED};background:#fff`;
    this.#paper.dataset.part = "paper";
    this.#paper.hidden = true;
    this.#veil = document.createElement("div");
    // In a stacking context of its own it lies over pictures that come later, and never over the marks.
    this.element.style.isolation = "isolate";
    this.#veil.style.cssText = `${MOVED};z-index:1;background:#fff;opacity:0.65`;
    this.#veil.dataset.part = "veil";
    this.#veil.hidden = true;
    this.element.append(this.#paper, this.#veil);
  }

  /** Draws the whole page at `state` and shows it; what was shown before goes at once. */
  show(
    handle: number,
    geometry: PageGeometry,
    hiddenLayers: readonly string[] | undefined,
    state: ViewState,
    ratio: number,
  ): void {
    this.clear();
    this.#page = { handle, geometry, hiddenLayers };
    const { width, height } = displaySize(geometry);
    for (const part of [this.#paper, this.#veil]) {
      part.style.width = `${width}px`;
      part.style.height = `${height}px`;
    }
    this.#paper.hidden = false;
    this.#veil.hidden = !this.#faded;
    // A picture drawn ahead shows the layers as the file has them.
    const ahead = hiddenLayers ? undefined : this.#likely.pictureOf({ handle, page: geometry.page });
    if (ahead) this.#showCoarse(ahead, false);
    this.place(state);
    void this.#drawBase(state, ratio, this.#leaving.signal, ahead === undefined);
  }

  /** Pages that may be shown next: coarse pictures of them are drawn while nothing else is to be done. */
  expect(pages: readonly LikelyPage[]): void {
    this.#likely.expect(pages);
    this.#drawAheadSoon();
  }

  /** Other layers hidden: the pictures are replaced as new ones come. */
  hide(hiddenLayers: readonly string[] | undefined, state: ViewState, ratio: number): void {
    if (!this.#page) return;
    this.#page = { ...this.#page, hiddenLayers };
    this.#stopSharpening();
    this.#leaving.abort();
    this.#leaving = new AbortController();
    void this.#drawBase(state, ratio, this.#leaving.signal).then(() => this.#drop("sharp"));
  }

  clear(): void {
    this.#leaving.abort();
    this.#leaving = new AbortController();
    this.#stopSharpening();
    this.#drop("coarse");
    this.#drop("base");
    this.#drop("sharp");
    this.#stopAhead();
    this.#page = undefined;
    this.#approximate = false;
    this.#paper.hidden = true;
    this.#veil.hidden = true;
  }

  /** Greys the drawing: its paper stays as it is. */
  setFaded(on: boolean): void {
    this.#faded = on;
    this.#veil.hidden = !on || this.#paper.hidden;
  }

  /** Moves the pictures there are to where the view is. */
  place(state: ViewState): void {
    if (state !== this.#state) this.#stopAhead();
    this.#state = state;
    if (!this.#page) return;
    const { scale, origin } = state;
    for (const part of [this.#paper, this.#veil])
      part.style.transform = `matrix(${scale},0,0,${scale},${origin[0]},${origin[1]})`;
    for (const shown of [this.#coarse, this.#base, this.#sharp]) {
      if (!shown) continue;
      const k = state.scale / shown.scale;
      const x = state.origin[0] + shown.region.x * k;
      const y = state.origin[1] + shown.region.y * k;
      shown.canvas.style.transform = `matrix(${k},0,0,${k},${x},${y})`;
    }
  }

  /** Called when the view rests: asks for a sharp picture where the ones shown are not. */
  settle(state: ViewState, size: ViewSize, ratio: number): void {
    if (!this.#page || !this.#base) return;
    const seen = visibleRegion(this.#page.geometry, state, size, ratio, 0);
    // A view of more pixels than a picture may have gets one as sharp as that allows.
    const fineness = seen ? ratio * Math.min(1, Math.sqrt(MOST_PIXELS / (seen.width * seen.height))) : ratio;
    const visible = seen && visibleRegion(this.#page.geometry, state, size, fineness, 0);
    const scale = state.scale * fineness;
    if (!visible || alike(scale, this.#base.scale)) {
      this.#stopSharpening();
      this.#drop("sharp");
      this.#say("done");
      return;
    }
    if (this.#sharp && alike(scale, this.#sharp.scale) && covers(this.#sharp.region, visible)) {
      this.#stopSharpening();
      this.#say("done");
      return;
    }
    const pending = this.#sharpening;
    if (pending && alike(scale, pending.scale) && covers(pending.region, visible)) return;
    const region = visibleRegion(this.#page.geometry, state, size, fineness, MARGIN) ?? visible;
    void this.#sharpen(scale, region.width * region.height > MOST_PIXELS ? visible : region);
  }

  destroy(): void {
    this.clear();
    this.#likely.destroy();
    this.element.remove();
  }

  async #drawBase(state: ViewState, ratio: number, signal: AbortSignal, isBare = false): Promise<void> {
    const { handle, geometry, hiddenLayers } = this.#page!;
    const { width, height } = displaySize(geometry);
    const scale = Math.min(state.scale * ratio, LONGEST_BASE / Math.max(width, height));
    this.#events.rendering({ phase: "first", approximate: false });
    try {
      const drawn = await this.#render(
        { handle, page: geometry.page, scale, ...(hiddenLayers && { hiddenLayers }) },
        signal,
        isBare ? (bitmap) => this.#showCoarse(bitmap, true) : undefined,
      );
      this.#base = this.#put(this.#base, drawn, scale, "base");
      this.#drop("coarse");
      this.place(this.#state);
      this.#events.ready();
    } catch (error) {
      if (!signal.aborted) this.#events.failed(error);
    }
  }

  async #sharpen(scale: number, region: PixelRegion): Promise<void> {
    this.#stopSharpening();
    const { handle, geometry, hiddenLayers } = this.#page!;
    const controller = new AbortController();
    this.#sharpening = { controller, scale, region };
    this.#say("sharpening");
    try {
      const request = { handle, page: geometry.page, scale, region, ...(hiddenLayers && { hiddenLayers }) };
      const drawn = await this.#render(request, controller.signal);
      this.#sharp = this.#put(this.#sharp, drawn, scale, "sharp");
      this.place(this.#state);
      this.#sharpening = undefined;
      this.#say("done");
    } catch (error) {
      if (!controller.signal.aborted) {
        this.#sharpening = undefined;
        this.#events.failed(error);
      }
    }
  }

  /** A renderer that was lost and replaced gets the request a second time. */
  async #render(...asked: Parameters<SheetRenderer["render"]>): Promise<RenderedPage> {
    try {
      return await this.#renderer.render(...asked);
    } catch (error) {
      if (!(error instanceof RendererLost) || error.final) throw error;
      return this.#renderer.render(...asked);
    }
  }

  /** Shows a small picture of the whole page, of what is drawn of it so far, or one drawn ahead (which is kept). */
  #showCoarse(bitmap: ImageBitmap, isOurs: boolean): void {
    if (this.#page && !this.#base) {
      const { width, height } = bitmap;
      const canvas = this.#coarse?.canvas ?? this.#canvasOf("coarse");
      canvas.width = width;
      canvas.height = height;
      canvas.getContext("2d", { alpha: false, willReadFrequently: true })?.drawImage(bitmap, 0, 0);
      const scale = width / displaySize(this.#page.geometry).width;
      this.#coarse = { canvas, scale, region: { x: 0, y: 0, width, height } };
      this.place(this.#state);
    }
    if (isOurs) bitmap.close();
  }

  #canvasOf(part: Part): HTMLCanvasElement {
    const canvas = document.createElement("canvas");
    canvas.style.cssText = MOVED;
    canvas.dataset.part = part;
    if (part === "sharp") this.element.append(canvas);
    else this.#paper.after(canvas);
    return canvas;
  }

  #drawAheadSoon(): void {
    this.#stopAhead();
    this.#aheadTimer = setTimeout(() => void this.#likely.draw(), AHEAD_AFTER_MS);
  }

  #stopAhead(): void {
    clearTimeout(this.#aheadTimer);
    this.#likely.stop();
  }

  #put(
    old: Shown | undefined,
    { bitmap, region, approximate }: RenderedPage,
    scale: number,
    part: "base" | "sharp",
  ): Shown {
    const canvas = old?.canvas ?? this.#canvasOf(part);
    canvas.width = region.width;
    canvas.height = region.height;
    // A picture of the page is paper all over: what lies wholly under it need not be put together.
    canvas.getContext("bitmaprenderer", { alpha: false })?.transferFromImageBitmap(bitmap);
    this.#approximate ||= approximate;
    return { canvas, scale, region };
  }

  #drop(part: Part): void {
    const shown = part === "base" ? this.#base : part === "sharp" ? this.#sharp : this.#coarse;
    if (!shown) return;
    shown.canvas.remove();
    // A canvas without pixels gives its memory back now, not when the collector comes by.
    shown.canvas.width = shown.canvas.height = 0;
    if (part === "base") this.#base = undefined;
    else if (part === "sharp") this.#sharp = undefined;
    else this.#coarse = undefined;
  }

  #stopSharpening(): void {
    this.#sharpening?.controller.abort();
    this.#sharpening = undefined;
  }

  #say(phase: RenderingState["phase"]): void {
    if (phase === "done") this.#drawAheadSoon();
    else this.#stopAhead();
    this.#events.rendering({ phase, approximate: this.#approximate });
  }
}

const alike = (a: number, b: number): boolean => Math.abs(a - b) <= 1e-6 * b;

const covers = (outer: PixelRegion, inner: PixelRegion): boolean =>
  outer.x <= inner.x &&
  outer.y <= inner.y &&
  outer.x + outer.width >= inner.x + inner.width &&
  outer.y + outer.height >= inner.y + inner.height;

/** The part of the page in view, in device pixels of the displayed page, with a margin; nothing when the page is out of view. */
export function visibleRegion(
  geometry: PageGeometry,
  { scale, origin }: ViewState,
  size: ViewSize,
  ratio: number,
  margin: number,
): PixelRegion | undefined {
  const page = displaySize(geometry);
  const span = (at: number, room: number, long: number): [number, number] => [
    Math.max(0, Math.floor((-at - room * margin) * ratio)),
    Math.min(Math.ceil(long * scale * ratio), Math.ceil((-at + room * (1 + margin)) * ratio)),
  ];
  const [x0, x1] = span(origin[0], size.width, page.width);
  const [y0, y1] = span(origin[1], size.height, page.height);
  return x1 > x0 && y1 > y0 ? { x: x0, y: y0, width: x1 - x0, height: y1 - y0 } : undefined;
}
