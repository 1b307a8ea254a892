import type { Point2 } from "../geometry/point.ts";
import type { Matrix } from "../pdf/read/matrix.ts";
import { DraftPicture } from "./draft-picture.ts";
import { drawPicture } from "./draw-picture.ts";
import { MarkIndex, markBounds, type NearMark } from "./mark-index.ts";
import { type DeviceRect, deviceRectOf, type MarksView, sheetRect, toDevice } from "./marks-view.ts";
import { Mending } from "./mending.ts";
import { RestingPicture, type Stroke } from "./resting-picture.ts";
import { type HitShape, MARK_LAYERS, type MarkLayer, type ScreenMark, type SheetRect } from "./screen-mark.ts";

/** The halo of a selected mark: CSS pixels wide, on top of the width of its lines. */
const HALO_PX = 12;
const HALO_COLOUR = "rgb(230 159 0)";
/** Room round a changed mark, CSS pixels: for a halo, and for lines that have a least width on the screen. */
const AROUND = HALO_PX / 2 + 4;
/** Up to so many changed places are mended one by one; more mean drawing all, in slices. */
const MENDED = 120;

/** What of the picture is no longer right: nothing, some places (sheet space), or all of it. */
type Stale = readonly SheetRect[] | "all";

/**
 * The marks over the drawing, on two canvases: one for what rests, drawn in slices and only where something changed, one
 * for what is half done. Only what is in view is drawn.
 */
export class MarksLayer {
  readonly element = document.createElement("div");
  readonly #resting = new RestingPicture();
  readonly #draft = new DraftPicture();
  readonly #mending = new Mending(this.#resting, (view, part) => this.#strokesIn(view, part));
  readonly #indexes = new Map<MarkLayer, MarkIndex>(MARK_LAYERS.map((layer) => [layer, new MarkIndex([])]));
  #selected: ReadonlySet<string> = new Set();
  #stale: Stale = "all";
  /** Places that changed while a picture is being drawn: they are mended when it is there. */
  #late: readonly SheetRect[] = [];

  constructor() {
    this.element.style.cssText = "position:absolute;inset:0;pointer-events:none";
    this.element.append(this.#resting.element, this.#draft.element);
  }

  /** Replaces the marks of a layer; drawn with the next `draw`. */
  set(layer: MarkLayer, marks: readonly ScreenMark[]): void {
    const before = this.#indexes.get(layer)!;
    const index = new MarkIndex(marks, before);
    if (layer !== "draft") this.#spoil(seenOf(index.changes));
    this.#indexes.set(layer, index);
  }

  select(keys: readonly string[]): void {
    const now = new Set(keys);
    const changed = [...new Set([...now, ...this.#selected])].filter((key) => now.has(key) !== this.#selected.has(key));
    this.#selected = now;
    if (changed.length > 0) this.#spoil(this.#withKeys(new Set(changed)));
  }

  /** Everything is drawn afresh with the next `draw`: the faces have come, say. */
  spoil(): void {
    this.#stale = "all";
  }

  /**
   * Draws for the view what is not there yet. Changed places of the picture in front are mended at once, also while another one is drawn for a
   * view that has moved: that one is drawn to its end, however often something changes meanwhile, and mended then.
   */
  draw(view: MarksView): void {
    this.#draft.draw(view, this.#indexes.get("draft")!.marks);
    const stale = this.#stale;
    this.#stale = [];
    this.#resting.follow(view);
    if (stale === "all" || !this.#resting.isOf(view)) void this.#drawAll(view);
    else if (this.#resting.isDrawing) this.#late = [...this.#late, ...stale];
    if (stale !== "all") this.#mending.add(stale, AROUND);
    this.#mending.start();
  }

  async #drawAll(view: MarksView): Promise<void> {
    this.#late = [];
    if (!(await this.#resting.draw(view, this.#strokesIn(view, deviceRectOf(view))))) return;
    // What was to be mended was so in the picture before.
    this.#mending.clear();
    this.#mending.add(this.#late, AROUND);
    this.#late = [];
    this.#mending.start();
  }

  /** Draws only what is half done. */
  drawDraft(view: MarksView): void {
    this.#draft.draw(view, this.#indexes.get("draft")!.marks);
  }

  /** Follows the view during a gesture by moving the pictures drawn last. */
  follow(view: MarksView): void {
    this.#mending.pause();
    this.#resting.follow(view);
    this.#draft.follow(view);
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
    this.#mending.clear();
    this.#resting.destroy();
    this.#draft.destroy();
    this.element.remove();
  }

  #fromTop(): MarkIndex[] {
    return [...MARK_LAYERS].reverse().map((layer) => this.#indexes.get(layer)!);
  }

  #spoil(marks: readonly ScreenMark[]): void {
    if (this.#stale === "all") return;
    const places = [...this.#stale, ...marks.map(markBounds)];
    this.#stale = places.length > MENDED ? "all" : places;
  }

  /** What is drawn in a part of the view, from the lowest to the topmost. */
  #strokesIn(view: MarksView, part: DeviceRect): Stroke[] {
    const rect = grown(sheetRect(view, part), AROUND, view);
    const matrix = toDevice(view);
    const strokes: Stroke[] = [];
    for (const layer of MARK_LAYERS) {
      if (layer === "draft") continue;
      for (const { picture, faint } of this.#indexes.get(layer)!.inView(rect))
        strokes.push((context) => drawPicture(context, picture, matrix, faint ? 0.35 : 1));
      // The halo lies over areas and under what is drawn finer.
      if (layer === "areas")
        for (const mark of this.#withKeys(this.#selected))
          if (mark.hit) strokes.push((context) => drawHalo(context, mark, matrix, view.ratio));
    }
    return strokes;
  }

  #withKeys(keys: ReadonlySet<string>): ScreenMark[] {
    if (keys.size === 0) return [];
    return [...this.#indexes.values()].flatMap(({ marks }) => marks.filter(({ key }) => keys.has(key)));
  }
}

/** Changes that are to be seen: the same picture drawn as faintly is the same mark. */
const seenOf = ({ gone, come }: MarkIndex["changes"]): ScreenMark[] => {
  const left = new Map(gone.map((mark) => [mark.picture, mark]));
  const others = come.filter((mark) => {
    const known = left.get(mark.picture);
    if (!known || (known.faint ?? false) !== (mark.faint ?? false)) return true;
    left.delete(mark.picture);
    return false;
  });
  return [...left.values(), ...others];
};

const grown = ({ x0, y0, x1, y1 }: SheetRect, pixels: number, { toScreen }: MarksView): SheetRect => {
  const by = pixels / Math.hypot(toScreen[0], toScreen[1]);
  return { x0: x0 - by, y0: y0 - by, x1: x1 + by, y1: y1 + by };
};

const drawHalo = (
  context: CanvasRenderingContext2D,
  { hit, picture }: ScreenMark,
  matrix: Matrix,
  ratio: number,
): void => {
  if (!hit) return;
  const perPixel = ratio / Math.hypot(matrix[0], matrix[1]);
  const line =
    hit.kind === "line" ? Math.max(0, ...picture.map((item) => (item.type === "path" ? (item.width ?? 0) : 0))) : 0;
  context.setTransform(...matrix);
  context.globalAlpha = 0.45;
  context.strokeStyle = HALO_COLOUR;
  context.lineCap = context.lineJoin = "round";
  context.setLineDash([]);
  context.lineWidth = line + HALO_PX * perPixel;
  strokeShape(context, hit, perPixel);
};

const strokeShape = (context: CanvasRenderingContext2D, shape: HitShape, perPixel: number): void => {
  context.beginPath();
  if (shape.kind === "spot") context.arc(shape.at[0], shape.at[1], shape.radius + 4 * perPixel, 0, 2 * Math.PI);
  else {
    for (const [x, y] of shape.kind === "line" ? shape.points : shape.outline) context.lineTo(x, y);
    if (shape.kind === "area") context.closePath();
  }
  context.stroke();
};
