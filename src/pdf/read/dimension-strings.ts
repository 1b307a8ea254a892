import { distance2, type Point2 } from "../../geometry/point.ts";
import { bareMillimetresIn, lengthsIn, type WrittenLength } from "./lengths-in-text.ts";
import { type Linework, pathOf } from "./linework.ts";
import { type DimensionString, LEAST_PT, measured, ON_LINE_PT, placed } from "./measured-dimension.ts";
import type { TextRun } from "./plan-contents.ts";
import { within } from "./seen-segments.ts";

/** How far the dimension line may run from the middle of its text, in heights of the text. */
const NEAR_EM = 2.2;
/** Texts tried on a page: a bound, not a measure. */
const MOST_TEXTS = 4_000;
const A_STRETCH = 64;

/**
 * The dimensions of a page. A text counts where a line runs beside it in its own direction, drawn between two marks that
 * stand either side of the text. What cannot be told is left out. Bounded; stops with the signal's reason.
 */
export function dimensionStrings(
  linework: Linework,
  texts: readonly TextRun[],
  signal?: AbortSignal,
): readonly DimensionString[] {
  const lengths = texts.flatMap((run) => lengthsIn(run).filter(({ alone }) => alone));
  return dimensionsOf(
    linework,
    lengths,
    (length) => besideLine(linework, length) ?? atLeader(linework, length),
    signal,
  );
}

/**
 * The dimensions of a page whose figures bear no unit, taken for millimetres; lengths and ratios are true only if they are that. Only such
 * as have ticks or arrowheads at their ends: a bare number beside a line is too often something else.
 */
export function bareDimensions(
  linework: Linework,
  texts: readonly TextRun[],
  signal?: AbortSignal,
): readonly DimensionString[] {
  const lengths = texts.flatMap((run) => bareMillimetresIn(run) ?? []);
  const found = dimensionsOf(linework, lengths, (length) => besideLine(linework, length), signal);
  return found.filter(({ marks }) => marks !== "square").map((each) => ({ ...each, unit: "assumed-mm" as const }));
}

function dimensionsOf(
  linework: Linework,
  lengths: readonly WrittenLength[],
  find: (length: WrittenLength) => DimensionString | undefined,
  signal: AbortSignal | undefined,
): readonly DimensionString[] {
  const found: DimensionString[] = [];
  let tried = 0;
  for (const length of lengths) {
    if (tried >= MOST_TEXTS) break;
    if (!(length.value > 0) || !isOnPage(linework, length.middle)) continue;
    if (tried++ % A_STRETCH === 0) signal?.throwIfAborted();
    const dimension = find(length);
    if (dimension) found.push(dimension);
  }
  return found;
}

const isOnPage = ({ view }: Linework, [x, y]: Point2): boolean =>
  x >= view[0] && x <= view[2] && y >= view[1] && y <= view[3];

function besideLine(linework: Linework, length: WrittenLength): DimensionString | undefined {
  const { run, middle } = length;
  const reach = NEAR_EM * run.height;
  const u: Point2 = [Math.cos(run.angle), Math.sin(run.angle)];
  const offs = linesNear(linework, middle, u, reach, length.half + 2 * run.height);
  let best: { dimension: DimensionString; cost: number } | undefined;
  for (const off of offs) {
    const dimension = measured(linework, length, middle, u, off, false);
    if (!dimension) continue;
    const [a, b] = dimension.ends;
    const aside =
      Math.abs((a[0] + b[0]) / 2 - middle[0]) * Math.abs(u[0]) +
      Math.abs((a[1] + b[1]) / 2 - middle[1]) * Math.abs(u[1]);
    const cost = Math.abs(off) / run.height + aside / distance2(a, b) + (dimension.marks === "square" ? 2 : 0);
    if (!best || cost < best.cost) best = { dimension, cost };
  }
  return best?.dimension;
}

/** The lines that pass a place in a direction, nearest first, by how far across it they pass. */
function linesNear(linework: Linework, middle: Point2, u: Point2, reach: number, along: number): number[] {
  const [ax, ay] = [Math.abs(u[0]) * along + Math.abs(u[1]) * reach, Math.abs(u[1]) * along + Math.abs(u[0]) * reach];
  const offs: number[] = [];
  for (const segment of within(linework, [middle[0] - ax, middle[1] - ay, middle[0] + ax, middle[1] + ay])) {
    const piece = placed(linework, segment, middle, u);
    if (!piece || piece.from > along || piece.to < -along || Math.abs(piece.off) > reach) continue;
    if (!offs.some((off) => Math.abs(off - piece.off) < 0.2 / linework.userUnit)) offs.push(piece.off);
  }
  return offs.sort((a, b) => Math.abs(a) - Math.abs(b)).slice(0, 12);
}

/** Longest way round a leader may take, in 1/72 in. of paper, and most pieces of its path. */
const LEADER_PT = 600;
const LEADER_PIECES = 64;

/** A dimension whose text stands at the end of a leader: the other end of the leader touches its line. */
function atLeader(linework: Linework, length: WrittenLength): DimensionString | undefined {
  const { coords, pathStart, pathClosed, userUnit } = linework;
  const { run, middle } = length;
  const [c, s] = [Math.cos(run.angle), Math.sin(run.angle)];
  const around = 1.2 * run.height;
  const first: Point2 = [run.at[0] - s * 0.35 * run.height, run.at[1] + c * 0.35 * run.height];
  const last: Point2 = [first[0] + c * run.width, first[1] + s * run.width];
  for (const end of [first, last]) {
    const box = [end[0] - around, end[1] - around, end[0] + around, end[1] + around] as const;
    for (const segment of within(linework, box, 2_000)) {
      const path = pathOf(linework, segment);
      const [from, to] = [pathStart[path]!, pathStart[path + 1]!];
      if (pathClosed[path] || to - from > LEADER_PIECES) continue;
      const a: Point2 = [coords[4 * from]!, coords[4 * from + 1]!];
      const b: Point2 = [coords[4 * (to - 1) + 2]!, coords[4 * (to - 1) + 3]!];
      for (const [near, far] of [
        [a, b],
        [b, a],
      ] as const) {
        if (
          distance2(near, end) > around ||
          distance2(far, middle) * userUnit > LEADER_PT ||
          distance2(far, near) < around
        )
          continue;
        const dimension = lineAt(linework, length, far, path);
        if (dimension) return dimension;
      }
    }
  }
  return undefined;
}

/** The dimension line that a leader's tip touches. */
function lineAt(linework: Linework, length: WrittenLength, tip: Point2, leader: number): DimensionString | undefined {
  const { coords, userUnit, pathStart } = linework;
  const reach = (2 * ON_LINE_PT) / userUnit;
  for (const segment of within(linework, [tip[0] - reach, tip[1] - reach, tip[0] + reach, tip[1] + reach], 500)) {
    if (segment >= pathStart[leader]! && segment < pathStart[leader + 1]!) continue;
    const at = 4 * segment;
    const [dx, dy] = [coords[at + 2]! - coords[at]!, coords[at + 3]! - coords[at + 1]!];
    const long = Math.hypot(dx, dy);
    if (long * userUnit < LEAST_PT) continue;
    const u: Point2 = [dx / long, dy / long];
    const piece = placed(linework, segment, tip, u);
    if (!piece || Math.abs(piece.off) > reach) continue;
    const dimension = measured(linework, length, tip, u, piece.off, true);
    if (dimension && dimension.marks !== "square") return dimension;
  }
  return undefined;
}
