import { Layer } from "konva/lib/Layer.js";
import { Shape } from "konva/lib/Shape.js";
import { Stage } from "konva/lib/Stage.js";
import type { Point2 } from "../geometry/point.ts";
import { chain, type Matrix } from "../pdf/read/matrix.ts";
import { drawPicture } from "./draw-picture.ts";
import { MarkIndex, type NearMark } from "./mark-index.ts";
import { type HitShape, MARK_LAYERS, type MarkLayer, type ScreenMark, type SheetRect } from "./screen-mark.ts";

/** Where the marks are to be drawn: sheet space to CSS pixels, the part of the sheet in view, device pixels a CSS pixel. */
export interface MarksView {
  readonly toScreen: Matrix;
  readonly inView: SheetRect;
  readonly ratio: number;
}

/** Up to so many marks in view are drawn afresh for every frame of a gesture; more are moved as a picture until it ends. */
const DRAWN_EVERY_FRAME = 150;
/** The halo of a selected mark: CSS pixels wide, on top of the width of its lines. */
const HALO_PX = 12;
const HALO_COLOUR = "rgb(230 159 0)";

/** The marks over the drawing: one display-list shape for each layer of marks, on two canvases of one Konva stage. */
export class MarksLayer {
  readonly element: HTMLDivElement;
  readonly #stage: Stage;
  readonly #resting = new Layer({ listening: false, clearBeforeDraw: false });
  readonly #moving = new Layer({ listening: false, clearBeforeDraw: false });
  readonly #indexes = new Map<MarkLayer, MarkIndex>(MARK_LAYERS.map((layer) => [layer, new MarkIndex([])]));
  #selected: ReadonlySet<string> = new Set();
  #view: MarksView | undefined;
  /** The view the canvases were last drawn for, and how many marks that took. */
  #drawn: { readonly view: MarksView; readonly count: number } | undefined;
  #count = 0;

  constructor() {
    this.element = document.createElement("div");
    this.element.style.cssText = "position:absolute;inset:0;pointer-events:none;transform-origin:0 0";
    this.#stage = new Stage({ container: this.element, width: 1, height: 1, listening: false });
    this.#stage.add(this.#resting, this.#moving);
    const shapeOf = (draw: (context: CanvasRenderingContext2D, view: MarksView) => void) =>
      new Shape({
        listening: false,
        perfectDrawEnabled: false,
        sceneFunc: (context) => {
          if (this.#view) draw(context._context, this.#view);
        },
      });
    for (const layer of MARK_LAYERS) {
      const shape = shapeOf((context, view) => this.#drawMarks(layer, context, view));
      if (layer === "draft") this.#moving.add(shape);
      else this.#resting.add(shape);
      // The halo lies over areas and under what is drawn finer.
      if (layer === "areas") this.#resting.add(shapeOf((context, view) => this.#drawHalos(context, view)));
    }
  }

  /** Replaces the marks of a layer; drawn with the next `draw`. */
  set(layer: MarkLayer, marks: readonly ScreenMark[]): void {
    this.#indexes.set(layer, new MarkIndex(marks));
  }

  select(keys: readonly string[]): void {
    this.#selected = new Set(keys);
  }

  resize(width: number, height: number, ratio: number): void {
    for (const layer of [this.#resting, this.#moving]) layer.getCanvas().setPixelRatio(ratio);
    this.#stage.size({ width: Math.max(1, width), height: Math.max(1, height) });
  }

  /** Draws for the view; with `only` "draft", just the topmost canvas. */
  draw(view: MarksView, only?: "draft"): void {
    this.#view = view;
    if (only === "draft" && this.#drawn && sameMatrix(this.#drawn.view.toScreen, view.toScreen)) {
      redraw(this.#moving);
      return;
    }
    this.#count = 0;
    redraw(this.#resting);
    redraw(this.#moving);
    this.#drawn = { view, count: this.#count };
    this.element.style.transform = "";
  }

  /** Follows the view during a gesture, by drawing when that is little, else by moving the picture drawn last. */
  follow(view: MarksView): void {
    if (!this.#drawn || this.#drawn.count <= DRAWN_EVERY_FRAME) {
      this.draw(view);
      return;
    }
    const from = this.#drawn.view.toScreen;
    const k = Math.hypot(view.toScreen[0], view.toScreen[1]) / Math.hypot(from[0], from[1]);
    const x = view.toScreen[4] - k * from[4];
    const y = view.toScreen[5] - k * from[5];
    this.element.style.transform = `matrix(${k},0,0,${k},${x},${y})`;
  }

  /** Keys of the marks within reach of a point, topmost layer first, in a layer nearest first. Sheet space. */
  near(at: Point2, reach: number): string[] {
    return this.#fromTop().flatMap((index) => index.near(at, reach).map(({ mark }: NearMark) => mark.key));
  }

  /** Keys of the marks that touch the rectangle, topmost layer first. Sheet space. */
  touching(rect: SheetRect): string[] {
    return this.#fromTop().flatMap((index) => index.touching(rect).map((mark) => mark.key));
  }

  destroy(): void {
    this.#stage.destroy();
    this.element.remove();
  }

  #fromTop(): MarkIndex[] {
    return [...MARK_LAYERS].reverse().map((layer) => this.#indexes.get(layer)!);
  }

  #drawMarks(layer: MarkLayer, context: CanvasRenderingContext2D, { toScreen, inView, ratio }: MarksView): void {
    const toDevice = chain(toScreen, [ratio, 0, 0, ratio, 0, 0]);
    for (const mark of this.#indexes.get(layer)!.inView(inView)) {
      drawPicture(context, mark.picture, toDevice, mark.faint ? 0.35 : 1);
      this.#count++;
    }
  }

  #drawHalos(context: CanvasRenderingContext2D, { toScreen, ratio }: MarksView): void {
    if (this.#selected.size === 0) return;
    const toDevice = chain(toScreen, [ratio, 0, 0, ratio, 0, 0]);
    const perPixel = ratio / Math.hypot(toDevice[0], toDevice[1]);
    context.setTransform(...toDevice);
    context.globalAlpha = 0.45;
    context.strokeStyle = HALO_COLOUR;
    context.lineCap = context.lineJoin = "round";
    context.setLineDash([]);
    for (const index of this.#indexes.values()) {
      for (const { key, hit, picture } of index.marks) {
        if (!hit || !this.#selected.has(key)) continue;
        const line =
          hit.kind === "line"
            ? Math.max(0, ...picture.map((item) => (item.type === "path" ? (item.width ?? 0) : 0)))
            : 0;
        context.lineWidth = line + HALO_PX * perPixel;
        strokeShape(context, hit, perPixel);
      }
    }
  }
}

/** Chromium may leave a canvas as it was that is cleared at one stroke and then not drawn on: each is cleared in two. */
const redraw = (layer: Layer): void => {
  const context = layer.getContext()._context;
  const { width, height } = context.canvas;
  const half = Math.ceil(width / 2);
  context.save();
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.clearRect(0, 0, half, height);
  context.clearRect(half, 0, width - half, height);
  context.restore();
  layer.draw();
};

const sameMatrix = (a: Matrix, b: Matrix): boolean => a.every((v, i) => v === b[i]);

const strokeShape = (context: CanvasRenderingContext2D, shape: HitShape, perPixel: number): void => {
  context.beginPath();
  if (shape.kind === "spot") context.arc(shape.at[0], shape.at[1], shape.radius + 4 * perPixel, 0, 2 * Math.PI);
  else {
    for (const [x, y] of shape.kind === "line" ? shape.points : shape.outline) context.lineTo(x, y);
    if (shape.kind === "area") context.closePath();
  }
  context.stroke();
};
