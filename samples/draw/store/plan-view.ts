import type { Paper, Pen } from "../pen.ts";
import { FOOT, type PlanPlace, place } from "../plan-place.ts";

type Stroke = NonNullable<Parameters<Pen["line"]>[2]>;
type Paint = NonNullable<Parameters<Pen["rect"]>[3]>;

/** Draws in plan feet on one plan, and of lines and rectangles only what the plan shows: nothing is hidden under the margin. */
export class PlanView {
  readonly pen: Pen;
  readonly #place: PlanPlace;
  /** What the plan shows, feet. */
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];

  constructor(pen: Pen, plan: PlanPlace, x: readonly [number, number], y: readonly [number, number]) {
    this.pen = pen;
    this.#place = plan;
    this.x = x;
    this.y = y;
  }

  /** Points of the sheet a foot of the building takes. */
  get foot(): number {
    return this.#place.pointsPerInch * FOOT;
  }

  at(x: number, y: number): Paper {
    return place(this.#place, [x * FOOT, y * FOOT]);
  }

  shows(x: number, y: number): boolean {
    return x >= this.x[0] && x <= this.x[1] && y >= this.y[0] && y <= this.y[1];
  }

  /** The part of an upright rectangle that the plan shows, as low and high corners in feet. */
  part(x0: number, y0: number, x1: number, y1: number): readonly [number, number, number, number] | undefined {
    const [left, right] = [Math.max(x0, this.x[0]), Math.min(x1, this.x[1])];
    const [low, high] = [Math.max(y0, this.y[0]), Math.min(y1, this.y[1])];
    return left < right && low < high ? [left, low, right, high] : undefined;
  }

  /** A level or upright line. */
  line(x0: number, y0: number, x1: number, y1: number, stroke: Stroke = {}): void {
    const [left, right] = [Math.max(Math.min(x0, x1), this.x[0]), Math.min(Math.max(x0, x1), this.x[1])];
    const [low, high] = [Math.max(Math.min(y0, y1), this.y[0]), Math.min(Math.max(y0, y1), this.y[1])];
    if (left > right || low > high || (left === right && low === high)) return;
    this.pen.line(this.at(left, low), this.at(right, high), stroke);
  }

  rect(x0: number, y0: number, x1: number, y1: number, paint: Paint = {}): void {
    const part = this.part(x0, y0, x1, y1);
    if (!part) return;
    const [low, high] = [this.at(part[0], part[1]), this.at(part[2], part[3])];
    this.pen.rect(low, high[0] - low[0], high[1] - low[1], paint);
  }

  /** Draws at a place, where the plan shows it. */
  mark(x: number, y: number, draw: (at: Paper) => void): void {
    if (this.shows(x, y)) draw(this.at(x, y));
  }
}
