import { drawPicture } from "./draw-picture.ts";
import { clearCanvas, markCanvas, markContext, sizeCanvas } from "./mark-canvas.ts";
import { pictureBounds } from "./mark-index.ts";
import { deviceRect, type MarksView, toDevice, transformBetween } from "./marks-view.ts";
import type { ScreenMark, SheetRect } from "./screen-mark.ts";

/** Room round what is drawn, CSS pixels: lines have a least width on the screen. */
const AROUND = 4;
/** Sides of the canvas grow in steps, device pixels, so that a small move needs no other canvas. */
const STEP = 128;

/** What is half done, drawn with every move of the pointer: on a canvas no larger than what it covers, and moved there. */
export class DraftPicture {
  readonly element = markCanvas();
  #drawnFor: MarksView | undefined;
  /** Where the canvas lies in the view it was drawn for, CSS pixels. */
  #corner: readonly [number, number] = [0, 0];

  draw(view: MarksView, marks: readonly ScreenMark[]): void {
    const covered = deviceRect(view, boundsOf(marks), AROUND);
    if (!covered) {
      this.element.style.display = "none";
      clearCanvas(markContext(this.element));
      this.#drawnFor = undefined;
      return;
    }
    const { x, y, width, height } = covered;
    sizeCanvas(this.element, inSteps(width), inSteps(height), view.ratio);
    const context = markContext(this.element);
    clearCanvas(context);
    const [a, b, c, d, e, f] = toDevice(view);
    for (const { picture, faint } of marks) drawPicture(context, picture, [a, b, c, d, e - x, f - y], faint ? 0.35 : 1);
    this.#drawnFor = view;
    this.#corner = [x / view.ratio, y / view.ratio];
    this.element.style.display = "";
    this.follow(view);
  }

  /** Moves what was drawn to where the view is now. */
  follow(view: MarksView): void {
    if (this.#drawnFor) this.element.style.transform = transformBetween(this.#drawnFor, view, ...this.#corner);
  }

  destroy(): void {
    this.element.width = this.element.height = 0;
    this.element.remove();
  }
}

const inSteps = (long: number): number => Math.ceil(long / STEP) * STEP;

const boundsOf = (marks: readonly ScreenMark[]): SheetRect => {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { picture } of marks) {
    const box = pictureBounds(picture);
    [x0, y0, x1, y1] = [Math.min(x0, box.x0), Math.min(y0, box.y0), Math.max(x1, box.x1), Math.max(y1, box.y1)];
  }
  return { x0, y0, x1, y1 };
};
