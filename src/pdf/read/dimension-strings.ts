import { distance2, type Point2 } from "../../geometry/point.ts";
import { bareMillimetresIn, lengthsIn, type WrittenLength } from "./lengths-in-text.ts";
import { type LineStyle, type Linework, pathOf, SEGMENT } from "./linework.ts";
import type { TextRun } from "./plan-contents.ts";

/** A dimension: a length written beside a line that measures it. Sheet space. */
export interface DimensionString {
  /** The length as written. */
  readonly text: string;
  readonly length: WrittenLength;
  /** Both ends of what it measures, on the dimension line. */
  readonly ends: readonly [Point2, Point2];
  /** What marks the ends: ticks across the line, arrowheads or dots, or only lines square to it. */
  readonly marks: "ticks" | "arrows" | "square";
  /** Building length per paper length, by what is written and what is drawn. */
  readonly ratio: number;
  /** Whether the text stands at the end of a leader, not beside the line. */
  readonly byLeader: boolean;
  /** Whether the unit is written, or millimetres are taken for it. */
  readonly unit: "written" | "assumed-mm";
}

/** How far the dimension line may run from the middle of its text, in heights of the text. */
const NEAR_EM = 2.2;
/** Longest tick or arrowhead and shortest, in 1/72 in. of paper. */
const MARK_PT = [1.2, 20] as const;
/** How far off the line a mark may sit, in 1/72 in. of paper. */
const ON_LINE_PT = 0.8;
/** Nothing is measured over less than this, in 1/72 in. of paper. */
const LEAST_PT = 2;
/** How much of the way between the ends must be drawn, the text's own gap counted as drawn. */
const DRAWN = 0.9;
/** Sine below which two directions count as one. */
const PARALLEL = 0.01;
/** Texts tried on a page, and segments looked at for one of them: a bound, not a measure. */
const MOST_TEXTS = 4_000;
const MOST_SEGMENTS = 30_000;
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

/** What shows on the sheet: the white grounds behind texts do not. */
const isSeen = ({ shown, stroke, fill }: LineStyle): boolean =>
  shown && (stroke !== null || (fill !== null && fill !== "#ffffff"));

/** Segments whose boxes touch a box; none when there are too many to look at. Letters and hatching are left out. */
export function within(
  linework: Linework,
  box: readonly [number, number, number, number],
  most = MOST_SEGMENTS,
): number[] {
  const list: number[] = [];
  const { flags, style, styles, count } = linework;
  let seen = 0;
  linework.index.search(box[0], box[1], box[2], box[3], (segment) => {
    if (++seen > most) return false;
    if (
      segment < count &&
      (flags[segment]! & (SEGMENT.glyph | SEGMENT.hatch)) === 0 &&
      isSeen(styles[style[segment]!]!)
    )
      list.push(segment);
    return false;
  });
  return seen > most ? [] : list;
}

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

/** A segment that runs in the direction: its reach along it and its distance across, from a place. */
function placed(
  { coords }: Linework,
  segment: number,
  from: Point2,
  u: Point2,
): { from: number; to: number; off: number } | undefined {
  const at = 4 * segment;
  const [dx, dy] = [coords[at + 2]! - coords[at]!, coords[at + 3]! - coords[at + 1]!];
  const long = Math.hypot(dx, dy);
  if (long === 0 || Math.abs(dx * u[1] - dy * u[0]) > PARALLEL * long) return undefined;
  const [rx, ry] = [coords[at]! - from[0], coords[at + 1]! - from[1]];
  const start = rx * u[0] + ry * u[1];
  const end = start + dx * u[0] + dy * u[1];
  const off = (ry + dy / 2) * u[0] - (rx + dx / 2) * u[1];
  return { from: Math.min(start, end), to: Math.max(start, end), off };
}

/** Reads the marks along one line and takes those either side of a place; undefined where it is no dimension. */
function measured(
  linework: Linework,
  length: WrittenLength,
  middle: Point2,
  u: Point2,
  off: number,
  byLeader: boolean,
): DimensionString | undefined {
  const { userUnit, view } = linework;
  const on: Point2 = [middle[0] - u[1] * off, middle[1] + u[0] * off];
  const farthest = Math.hypot(view[2] - view[0], view[3] - view[1]);
  const thick = (MARK_PT[1] / userUnit) * 0.8;
  // A chair or a tree that crosses the line of a dimension looks like its tick: marks in the line's own ink come first.
  let other: DimensionString | undefined;
  for (let reach = 60 / userUnit; ; reach = Math.min(farthest, reach * 2.5)) {
    const [ex, ey] = [reach * Math.abs(u[0]) + thick, reach * Math.abs(u[1]) + thick];
    const near = within(linework, [on[0] - ex, on[1] - ey, on[0] + ex, on[1] + ey]);
    const ink = inkAt(linework, near, on, u, length.half);
    const own = near.filter((segment) => inkOf(linework, segment) === ink);
    const dimension = between(linework, own, length, on, u, reach, byLeader);
    if (dimension) return dimension;
    if (own.length < near.length) other ??= between(linework, near, length, on, u, reach, byLeader);
    if (reach >= farthest || near.length === 0) return other;
  }
}

/** The colour a segment is drawn in: of its stroke, else of its fill. */
const inkOf = ({ styles, style }: Linework, segment: number): string | null => {
  const { stroke, fill } = styles[style[segment]!]!;
  return stroke ?? fill;
};

/** The colour of the line beside a text: that of the longest piece which passes it. */
function inkAt(linework: Linework, near: readonly number[], on: Point2, u: Point2, half: number): string | null {
  const slack = ON_LINE_PT / linework.userUnit;
  let best: { ink: string | null; long: number } | undefined;
  for (const segment of near) {
    const piece = placed(linework, segment, on, u);
    if (!piece || Math.abs(piece.off) > slack || piece.from > 2 * half || piece.to < -2 * half) continue;
    const long = piece.to - piece.from;
    if (!best || long > best.long) best = { ink: inkOf(linework, segment), long };
  }
  return best?.ink ?? null;
}

function between(
  linework: Linework,
  near: readonly number[],
  length: WrittenLength,
  on: Point2,
  u: Point2,
  reach: number,
  byLeader: boolean,
): DimensionString | undefined {
  const { userUnit, coords, flags } = linework;
  const slack = ON_LINE_PT / userUnit;
  const pieces: [number, number][] = [];
  const ticks: number[] = [];
  const arrows: number[] = [];
  const square: number[] = [];
  for (const segment of near) {
    const piece = placed(linework, segment, on, u);
    if (piece) {
      if (Math.abs(piece.off) <= slack) pieces.push([piece.from, piece.to]);
      continue;
    }
    const at = 4 * segment;
    const [sx, sy] = [coords[at]! - on[0], coords[at + 1]! - on[1]];
    const [dx, dy] = [coords[at + 2]! - coords[at]!, coords[at + 3]! - coords[at + 1]!];
    const long = Math.hypot(dx, dy);
    const cross = Math.abs(dx * u[1] - dy * u[0]) / long;
    const [startOff, endOff] = [sy * u[0] - sx * u[1], (sy + dy) * u[0] - (sx + dx) * u[1]];
    const along = sx * u[0] + sy * u[1];
    const alongEnd = along + dx * u[0] + dy * u[1];
    const isShort = long * userUnit >= MARK_PT[0] && long * userUnit <= MARK_PT[1];
    // A tick: a short stroke aslant, its middle on the line; or a short filled bar drawn as one.
    if (
      isShort &&
      cross > 0.4 &&
      cross < 0.93 &&
      Math.abs(startOff + endOff) / 2 <= slack &&
      startOff * endOff < 0 &&
      (flags[segment]! & SEGMENT.filled) === 0
    )
      ticks.push((along + alongEnd) / 2);
    // An arrowhead: two short slanting edges that meet on the line.
    else if (isShort && cross > 0.05 && cross < 0.75) {
      if (Math.abs(startOff) <= slack / 2 && Math.abs(endOff) > slack / 2) arrows.push(along);
      if (Math.abs(endOff) <= slack / 2 && Math.abs(startOff) > slack / 2) arrows.push(alongEnd);
    } else if (
      cross > 0.9999 &&
      startOff * endOff <= slack * slack &&
      Math.min(startOff, endOff) <= slack &&
      Math.max(startOff, endOff) >= -slack
    )
      square.push(along);
  }
  if (pieces.length === 0) return undefined;
  const least = LEAST_PT / userUnit;
  const marks = [
    ["ticks", tidy(ticks, least / 4)],
    ["arrows", tidy(twice(arrows, slack), least / 4)],
    [
      "square",
      tidy(square, least / 4).filter((s) =>
        pieces.some(([from, to]) => Math.abs(from - s) <= slack || Math.abs(to - s) <= slack),
      ),
    ],
  ] as const;
  for (const [kind, stations] of marks) {
    const pair = eitherSide(stations, byLeader || kind === "square" ? undefined : length.run.height, (left, right) => {
      if (right - left < least || Math.max(-left, right) > reach) return false;
      if (kind === "square" && (byLeader || Math.abs(left + right) > 0.2 * (right - left))) return false;
      return isDrawn(pieces, left, right, length.half + length.run.height, byLeader);
    });
    if (!pair) continue;
    const [left, right] = pair;
    const place = (s: number): Point2 => [on[0] + u[0] * s, on[1] + u[1] * s];
    return {
      text: length.text,
      length,
      ends: [place(left), place(right)],
      marks: kind,
      ratio: (length.value * 72) / ((right - left) * userUnit),
      byLeader,
      unit: "written",
    };
  }
  return undefined;
}

/** Marks tried either side of a text: others' marks may lie between it and its own. */
const MARKS_TRIED = 4;

/**
 * The marks either side of 0: the closest two between which a text of that height stands in the middle (not asked without one),
 * else the two next to it unless it stands far out of their middle.
 */
function eitherSide(
  stations: readonly number[],
  em: number | undefined,
  fits: (left: number, right: number) => boolean,
): readonly [number, number] | undefined {
  const lefts = stations.filter((s) => s < 0).slice(-MARKS_TRIED);
  const rights = stations.filter((s) => s >= 0).slice(0, MARKS_TRIED);
  const nearest = [lefts.at(-1), rights[0]] as const;
  const pairs = lefts
    .flatMap((left) => rights.map((right) => [left, right] as const))
    .sort((a, b) => a[1] - a[0] - (b[1] - b[0]));
  if (em !== undefined) {
    const centred = pairs.find(([l, r]) => Math.abs(l + r) / 2 <= 0.06 * (r - l) + 0.2 * em && fits(l, r));
    if (centred) return centred;
  }
  const [left, right] = nearest;
  if (left === undefined || right === undefined || !fits(left, right)) return undefined;
  return Math.abs(left + right) > 0.5 * (right - left) + 0.5 * (em ?? 0) ? undefined : [left, right];
}

/** Places in order, such as lie together taken as one. */
function tidy(stations: number[], apart: number): number[] {
  stations.sort((a, b) => a - b);
  const done: number[] = [];
  for (const s of stations) if (done.length === 0 || s - done.at(-1)! > apart) done.push(s);
  return done;
}

/** Places that are there at least twice: an arrowhead has two edges. */
const twice = (stations: readonly number[], slack: number): number[] => {
  const sorted = [...stations].sort((a, b) => a - b);
  return sorted.filter((s, i) => i > 0 && s - sorted[i - 1]! <= slack / 4);
};

function isDrawn(
  pieces: readonly [number, number][],
  left: number,
  right: number,
  half: number,
  whole: boolean,
): boolean {
  const list = whole ? [...pieces] : [...pieces, [-half, half] as [number, number]];
  list.sort((a, b) => a[0] - b[0]);
  let [covered, reached] = [0, left];
  for (const [from, to] of list) {
    const start = Math.max(from, reached);
    const end = Math.min(to, right);
    if (end > start) {
      covered += end - start;
      reached = end;
    }
  }
  return covered >= DRAWN * (right - left) && pieces.some(([from, to]) => to > left && from < right);
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
