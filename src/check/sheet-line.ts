import { distance2, lerp2, type Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { subjectShown } from "./run-profile.ts";
import { unroll } from "./unroll.ts";

/** What a profile shows as it lies on its sheet: its vertices, sheet space, and their stations, inches. */
interface SheetLine {
  readonly sheet: Id;
  readonly points: readonly Point2[];
  readonly stations: readonly number[];
}

/** The line of a run, or of a raceway of a rack as `runProfile` has it; undefined where there is none, or no scale for its stations. */
export function sheetLine(job: Job, elementId: Id, member?: string): SheetLine | undefined {
  const subject = subjectShown(job, elementId, member);
  if (!subject || !("vertices" in subject.element)) return undefined;
  const shape = subject.shape();
  const unrolled = unroll(shape, subject.element.vertices.length);
  const sheet = job.viewports[subject.element.viewport]?.sheet;
  if (!unrolled || sheet === undefined) return undefined;
  const { stations } = unrolled;
  return { sheet, points: stations.map((station) => shape.sheetAt(station)), stations };
}

/** The station of the line nearest to a place of its sheet, where it is within `reach` (inclusive), sheet units. */
export function stationNear({ points, stations }: SheetLine, at: Point2, reach: number): number | undefined {
  let best: { station: number; distance: number } | undefined;
  for (let i = 0; i + 1 < points.length; i++) {
    const [a, b] = [points[i]!, points[i + 1]!];
    const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
    const square = ux * ux + uy * uy;
    const t = square > 0 ? Math.min(1, Math.max(0, ((at[0] - a[0]) * ux + (at[1] - a[1]) * uy) / square)) : 0;
    const distance = distance2(lerp2(a, b, t), at);
    if (distance > reach || (best && distance >= best.distance)) continue;
    best = { station: stations[i]! + t * (stations[i + 1]! - stations[i]!), distance };
  }
  return best?.station;
}
