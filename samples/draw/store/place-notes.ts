import type { Paper, Pen } from "../pen.ts";

/** An upright rectangle of the sheet: left, low, right, high; points. */
type Box = readonly [number, number, number, number];

/** Places lettering along lines where it covers least: no other lettering if that can be had, then as little linework as can be. */
export class NotePlacer {
  readonly #pen: Pen;
  readonly #taken: Box[] = [];
  readonly #lines: (readonly [Paper, Paper])[] = [];

  constructor(pen: Pen) {
    this.#pen = pen;
  }

  /** Keeps a rectangle free of lettering. */
  keep(box: Box): void {
    this.#taken.push(box);
  }

  /** Lettering should rather not lie across this level or upright line. */
  line(a: Paper, b: Paper): void {
    this.#lines.push([a, b]);
  }

  /** Writes a note along a level or upright segment. `near`: where along it is liked best, 0 to 1; `tied`: and not far from there. */
  along(text: string, a: Paper, b: Paper, size: number, near: number, tied = false): void {
    const upright = Math.abs(a[0] - b[0]) < 0.01;
    const [low, high] = upright ? (a[1] < b[1] ? [a, b] : [b, a]) : a[0] < b[0] ? [a, b] : [b, a];
    const width = this.#pen.widthOf(text, size);
    const long = upright ? high[1] - low[1] : high[0] - low[0];
    const side = [2.2, -size * 0.86 - 1.6, 8.5, -size * 0.86 - 8, 15, -size * 0.86 - 15];
    let best: { cost: number; at: Paper; box: Box } | undefined;
    const fractions = [near, 0.5, 0.3, 0.7, 0.18, 0.82, 0.08, 0.92, 0, 1].filter(
      (at) => !tied || Math.abs(at - near) < 0.13,
    );
    for (const [rank, fraction] of fractions.entries())
      for (const [which, off] of side.entries()) {
        // Kept on its segment where it fits there.
        const half = width / 2;
        const free = long - width;
        const along =
          free > 4
            ? Math.max(half + 2, Math.min(long - half - 2, fraction * long))
            : (fraction - 0.5) * Math.abs(free) * 0.5 + long / 2;
        const at: Paper = upright ? [low[0] - off, low[1] + along] : [low[0] + along, low[1] + off];
        const box: Box = upright
          ? [at[0] - size * 0.86, at[1] - half, at[0] + size * 0.28, at[1] + half]
          : [at[0] - half, at[1] - size * 0.28, at[0] + half, at[1] + size * 0.86];
        const cost = this.#cost(box) + rank * 0.4 + which * 0.8;
        if (!best || cost < best.cost) best = { cost, at, box };
      }
    this.#taken.push(best!.box);
    this.#pen.text(text, best!.at, {
      size,
      align: "middle",
      turn: upright ? 90 : 0,
      mask: !this.#liesOnLine(best!.box, upright),
    });
  }

  /** Whether a line runs along under the lettering: clearing that would take it out of the drawing. */
  #liesOnLine(box: Box, upright: boolean): boolean {
    return this.#lines.some(([a, b]) => {
      if ((a[0] === b[0]) !== upright) return false;
      const [dx, dy] = overlapOf(box, boundsOf(a, b));
      return dx >= 0 && dy >= 0;
    });
  }

  #cost(box: Box): number {
    let cost = 0;
    for (const other of this.#taken) {
      const [dx, dy] = overlapOf(box, other);
      if (dx > 0 && dy > 0) cost += 40 + dx * dy;
    }
    for (const [a, b] of this.#lines) {
      const [dx, dy] = overlapOf(box, boundsOf(a, b));
      if (dx >= 0 && dy >= 0) cost += 5 + Math.max(dx, dy) * 0.5;
    }
    return cost;
  }
}

const boundsOf = (a: Paper, b: Paper): Box => [
  Math.min(a[0], b[0]),
  Math.min(a[1], b[1]),
  Math.max(a[0], b[0]),
  Math.max(a[1], b[1]),
];

/** How far two rectangles overlap across and up; negative where they do not. */
const overlapOf = (a: Box, b: Box): readonly [number, number] => [
  Math.min(a[2], b[2]) - Math.max(a[0], b[0]),
  Math.min(a[3], b[3]) - Math.max(a[1], b[1]),
];
