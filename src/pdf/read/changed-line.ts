import { intersect } from "../../geometry/interval-set.ts";
import { distance2, type Point2 } from "../../geometry/point.ts";
import { invert, mapBy, type Similarity } from "../../geometry/similarity.ts";
import { type ComparedLines, sameLine } from "./compare-linework.ts";
import { lengthOfSet, linesAlong } from "./lines-along.ts";
import { chosen, type Linework, SEGMENT } from "./linework.ts";
import { endOf, startOf } from "./segment-geometry.ts";

/** What two issues of a sheet draw, how one lies on the other, and what the comparison of their lines came to. */
export interface TwoIssues {
  readonly old: Linework;
  readonly fresh: Linework;
  /** From the old sheet's space to that of the new. */
  readonly sim: Similarity;
  readonly compared: ComparedLines;
}

/** What became of the line that was drawn along a path. */
export interface ChangedLine {
  /** Which part of the path the old issue drew a line along, 0 to 1. */
  readonly drawn: number;
  /** Which part of that line the new issue still draws there, 0 to 1; 1 where none was drawn. */
  readonly there: number;
  /** How far beside its old place what is missing is drawn now, 1/72 in. of the new paper; null where it is nowhere near, or nothing is missing. */
  readonly movedPt: number | null;
  /** Length of other lines that are drawn beside the path on one of the issues only, 1/72 in. of the new paper. */
  readonly besidePt: number;
}

/** How far beside a path its line may be drawn, 1/72 in. of the old paper: a hand puts points no nearer. */
const TRACED_PT = 4;
/** Dashes and symbols that break a line: gaps so long are bridged, 1/72 in. of the old paper. */
const BROKEN_PT = 12;
/** How far beside its old place a line is looked for, 1/72 in. of the new paper. */
const MOVED_PT = 108;
/** Moved lines are gathered by how far they moved, in steps of 1/72 in. of the new paper. */
const STEP_PT = 1;
/** So much of what is missing must be drawn beside it to count as moved. */
const MOST_OF_IT = 0.5;
/** What lies this near a path is beside it, 1/72 in. of the new paper. */
const BESIDE_PT = 7;

/** Compares the line drawn along a path (old sheet space; a single point has only what is beside it) with what the new issue draws there. */
export function changedLine(issues: TwoIssues, path: readonly Point2[]): ChangedLine {
  const { old, fresh, sim } = issues;
  const map = mapBy(sim);
  const [oldLines, newLines] = [lineOnly(old), lineOnly(fresh)];
  const tolerance = 1.5 * sameLine(old, fresh, sim);
  const broken = (BROKEN_PT / old.userUnit) * sim.scale;
  const traced = TRACED_PT / old.userUnit;
  let [length, drawn, there] = [0, 0, 0];
  const moved = new Map<number, number>();
  for (let i = 1; i < path.length; i++) {
    const [a, b] = [path[i - 1]!, path[i]!];
    const leg = distance2(a, b);
    if (leg === 0) continue;
    length += leg;
    // The drawn line itself, which may lie beside what was traced: where it is, exactly.
    const along = linesAlong(old, a, b, { counts: oldLines, within: traced, bridge: BROKEN_PT / old.userUnit });
    const own = lengthOfSet(along);
    if (own === 0) continue;
    const aside = asideOf(old, oldLines, a, b, traced);
    const at = shifted(a, b, aside);
    const [p, q] = [map(at[0]), map(at[1])];
    const still = linesAlong(fresh, p, q, { counts: newLines, within: tolerance, bridge: broken });
    const kept = lengthOfSet(
      intersect(
        along.map(([from, to]): [number, number] => [from * sim.scale, to * sim.scale]),
        still,
      ),
    );
    drawn += own;
    there += Math.min(own, kept / sim.scale);
    if (kept < 0.9 * own * sim.scale) gatherMoved(issues, p, q, newLines, moved);
  }
  const missing = (drawn - there) * sim.scale;
  const best = [...moved].sort(([d, m], [e, n]) => n - m || Math.abs(d) - Math.abs(e))[0];
  const hasMoved = drawn > 0 && best !== undefined && missing > 0 && best[1] >= MOST_OF_IT * missing;
  return {
    drawn: length === 0 ? 0 : drawn / length,
    there: drawn === 0 ? 1 : there / drawn,
    movedPt: hasMoved ? Math.abs(best[0]) * STEP_PT : null,
    besidePt: besideOf(issues, path.map(map)),
  };
}

/** Lines as a raceway may be drawn: no hatching, no letters. */
const lineOnly = (linework: Linework) => chosen(linework, { without: SEGMENT.hatch | SEGMENT.glyph });

/** How far to the left of a leg most of the line along it is drawn, sheet units. */
function asideOf(linework: Linework, counts: (segment: number) => boolean, a: Point2, b: Point2, within: number) {
  const offs = new Map<number, number>();
  forParallels(linework, counts, a, b, within, (off, overlap) => {
    const step = Math.round((off / within) * 8);
    offs.set(step, (offs.get(step) ?? 0) + overlap);
  });
  // The nearest of those that reach about as far: a wall beside a raceway is longer.
  const most = Math.max(0, ...offs.values());
  const near = [...offs].filter(([, sum]) => sum >= 0.6 * most).sort(([x], [y]) => Math.abs(x) - Math.abs(y))[0];
  return near ? (near[0] / 8) * within : 0;
}

function shifted(a: Point2, b: Point2, left: number): readonly [Point2, Point2] {
  const length = distance2(a, b);
  const [x, y] = [(-(b[1] - a[1]) / length) * left, ((b[0] - a[0]) / length) * left];
  return [
    [a[0] + x, a[1] + y],
    [b[0] + x, b[1] + y],
  ];
}

/** The segments that run along a line within reach: how far to its left each lies, and how much of it lies beside the line. */
function forParallels(
  linework: Linework,
  counts: (segment: number) => boolean,
  a: Point2,
  b: Point2,
  within: number,
  tell: (off: number, overlap: number) => void,
): void {
  const length = distance2(a, b);
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  linework.index.search(
    Math.min(a[0], b[0]) - within,
    Math.min(a[1], b[1]) - within,
    Math.max(a[0], b[0]) + within,
    Math.max(a[1], b[1]) + within,
    (segment) => {
      if (segment >= linework.count || !counts(segment)) return false;
      const [p, q] = [startOf(linework, segment), endOf(linework, segment)];
      const along = (r: Point2) => (r[0] - a[0]) * ux + (r[1] - a[1]) * uy;
      const off = (r: Point2) => (r[1] - a[1]) * ux - (r[0] - a[0]) * uy;
      const [s, t] = [along(p), along(q)];
      const overlap = Math.min(length, Math.max(s, t)) - Math.max(0, Math.min(s, t));
      if (overlap <= 0 || Math.abs(off(p) - off(q)) > 0.03 * Math.abs(s - t)) return false;
      const middle = (off(p) + off(q)) / 2;
      if (Math.abs(middle) <= within) tell(middle, overlap);
      return false;
    },
  );
}

/** What the new issue alone draws along a leg, by how far it lies beside it. */
function gatherMoved(
  { fresh, compared }: TwoIssues,
  p: Point2,
  q: Point2,
  counts: (segment: number) => boolean,
  moved: Map<number, number>,
): void {
  const isNew = (segment: number) => compared.newKept[segment] === 0 && counts(segment);
  forParallels(fresh, isNew, p, q, MOVED_PT / fresh.userUnit, (off, overlap) => {
    const step = Math.round((off * fresh.userUnit) / STEP_PT);
    moved.set(step, (moved.get(step) ?? 0) + overlap);
  });
}

/** How much is drawn beside a path on one of the issues only, what runs along the path itself left out. New sheet space. */
function besideOf({ old, fresh, sim, compared }: TwoIssues, path: readonly Point2[]): number {
  const reach = BESIDE_PT / fresh.userUnit;
  const back = mapBy(invert(sim));
  const sum = (linework: Linework, kept: Uint8Array, points: readonly Point2[], within: number): number => {
    const counts = lineOnly(linework);
    const seen = new Set<number>();
    let length = 0;
    points.forEach((a, i) => {
      const b = points[i + 1] ?? a;
      if (i > 0 && i === points.length - 1) return;
      linework.index.search(
        Math.min(a[0], b[0]) - within,
        Math.min(a[1], b[1]) - within,
        Math.max(a[0], b[0]) + within,
        Math.max(a[1], b[1]) + within,
        (segment) => {
          if (segment >= linework.count || kept[segment] === 1 || seen.has(segment) || !counts(segment)) return false;
          const part = partWithin(startOf(linework, segment), endOf(linework, segment), a, b, within);
          if (part > 0) {
            seen.add(segment);
            length += part;
          }
          return false;
        },
      );
    });
    return length;
  };
  const after = sum(fresh, compared.newKept, path, reach);
  const before = sum(old, compared.oldKept, path.map(back), reach / sim.scale) * sim.scale;
  return (after + before) * fresh.userUnit;
}

/** About how much of the line from p to q lies within reach of the line from a to b. */
function partWithin(p: Point2, q: Point2, a: Point2, b: Point2, within: number): number {
  const length = distance2(p, q);
  const steps = Math.min(64, Math.max(2, Math.ceil(length / within)));
  let near = 0;
  for (let i = 0; i < steps; i++) {
    const t = (i + 0.5) / steps;
    if (apart([p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t], a, b) <= within) near++;
  }
  return (near / steps) * length;
}

function apart(p: Point2, a: Point2, b: Point2): number {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square));
  return Math.hypot(p[0] - a[0] - dx * t, p[1] - a[1] - dy * t);
}

/** The distance from a point to the nearest place of a path, in their units; of a single point, to that. */
export const distanceToPath = (p: Point2, path: readonly Point2[]): number =>
  Math.min(...path.map((a, i) => apart(p, a, path[i + 1] ?? a)));
