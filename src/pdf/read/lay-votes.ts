import type { Point2 } from "../../geometry/point.ts";
import type { Similarity } from "../../geometry/similarity.ts";
import { radians } from "../../units/quantity.ts";
import type { IssueContent } from "./issue-content.ts";
import type { Linework } from "./linework.ts";
import type { TextRun } from "./plan-contents.ts";
import { endOf, startOf } from "./segment-geometry.ts";
import { tellingSegments } from "./telling-segments.ts";

/** Lines of either page that vote: the longest. */
const VOTING_LINES = 420;
/** Pairs of words that vote. */
const VOTING_WORDS = 400;
/** What is told apart: scales by this part, places of the middle of the page by so much of the new paper, 1/72 in. */
const SCALE_STEP = 0.004;
const PLACE_STEP_PT = 4;
/** A drawing is printed between these sizes of itself. */
const LEAST_SCALE = 0.2;
const MOST_SCALE = 5;
/** Ways of lying that are looked at more closely. */
const KEPT_LINES = 10;
const KEPT_WORDS = 6;
/** A direction this near to a quarter turn is one, radians. */
const SQUARE_TO = 0.02;

/** Ways in which one issue of a sheet may lie on another, likeliest first; `mirrored` looks for those of a drawing seen from behind, by its lines. */
export function layVotes(old: IssueContent, fresh: IssueContent, mirrored = false): Similarity[] {
  const [x0, y0, x1, y1] = old.linework.view;
  const middle: Point2 = [(x0 + x1) / 2, (y0 + y1) / 2];
  const lines = votesOf(middle, fresh.linework.userUnit, (vote) =>
    lineVotes(old.linework, fresh.linework, mirrored, vote),
  );
  const words = mirrored ? [] : votesOf(middle, fresh.linework.userUnit, (vote) => wordVotes(old, fresh, vote));
  return [...words.slice(0, KEPT_WORDS), ...lines.slice(0, KEPT_LINES)];
}

/** One way of lying: quarter turns counter-clockwise, the scale, and a point with where it comes to lie. */
type Vote = (quarter: number, scale: number, from: Point2, to: Point2, weight: number) => void;

interface Ballot {
  weight: number;
  readonly quarter: number;
  /** Sums by weight: the logarithm of the scale, the place of the middle. */
  log: number;
  x: number;
  y: number;
}

function votesOf(middle: Point2, userUnit: number, cast: (vote: Vote) => void): Similarity[] {
  const step = PLACE_STEP_PT / userUnit;
  const ballots = new Map<number, Ballot>();
  cast((quarter, scale, from, to, weight) => {
    if (!(scale >= LEAST_SCALE && scale <= MOST_SCALE)) return;
    const [dx, dy] = turned([middle[0] - from[0], middle[1] - from[1]], quarter);
    const [x, y] = [to[0] + dx * scale, to[1] + dy * scale];
    const log = Math.log(scale);
    // Three numbers and a quarter in one: a key that can be hashed fast.
    const key =
      ((Math.round(log / SCALE_STEP) + 500) * 4096 + (Math.round(x / step) & 4095)) * 16384 +
      (Math.round(y / step) & 4095) * 4 +
      quarter;
    const ballot = ballots.get(key);
    if (!ballot) ballots.set(key, { weight, quarter, log: log * weight, x: x * weight, y: y * weight });
    else {
      ballot.weight += weight;
      ballot.log += log * weight;
      ballot.x += x * weight;
      ballot.y += y * weight;
    }
  });
  return [...ballots.values()]
    .sort((a, b) => b.weight - a.weight)
    .slice(0, 3 * KEPT_LINES)
    .map(({ weight, quarter, log, x, y }) => {
      const scale = Math.exp(log / weight);
      const [mx, my] = turned(middle, quarter);
      return {
        scale,
        angle: radians((quarter > 2 ? quarter - 4 : quarter) * (Math.PI / 2)),
        dx: x / weight - mx * scale,
        dy: y / weight - my * scale,
      };
    })
    .filter((one, i, all) => all.findIndex((other) => isNear(one, other, middle, 2 * step)) === i);
}

const turned = ([x, y]: Point2, quarter: number): Point2 =>
  quarter === 0 ? [x, y] : quarter === 1 ? [-y, x] : quarter === 2 ? [-x, -y] : [y, -x];

/** Whether two ways of lying put the middle to one place at one size: ballots beside one another. */
function isNear(a: Similarity, b: Similarity, at: Point2, within: number): boolean {
  if (Math.abs(a.angle - b.angle) > 0.1 || Math.abs(Math.log(a.scale / b.scale)) > 2 * SCALE_STEP) return false;
  const to = ({ scale, angle, dx, dy }: Similarity): Point2 => {
    const [x, y] = turned(at, (Math.round(angle / (Math.PI / 2)) + 4) % 4);
    return [x * scale + dx, y * scale + dy];
  };
  const [p, q] = [to(a), to(b)];
  return Math.hypot(p[0] - q[0], p[1] - q[1]) <= within;
}

/** The quarter turn from one direction to another, both in radians; undefined where it is none. */
function quarterBetween(from: number, to: number): number | undefined {
  const quarters = (to - from) / (Math.PI / 2);
  const whole = Math.round(quarters);
  return Math.abs(quarters - whole) * (Math.PI / 2) <= SQUARE_TO ? ((whole % 4) + 4) % 4 : undefined;
}

interface VotingLine {
  readonly middle: Point2;
  readonly length: number;
  readonly angle: number;
}

function votingLines(linework: Linework, mirrored: boolean): VotingLine[] {
  return tellingSegments(linework)
    .all.slice(0, VOTING_LINES)
    .map((segment) => {
      const [a, b] = [startOf(linework, segment), endOf(linework, segment)];
      const flip = mirrored ? -1 : 1;
      return {
        middle: [(flip * (a[0] + b[0])) / 2, (a[1] + b[1]) / 2],
        length: Math.hypot(b[0] - a[0], b[1] - a[1]),
        angle: Math.atan2(b[1] - a[1], flip * (b[0] - a[0])),
      };
    });
}

/** Every line of one page may be every line of the other, from either end: what many say alike is likely. */
function lineVotes(old: Linework, fresh: Linework, mirrored: boolean, vote: Vote): void {
  const [before, after] = [votingLines(old, mirrored), votingLines(fresh, false)];
  // A length that many lines share says little about which is which.
  const rarity = (lines: readonly VotingLine[]) => {
    const counts = new Map<number, number>();
    const step = ({ length }: VotingLine) => Math.round(Math.log(length) / 0.01);
    for (const line of lines) counts.set(step(line), (counts.get(step(line)) ?? 0) + 1);
    return lines.map((line) => 1 / Math.sqrt(counts.get(step(line))!));
  };
  const [rareBefore, rareAfter] = [rarity(before), rarity(after)];
  before.forEach((o, i) => {
    after.forEach((n, j) => {
      const quarter = quarterBetween(o.angle, n.angle);
      if (quarter === undefined) return;
      const weight = rareBefore[i]! * rareAfter[j]!;
      const scale = n.length / o.length;
      vote(quarter, scale, o.middle, n.middle, weight);
      vote((quarter + 2) % 4, scale, o.middle, n.middle, weight);
    });
  });
}

/** Words that stand once on either page, two and two: the line between them tells turn and scale. */
function wordVotes(old: IssueContent, fresh: IssueContent, vote: Vote): void {
  const after = new Map(once(fresh.texts).map((run) => [run.text.trim(), run]));
  const shared = once(old.texts).flatMap((from) => {
    const to = after.get(from.text.trim());
    const quarter = to && quarterBetween(from.angle, to.angle);
    return to && quarter !== undefined ? [{ from, to, quarter }] : [];
  });
  const some = shared.slice(0, VOTING_WORDS);
  for (let apart = 1; apart < some.length; apart = apart * 2 + 1) {
    some.forEach((one, i) => {
      const other = some[(i + apart) % some.length]!;
      if (other === one || other.quarter !== one.quarter) return;
      const [u, v] = [between(one.from, other.from), between(one.to, other.to)];
      const [far, now] = [Math.hypot(...u), Math.hypot(...v)];
      if (far * old.linework.userUnit < 72 || now === 0) return;
      if (quarterBetween(Math.atan2(u[1], u[0]), Math.atan2(v[1], v[0])) !== one.quarter) return;
      vote(one.quarter, now / far, one.from.at, one.to.at, 1);
    });
  }
}

const between = (a: TextRun, b: TextRun): Point2 => [b.at[0] - a.at[0], b.at[1] - a.at[1]];

/** Words that stand only once, and say more than a letter. */
function once(texts: readonly TextRun[]): TextRun[] {
  const counts = new Map<string, number>();
  for (const { text } of texts) counts.set(text.trim(), (counts.get(text.trim()) ?? 0) + 1);
  return texts.filter(({ text }) => text.trim().length > 1 && counts.get(text.trim()) === 1);
}
