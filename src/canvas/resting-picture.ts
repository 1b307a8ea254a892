import { clearCanvas, finishDrawing, markCanvas, markContext, sizeCanvas } from "./mark-canvas.ts";
import { type DeviceRect, deviceRectOf, type MarksView, sameView, transformBetween } from "./marks-view.ts";
import { takeMessages } from "./take-messages.ts";

/** Draws one thing, in device pixels of the view it was made for. The context's transform and styles are its own to change. */
export type Stroke = (context: CanvasRenderingContext2D) => void;

/** So many things are drawn before the clock is read. */
const CHUNK = 60;
/** A slice of drawing takes about so long, milliseconds; then the page gets its turn. */
const SLICE_MS = 8;

/**
 * A picture of the view that is drawn in slices on a canvas nobody sees, while the one before stays and moves with the
 * view; when all is drawn the two change places. What changes in a few places only is mended where it is.
 */
export class RestingPicture {
  readonly element = document.createElement("div");
  #front = markCanvas();
  #back = markCanvas();
  #drawnFor: MarksView | undefined;
  /** What was to replace the picture in front was given up. */
  #outdated = false;
  #drawing: { readonly view: MarksView; readonly controller: AbortController } | undefined;

  constructor() {
    this.element.append(this.#front, this.#back);
  }

  /** True when the latest picture, in front or still being drawn, is of this view. */
  isOf(view: MarksView): boolean {
    const latest = this.#drawing?.view ?? (this.#outdated ? undefined : this.#drawnFor);
    return latest !== undefined && sameView(latest, view);
  }

  /** True while a picture is being drawn in slices. */
  get isDrawing(): boolean {
    return this.#drawing !== undefined;
  }

  /** The view the picture in front was drawn for: where it may be mended. */
  get drawnFor(): MarksView | undefined {
    return this.#drawnFor;
  }

  /** Draws all this for the view; what was being drawn is given up. Little of it is there at once. False when it was given up itself. */
  async draw(view: MarksView, strokes: readonly Stroke[]): Promise<boolean> {
    this.stop();
    if (strokes.length === 0) {
      this.#empty(view);
      return true;
    }
    const controller = new AbortController();
    this.#drawing = { view, controller };
    const { width, height } = deviceRectOf(view);
    sizeCanvas(this.#back, width, height, view.ratio);
    const context = markContext(this.#back);
    clearCanvas(context);
    let began = performance.now();
    for (let i = 0; i < strokes.length; i++) {
      strokes[i]!(context);
      if (i % CHUNK !== CHUNK - 1) continue;
      finishDrawing(context);
      if (performance.now() - began < SLICE_MS) continue;
      await takeMessages();
      if (controller.signal.aborted) return false;
      began = performance.now();
    }
    this.#drawing = undefined;
    this.#outdated = false;
    this.#drawnFor = view;
    [this.#front, this.#back] = [this.#back, this.#front];
    this.#front.style.transform = "";
    this.#front.style.display = "";
    this.#back.style.display = "none";
    return true;
  }

  /** Draws one part of the picture in front again: what touches it, in order, cut off at its edges; over when this returns. */
  mend({ x, y, width, height }: DeviceRect, strokes: readonly Stroke[]): void {
    const view = this.#drawnFor;
    if (!view) return;
    const { width: wide, height: high } = deviceRectOf(view);
    if (this.#front.style.display === "none") {
      sizeCanvas(this.#front, wide, high, view.ratio);
      clearCanvas(markContext(this.#front));
    }
    const context = markContext(this.#front);
    context.save();
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(x, y, width, height);
    context.beginPath();
    context.rect(x, y, width, height);
    context.clip();
    for (const stroke of strokes) stroke(context);
    context.restore();
    finishDrawing(context);
    this.#front.style.display = "";
  }

  /** Moves the picture in front to where the view is now. What is being drawn for another view is given up. */
  follow(view: MarksView): void {
    if (this.#drawing && !sameView(this.#drawing.view, view)) this.stop();
    if (this.#drawnFor) this.#front.style.transform = transformBetween(this.#drawnFor, view);
  }

  /** Gives up what is being drawn. */
  stop(): void {
    if (this.#drawing) this.#outdated = true;
    this.#drawing?.controller.abort();
    this.#drawing = undefined;
  }

  destroy(): void {
    this.stop();
    // A canvas without pixels gives its memory back now, not when the collector comes by.
    for (const canvas of [this.#front, this.#back]) canvas.width = canvas.height = 0;
    this.element.remove();
  }

  #empty(view: MarksView): void {
    this.#outdated = false;
    this.#drawnFor = view;
    this.#front.style.display = "none";
    this.#front.style.transform = "";
  }
}
