import type { Point2 } from "../../geometry/point.ts";
import type { WrittenLength } from "./lengths-in-text.ts";
import { type Linework, SEGMENT } from "./linework.ts";
import { within } from "./seen-segments.ts";

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

/** Longest tick or arrowhead and shortest, in 1/72 in. of paper. */
const MARK_PT = [1.2, 20] as const;
/** How far off the line a mark may sit, in 1/72 in. of paper. */
export const ON_LINE_PT = 0.8;
/** Nothing is measured over less than this, in 1/72 in. of paper. */
export const LEAST_PT = 2;
/** How much of the way between the ends must be drawn, the text's own gap counted as drawn. */
const DRAWN = 0.9;
/** Sine below which two directions count as one. */
const PARALLEL = 0.01;

/** A segment that runs in the direction: its reach along it and its distance across, from a place. */
export function placed(
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
export function measured(
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
