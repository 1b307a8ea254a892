import type { Point2 } from "../geometry/point.ts";
import { applyTo } from "../geometry/similarity.ts";
import type { Id } from "./fields.ts";
import { inLabelOrder } from "./label-order.ts";
import { sheetToBuilding } from "./registration.ts";
import type { Job } from "./schema.ts";

/** A line of the building's grid in building space, inches. */
export interface GridLine {
  readonly label: string;
  readonly line: readonly [Point2, Point2];
}

/**
 * The grid of the frame a viewport lies in: the one kept with the viewport itself, else that of the first viewport of the same frame that has
 * one. None where no grid is kept, or the viewport has no place in the building yet.
 */
export function gridLinesOf(job: Job, viewport: Id): readonly GridLine[] {
  const own = sheetToBuilding(job, viewport);
  if (!own.ok) return [];
  const holders = [viewport, ...Object.keys(job.viewports).sort()];
  for (const id of holders) {
    const { grid } = job.viewports[id]!;
    const placed = grid && sheetToBuilding(job, id);
    if (!placed?.ok || placed.value.root !== own.value.root) continue;
    const { sim } = placed.value;
    return grid!.map(({ label, line: [a, b] }) => ({ label, line: [applyTo(sim, a), applyTo(sim, b)] }));
  }
  return [];
}

/** Lines whose directions differ by less are of one family: 2 degrees. */
const PARALLEL_SIN = Math.sin((2 * Math.PI) / 180);
/** Nearer than this to a line counts as on it, inches. */
const ON_IT_IN = 6;

/** Where a place lies in one family of a grid: on a line, between two, or beyond the last. */
export type GridReach =
  | { readonly is: "on"; readonly line: string }
  | { readonly is: "between"; readonly from: string; readonly to: string }
  | { readonly is: "beyond"; readonly line: string };

/**
 * Where a place in the building lies in its grid, family by family of parallel lines; families of letters come first. A family of one line says
 * only what lies on it. Empty where there is no grid.
 */
export function gridReach(lines: readonly GridLine[], at: Point2): readonly GridReach[] {
  const reaches = familiesOf(lines).flatMap((family): GridReach[] => {
    const [{ line }] = family as [GridLine];
    const normal = normalOf(line);
    const along = (p: Point2): number => p[0] * normal[0] + p[1] * normal[1];
    const here = along(at);
    const offsets = family
      .map((one) => ({ label: one.label, off: offsetAt(one, at, normal) - here }))
      .sort((a, b) => a.off - b.off);
    const nearest = offsets.reduce((best, one) => (Math.abs(one.off) < Math.abs(best.off) ? one : best));
    if (Math.abs(nearest.off) <= ON_IT_IN) return [{ is: "on", line: nearest.label }];
    const before = offsets.findLast(({ off }) => off < 0);
    const after = offsets.find(({ off }) => off > 0);
    if (before && after) return [{ is: "between", ...inOrder(before.label, after.label) }];
    return family.length > 1 ? [{ is: "beyond", line: nearest.label }] : [];
  });
  return reaches;
}

/** Parallel lines together, those with letters first, else in the order of the grid. */
function familiesOf(lines: readonly GridLine[]): GridLine[][] {
  const families: GridLine[][] = [];
  for (const one of lines) {
    const normal = normalOf(one.line);
    const family = families.find(([first]) => {
      const other = normalOf(first!.line);
      return Math.abs(normal[0] * other[1] - normal[1] * other[0]) < PARALLEL_SIN;
    });
    if (family) family.push(one);
    else families.push([one]);
  }
  const hasLetters = (family: readonly GridLine[]): boolean => family.some(({ label }) => /^\p{L}/u.test(label));
  return [...families.filter(hasLetters), ...families.filter((family) => !hasLetters(family))];
}

function normalOf([a, b]: GridLine["line"]): Point2 {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const long = Math.hypot(dx, dy) || 1;
  return [-dy / long, dx / long];
}

/** How far along the family's normal a line lies beside a place: lines that are not quite parallel are read there. */
function offsetAt({ line: [a, b] }: GridLine, at: Point2, normal: Point2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  // From `at` along the normal to the line.
  const across = normal[0] * dy - normal[1] * dx;
  const t = ((a[0] - at[0]) * dy - (a[1] - at[1]) * dx) / across;
  return at[0] * normal[0] + at[1] * normal[1] + t;
}

/** Two neighbours in the order in which the grid counts them. */
function inOrder(one: string, other: string): { from: string; to: string } {
  return inLabelOrder(one, other) <= 0 ? { from: one, to: other } : { from: other, to: one };
}
