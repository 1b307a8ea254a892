import type { Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";

/**
 * The viewport of a sheet that holds a point: the smallest region around it (edges count), else `preferred` when it is on the sheet and
 * holds the whole page, else the first that does. Null when no viewport of the sheet holds the point.
 */
export function viewportAt(job: Job, sheet: Id, [x, y]: Point2, preferred: Id | null): Id | null {
  let best: { id: Id; size: number } | undefined;
  let whole: Id | null = null;
  for (const [id, viewport] of Object.entries(job.viewports)) {
    if (viewport.sheet !== sheet) continue;
    if (viewport.region === null) {
      if (whole === null || id === preferred) whole = id;
      continue;
    }
    const [x0, y0, x1, y1] = viewport.region;
    if (x < x0 || x > x1 || y < y0 || y > y1) continue;
    const size = (x1 - x0) * (y1 - y0);
    if (!best || size < best.size) best = { id, size };
  }
  return best?.id ?? whole;
}
