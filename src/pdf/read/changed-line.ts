import Flatbush from "flatbush";
import { intersect } from "../../geometry/interval-set.ts";
import { distance2, type Point2 } from "../../geometry/point.ts";
import { mapBy, type Similarity } from "../../geometry/similarity.ts";
import { type ComparedLines, type LinePieces, sameLine } from "./compare-linework.ts";
import { lengthOfSet, linesAlong, type SearchedLines } from "./lines-along.ts";
import { chosen, type Linework, SEGMENT } from "./linework.ts";

/** What two issues of a sheet draw and what only one of them does, ready to be searched along paths. */
export interface TwoIssues {
  readonly old: Linework;
  readonly sim: Similarity;
  /** User unit of the new sheet. */
  readonly userUnit: number;
  /** How far a line may lie from its partner, units of the new sheet. */
  readonly tolerance: number;
  readonly isLine: (segment: number) => boolean;
  /** What only the old issue draws, and only the new one: hatching and letters left out. Space of the new sheet. */
  readonly oldOnly: SearchedLines;
  readonly newOnly: SearchedLines;
}

/** Makes what was compared ready to be searched. `sim` takes the old sheet's space to that of the new. */
export function twoIssues(old: Linework, fresh: Linework, sim: Similarity, compared: ComparedLines): TwoIssues {
  const isLine = lineOnly(old);
  return {
    old,
    sim,
    userUnit: fresh.userUnit,
    tolerance: 1.5 * sameLine(old, fresh, sim),
    isLine,
    oldOnly: searchable(compared.oldOnly, isLine),
    newOnly: searchable(compared.newOnly, lineOnly(fresh)),
  };
}

/** Lines as a raceway may be drawn: no hatching, no letters. */
const lineOnly = (linework: Linework) => chosen(linework, { without: SEGMENT.hatch | SEGMENT.glyph });

function searchable({ coords, of }: LinePieces, counts: (segment: number) => boolean): SearchedLines {
  const kept: number[] = [];
  of.forEach((segment, i) => {
    if (counts(segment)) kept.push(coords[4 * i]!, coords[4 * i + 1]!, coords[4 * i + 2]!, coords[4 * i + 3]!);
  });
  const count = kept.length / 4;
  const index = new Flatbush(Math.max(1, count));
  // An index cannot be empty; what is beyond `count` is passed over.
  if (count === 0) index.add(0, 0, 0, 0);
  for (let i = 0; i < count; i++) {
    const [x0, y0, x1, y1] = [kept[4 * i]!, kept[4 * i + 1]!, kept[4 * i + 2]!, kept[4 * i + 3]!];
    index.add(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
  }
  index.finish();
  return { coords: Float32Array.from(kept), count, index };
}

/** What became of the line that was drawn along a path. */
export interface ChangedLine {
  /** Which part of the path the old issue drew a line along, 0 to 1. */
  readonly drawn: number;
  /** Which part of that line the new issue still draws there, 0 to 1; 1 where none was drawn. */
  readonly there: number;
  /** How far beside its old place what is missing is drawn now, 1/72 in. of the new paper; null where it is nowhere near, or nothing is missing. */
  readonly movedPt: number | null;
  /** Length of lines beside the path that are drawn on one of the issues only, 1/72 in. of the new paper. */
  readonly besidePt: number;
}

/** How far beside a path its line may be drawn, 1/72 in. of the old paper: a hand puts points no nearer. */
const TRACED_PT = 4;
/** Dashes and symbols that break a line: gaps so long are bridged, 1/72 in. of the old paper. */
const BROKEN_PT = 12;
/** How far beside its old place a line is looked for, 1/72 in. of the new paper. */
const MOVED_PT = 108;
/** So much of what is missing must be drawn beside it to count as moved. */
const MOST_OF_IT = 0.5;
/** What lies this near a path is beside it, 1/72 in. of the new paper. */
const BESIDE_PT = 7;

/** Compares the line drawn along a path (old sheet space; a single point has only what is beside it) with what the new issue draws there. */
export function changedLine(issues: TwoIssues, path: readonly Point2[]): ChangedLine {
  const { old, sim, userUnit, isLine } = issues;
  const map = mapBy(sim);
  const traced = TRACED_PT / old.userUnit;
  const broken = BROKEN_PT / old.userUnit;
  let [length, drawn, missing] = [0, 0, 0];
  /** How much is drawn anew so far beside its old place: by whole 1/72 in. of the new paper, to the left. */
  const moved = new Map<number, number>();
  for (let i = 1; i < path.length; i++) {
    const [a, b] = [path[i - 1]!, path[i]!];
    const leg = distance2(a, b);
    if (leg === 0) continue;
    length += leg;
    const along = linesAlong(old, a, b, { counts: isLine, within: traced, bridge: broken });
    const own = lengthOfSet(along);
    if (own === 0) continue;
    const [p, q] = [map(a), map(b)];
    const gone = linesAlong(issues.oldOnly, p, q, {
      counts: () => true,
      within: traced * sim.scale,
      bridge: broken * sim.scale,
    });
    const lost = lengthOfSet(
      intersect(
        along.map(([from, to]): [number, number] => [from * sim.scale, to * sim.scale]),
        gone,
      ),
    );
    drawn += own;
    missing += Math.min(own, lost / sim.scale);
    if (lost > 0.1 * own * sim.scale) gatherMoved(issues, p, q, moved);
  }
  const [best] = [...moved].sort(([d, m], [e, n]) => n - m || Math.abs(d) - Math.abs(e));
  const hasMoved = best !== undefined && missing > 0 && best[1] >= MOST_OF_IT * missing * sim.scale;
  return {
    drawn: length === 0 ? 0 : drawn / length,
    there: drawn === 0 ? 1 : Math.max(0, 1 - missing / drawn),
    movedPt: hasMoved ? Math.abs(best[0]) : null,
    besidePt: besideOf(issues, path.map(map), BESIDE_PT / userUnit) * userUnit,
  };
}

/** What the new issue alone draws parallel to a leg, by how far it lies beside it. */
function gatherMoved({ newOnly, userUnit }: TwoIssues, p: Point2, q: Point2, moved: Map<number, number>): void {
  const length = distance2(p, q);
  const [ux, uy] = [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
  const within = MOVED_PT / userUnit;
  const { coords, count, index } = newOnly;
  index.search(
    Math.min(p[0], q[0]) - within,
    Math.min(p[1], q[1]) - within,
    Math.max(p[0], q[0]) + within,
    Math.max(p[1], q[1]) + within,
    (piece) => {
      if (piece >= count) return false;
      const ends = endsOf(coords, piece);
      const [s, t] = ends.map(([x, y]) => (x - p[0]) * ux + (y - p[1]) * uy) as [number, number];
      const [off0, off1] = ends.map(([x, y]) => (y - p[1]) * ux - (x - p[0]) * uy) as [number, number];
      const overlap = Math.min(length, Math.max(s, t)) - Math.max(0, Math.min(s, t));
      const middle = (off0 + off1) / 2;
      if (overlap <= 0 || Math.abs(off0 - off1) > 0.03 * Math.abs(s - t) || Math.abs(middle) > within) return false;
      const step = Math.round(middle * userUnit);
      moved.set(step, (moved.get(step) ?? 0) + overlap);
      return false;
    },
  );
}

const endsOf = (coords: Float32Array, piece: number): readonly [Point2, Point2] => [
  [coords[4 * piece]!, coords[4 * piece + 1]!],
  [coords[4 * piece + 2]!, coords[4 * piece + 3]!],
];

/** How much is drawn on one of the issues only within reach of a path. New sheet space. */
function besideOf({ oldOnly, newOnly }: TwoIssues, path: readonly Point2[], within: number): number {
  let sum = 0;
  for (const { coords, count, index } of [oldOnly, newOnly]) {
    const seen = new Set<number>();
    path.forEach((a, i) => {
      const b = path[i + 1] ?? a;
      index.search(
        Math.min(a[0], b[0]) - within,
        Math.min(a[1], b[1]) - within,
        Math.max(a[0], b[0]) + within,
        Math.max(a[1], b[1]) + within,
        (piece) => {
          if (piece >= count || seen.has(piece)) return false;
          const part = partWithin(...endsOf(coords, piece), a, b, within);
          if (part > 0) seen.add(piece);
          sum += part;
          return false;
        },
      );
    });
  }
  return sum;
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
