import type { Point2 } from "../geometry/point.ts";

/**
 * What already lies where on a sheet, as weights in square cells: labels and symbols look here for room. Sheet space.
 * A plain grid, so that a place depends on nothing but what was put down before it.
 */
export class Occupancy {
  readonly #cell: number;
  readonly #columns: number;
  readonly #rows: number;
  readonly #weights: Uint8Array;
  readonly #view: readonly [number, number, number, number];

  /** `cell` is the size wanted; cells grow where the page would need more than a million of them. */
  constructor(view: readonly [number, number, number, number], cell: number) {
    const [width, height] = [view[2] - view[0], view[3] - view[1]];
    this.#view = view;
    this.#cell = Math.max(cell, Math.sqrt((width * height) / 1e6), width / 60_000, height / 60_000);
    this.#columns = Math.max(1, Math.ceil(width / this.#cell));
    this.#rows = Math.max(1, Math.ceil(height / this.#cell));
    this.#weights = new Uint8Array(this.#columns * this.#rows);
  }

  /** Marks the cells under a parallelogram (corners in order). */
  addBox(corners: readonly Point2[], weight: number): void {
    const { a, across, up, ux, uy, vx, vy } = this.#grid(corners);
    for (let j = 0; j <= up; j++) {
      for (let i = 0; i <= across; i++) {
        const index = this.#index(a[0] + ux * i + vx * j, a[1] + uy * i + vy * j);
        if (index >= 0) this.#weights[index] = Math.min(255, (this.#weights[index] as number) + weight);
      }
    }
  }

  /** Marks the cells a line passes through. */
  addLine(points: readonly Point2[], weight: number): void {
    let last = -1;
    this.#eachOnLine(points, (index) => {
      if (index >= 0 && index !== last) this.#weights[index] = Math.min(255, (this.#weights[index] as number) + weight);
      last = index;
    });
  }

  /**
   * Sum of the weights under a parallelogram; infinite where a part of it lies off the page. Stops counting above `enough`,
   * where the answer is only "more than that".
   */
  costOfBox(corners: readonly Point2[], enough = Infinity): number {
    const { a, across, up, ux, uy, vx, vy } = this.#grid(corners);
    let sum = 0;
    for (let j = 0; j <= up; j++) {
      for (let i = 0; i <= across; i++) {
        const index = this.#index(a[0] + ux * i + vx * j, a[1] + uy * i + vy * j);
        if (index < 0) return Infinity;
        sum += this.#weights[index] as number;
        if (sum > enough) return sum;
      }
    }
    return sum;
  }

  /** Sum of the weights a straight line passes over. */
  costOfLine(points: readonly Point2[]): number {
    let sum = 0;
    let last = -1;
    this.#eachOnLine(points, (index) => {
      if (index >= 0 && index !== last) sum += this.#weights[index] as number;
      last = index;
    });
    return sum;
  }

  #index(x: number, y: number): number {
    if (x < this.#view[0] || y < this.#view[1] || x > this.#view[2] || y > this.#view[3]) return -1;
    const column = Math.min(this.#columns - 1, Math.floor((x - this.#view[0]) / this.#cell));
    const row = Math.min(this.#rows - 1, Math.floor((y - this.#view[1]) / this.#cell));
    return row * this.#columns + column;
  }

  /** The samples of a parallelogram, at least one a cell: counts along both sides and the steps between them. */
  #grid([a, b, , d]: readonly Point2[]) {
    if (!a || !b || !d) return { a: [0, 0] as Point2, across: -1, up: -1, ux: 0, uy: 0, vx: 0, vy: 0 };
    const across = Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / this.#cell));
    const up = Math.max(1, Math.ceil(Math.hypot(d[0] - a[0], d[1] - a[1]) / this.#cell));
    const [ux, uy] = [(b[0] - a[0]) / across, (b[1] - a[1]) / across];
    const [vx, vy] = [(d[0] - a[0]) / up, (d[1] - a[1]) / up];
    return { a, across, up, ux, uy, vx, vy };
  }

  #eachOnLine(points: readonly Point2[], visit: (index: number) => void): void {
    for (let i = 0; i + 1 < points.length; i++) {
      const a = points[i] as Point2;
      const b = points[i + 1] as Point2;
      const steps = Math.min(100_000, Math.max(1, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / this.#cell)));
      for (let k = 0; k <= steps; k++) {
        visit(this.#index(a[0] + ((b[0] - a[0]) * k) / steps, a[1] + ((b[1] - a[1]) * k) / steps));
      }
    }
  }
}
