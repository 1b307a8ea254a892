import { type DeviceRect, deviceRect, type MarksView } from "./marks-view.ts";
import type { RestingPicture, Stroke } from "./resting-picture.ts";
import type { SheetRect } from "./screen-mark.ts";
import { takeMessages } from "./take-messages.ts";

/** A slice of mending takes about so long, milliseconds; then the page gets its turn. */
const SLICE_MS = 6;
/** A part with more things than this is mended in halves: each of them is over soon. */
const MOST = 250;
/** Parts with shorter sides are not halved, device pixels. */
const LEAST_SIDE = 48;

/** What is mended: where, for which view, and by what. */
type Mended = Pick<RestingPicture, "drawnFor" | "mend">;

/** The places of a picture in front that are no longer right, drawn again one after the other; as few as a frame has time for at once. */
export class Mending {
  readonly #picture: Mended;
  readonly #strokesIn: (view: MarksView, part: DeviceRect) => readonly Stroke[];
  /** Device pixels of the view the picture in front was drawn for. */
  #parts: DeviceRect[] = [];
  #paused = false;
  #isAtWork = false;

  /** `strokesIn`: what is to be seen in a part of a view, from the lowest to the topmost. */
  constructor(picture: Mended, strokesIn: (view: MarksView, part: DeviceRect) => readonly Stroke[]) {
    this.#picture = picture;
    this.#strokesIn = strokesIn;
  }

  /** Places to be mended, sheet space, with `around` CSS pixels more on each side. Those out of view are none. */
  add(places: readonly SheetRect[], around: number): void {
    const view = this.#picture.drawnFor;
    if (!view) return;
    for (const place of places) {
      const part = deviceRect(view, place, around);
      if (part) this.#parts = withPart(this.#parts, part);
    }
  }

  /** Everything is as it should be: nothing is left to be mended. */
  clear(): void {
    this.#parts = [];
  }

  /** Nothing is mended until the next `start`: the view is on the move. */
  pause(): void {
    this.#paused = true;
  }

  /** Mends for one slice at once, what is left in slices that follow. */
  start(): void {
    this.#paused = false;
    if (!this.#isAtWork) void this.#work();
  }

  async #work(): Promise<void> {
    this.#isAtWork = true;
    try {
      while (!this.#paused && this.#slice()) await takeMessages();
    } finally {
      this.#isAtWork = false;
    }
  }

  /** Mends for a while, one part at least; true when something is left. */
  #slice(): boolean {
    const began = performance.now();
    while (this.#parts.length > 0) {
      const view = this.#picture.drawnFor;
      const part = this.#parts.pop()!;
      if (!view) continue;
      const strokes = this.#strokesIn(view, part);
      if (strokes.length > MOST && Math.max(part.width, part.height) >= 2 * LEAST_SIDE)
        this.#parts.push(...halves(part));
      else this.#picture.mend(part, strokes);
      if (performance.now() - began >= SLICE_MS) break;
    }
    return this.#parts.length > 0;
  }
}

/** The parts with one more, joined with those it overlaps where the two together are hardly larger than both. */
function withPart(parts: readonly DeviceRect[], part: DeviceRect): DeviceRect[] {
  let joined = part;
  const apart = parts.filter((other) => {
    const both = around(joined, other);
    if (areaOf(both) > 1.2 * (areaOf(joined) + areaOf(other))) return true;
    joined = both;
    return false;
  });
  return [...apart, joined];
}

const areaOf = ({ width, height }: DeviceRect): number => width * height;

/** The rectangle that holds both. */
const around = (a: DeviceRect, b: DeviceRect): DeviceRect => {
  const [x, y] = [Math.min(a.x, b.x), Math.min(a.y, b.y)];
  return {
    x,
    y,
    width: Math.max(a.x + a.width, b.x + b.width) - x,
    height: Math.max(a.y + a.height, b.y + b.height) - y,
  };
};

const halves = ({ x, y, width, height }: DeviceRect): [DeviceRect, DeviceRect] => {
  if (width >= height) {
    const left = Math.ceil(width / 2);
    return [
      { x, y, width: left, height },
      { x: x + left, y, width: width - left, height },
    ];
  }
  const top = Math.ceil(height / 2);
  return [
    { x, y, width, height: top },
    { x, y: y + top, width, height: height - top },
  ];
};
