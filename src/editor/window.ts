import type { Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import { inLabelOrder } from "../job/label-order.ts";
import type { Job } from "../job/schema.ts";
import type { Outline } from "./handles.ts";
import { type Placed, placedOn } from "./near.ts";
import type { Picked, PickedTable } from "./selection.ts";
import type { Stage } from "./stage.ts";

/** What a rectangle of the sheet takes: all that it touches, or only what lies wholly inside it. */
export type WindowTakes = "touched" | "inside";

/** The tables that are selected by the many while a stage is in hand: what lies under them, drawn faintly, is left alone. */
const TABLES: Readonly<Record<Stage, readonly PickedTable[]>> = {
  sheet: ["elements", "notes"],
  roof: ["areas", "storeyOutlines"],
  wiring: ["elements", "notes"],
  check: ["elements", "notes"],
  issue: ["elements", "notes"],
};

/** A sheet of a job as it is shown, and the stage in hand. */
interface Shown {
  readonly job: Job;
  readonly sheet: Id | null;
  readonly stage: Stage;
}

/** All that lies on the shown sheet and belongs to the stage in hand, R-2 before R-10. */
export function allOnSheet({ job, sheet, stage }: Shown): readonly Placed[] {
  if (sheet === null) return [];
  return placedOn(job, sheet)
    .filter(({ table }) => TABLES[stage].includes(table))
    .toSorted((a, b) => inLabelOrder(a.record.label, b.record.label));
}

/** What of the stage in hand a rectangle between two opposite corners takes, sheet space, sides inclusive. */
export function inWindow(shown: Shown, a: Point2, b: Point2, takes: WindowTakes): readonly Picked[] {
  const [x0, x1, y0, y1] = [Math.min(a[0], b[0]), Math.max(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[1], b[1])];
  return allOnSheet(shown)
    .filter(({ outline }) => {
      const { min, max } = outline;
      if (min[0] >= x0 && max[0] <= x1 && min[1] >= y0 && max[1] <= y1) return true;
      if (takes === "inside" || max[0] < x0 || min[0] > x1 || max[1] < y0 || min[1] > y1) return false;
      return touches(outline, x0, y0, x1, y1);
    })
    .map(({ table, id }) => ({ table, id }));
}

/** Whether a line of the thing, or a point of one without lines, lies in the rectangle. The inside of an area counts for nothing: it is under everything. */
function touches({ strands }: Outline, x0: number, y0: number, x1: number, y1: number): boolean {
  const lines = strands.filter(({ joined }) => joined);
  if (lines.length === 0)
    return strands.some(({ knots }) => knots.some(({ at: [x, y] }) => x >= x0 && x <= x1 && y >= y0 && y <= y1));
  return lines.some(({ knots, closed }) =>
    knots.some(({ at }, i) => {
      const next = knots[i + 1] ?? (closed ? knots[0] : undefined);
      return next !== undefined && crosses(at, next.at, x0, y0, x1, y1);
    }),
  );
}

/** Whether a part of the segment lies in the rectangle: what is left of it between each pair of sides. */
function crosses(a: Point2, b: Point2, x0: number, y0: number, x1: number, y1: number): boolean {
  let [from, to] = [0, 1];
  for (const [start, end, low, high] of [
    [a[0], b[0], x0, x1],
    [a[1], b[1], y0, y1],
  ] as const) {
    const length = end - start;
    if (length === 0) {
      if (start < low || start > high) return false;
      continue;
    }
    const [s, t] = [(low - start) / length, (high - start) / length];
    from = Math.max(from, Math.min(s, t));
    to = Math.min(to, Math.max(s, t));
  }
  return from <= to;
}
