import type { Point2 } from "../geometry/point.ts";
import { applyTo } from "../geometry/similarity.ts";
import type { Id } from "../job/fields.ts";
import { type GridReach, gridLinesOf, gridReach } from "../job/grid-lines.ts";
import { sheetToBuilding } from "../job/registration.ts";
import type { Job } from "../job/schema.ts";

/** Where a place on a sheet lies in the grid of its building; empty where no grid is kept. */
export function gridReachOnSheet(job: Job, viewport: Id | undefined, at: Point2): readonly GridReach[] {
  const lines = viewport === undefined ? [] : gridLinesOf(job, viewport);
  const placed = lines.length > 0 ? sheetToBuilding(job, viewport!) : undefined;
  return placed?.ok ? gridReach(lines, applyTo(placed.value.sim, at)) : [];
}

/** A place in the grid as the trade writes it: `grid B–C / 3–4`, `grid B / beyond 6`; "" where there is nothing to say. */
export const gridWords = (reaches: readonly GridReach[]): string =>
  reaches.length === 0 ? "" : `grid ${reaches.map(reachWords).join(" / ")}`;

function reachWords(reach: GridReach): string {
  if (reach.is === "between") return `${reach.from}–${reach.to}`;
  return reach.is === "on" ? reach.line : `beyond ${reach.line}`;
}

/** Where a finding lies in the grid, as the trade writes it; "" where no grid is kept. */
export const gridOfFinding = (job: Job, { elementId, at }: { readonly elementId: Id; readonly at: Point2 }): string =>
  gridWords(gridReachOnSheet(job, job.elements[elementId]?.viewport, at));
