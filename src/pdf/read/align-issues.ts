import { distance2, type Point2 } from "../../geometry/point.ts";
import { applyTo, fitSimilarity, mapBy, type PointPair, type Similarity } from "../../geometry/similarity.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { radians } from "../../units/quantity.ts";
import type { FoundGrid } from "./find-grid.ts";
import type { IssueContent } from "./issue-content.ts";
import { layVotes } from "./lay-votes.ts";
import { lengthOfSet, linesAlong } from "./lines-along.ts";
import type { Linework } from "./linework.ts";
import { matchGrids } from "./match-grids.ts";
import type { TextRun } from "./plan-contents.ts";
import { endOf, lengthOf, startOf } from "./segment-geometry.ts";
import { straightLines, type TellingSegments, tellingSegments } from "./telling-segments.ts";

/** How the new issue of a sheet lies on the old one. */
export interface Alignment {
  /** From the old sheet's space to that of the new. */
  readonly sim: Similarity;
  /** What it rests on: grid lines both name, held against the lines; the lines alone; points that a person gave. */
  readonly by: "grid" | "lines" | "points";
  /** How many pairs it is fitted to, and how far they lie apart: root mean square, 1/72 in. of the new paper. */
  readonly pairs: number;
  readonly residualPt: number;
  /** Which part of the old drawing the new one still draws there, 0 to 1: every square of the page counts alike. Null where neither is drawn as lines. */
  readonly share: number | null;
}

/**
 * It is certain only where at least half of the old drawing is there, a quarter more than any other way of lying brings, and where a quarter of its
 * lines are there as they were, end for end: another sheet of the same building shares its grid and walls, but not how they are drawn.
 */
const LEAST_SHARE = 0.5;
const LEAST_MATCHED = 0.25;
const CLEARLY = 1.25;
/** Two ways of lying are the same where no corner of the page differs by more than this, 1/72 in. of the new paper. */
const SAME_WAY_PT = 6;
/** A residual beyond this is no fit, 1/72 in. of the new paper. */
const MOST_RESIDUAL_PT = 1;

/**
 * Lays a new issue of a sheet on the old one. Problems, of which each leaves it to a person who points at shared places: `revision.picture`
 * (one of the two has no lines), `revision.not-alike`, `revision.two-ways` (several ways of lying explain it about equally), `revision.mirrored`,
 * `revision.grid-renamed` (params names: "B is C now", …).
 */
export function alignIssues(old: IssueContent, fresh: IssueContent): Result<Alignment> {
  if (old.linework.count === 0 || fresh.linework.count === 0)
    return fail("revision.picture", "", { which: old.linework.count === 0 ? "old" : "new" });
  const telling = tellingSegments(old.linework);
  if (telling.all.length < 3) return fail("revision.not-alike");
  const searched: Searched = { old, fresh, telling, counts: straightLines(fresh.linework) };
  const byGrid = gridWays(old.grids, fresh.grids);
  const tried = [...byGrid.map(({ sim }) => sim), ...layVotes(old, fresh)]
    .map((sim) => refined(searched, sim))
    .filter((way) => way !== undefined);
  const [best, ...others] = tried.sort((a, b) => b.score - a.score);
  const behind = mirroredWays(searched);
  if (!best || best.share < LEAST_SHARE || best.matched < LEAST_MATCHED || best.residualPt > MOST_RESIDUAL_PT)
    return fail(behind >= LEAST_SHARE ? "revision.mirrored" : "revision.not-alike");
  if (behind > best.share) return fail("revision.mirrored");
  const apart = (a: Similarity, b: Similarity) => farthest(old.linework, a, b) * fresh.linework.userUnit;
  const rival = others.find(({ sim }) => apart(sim, best.sim) > SAME_WAY_PT);
  if (rival && best.score < CLEARLY * rival.score) return fail("revision.two-ways");
  const renamed = renamedLines(old.grids, fresh.grids, best.sim, fresh.linework.userUnit);
  if (renamed.length > 0) return fail("revision.grid-renamed", "", { names: renamed.join(", ") });
  const grid = byGrid.find(({ sim }) => apart(sim, best.sim) <= SAME_WAY_PT);
  const { sim, pairs, residualPt, share } = best;
  return ok({ sim, by: grid ? "grid" : "lines", pairs, residualPt, share });
}

/**
 * Lays a new issue on the old one by points a person gave on both. With lines on both, the share of the old drawing found there is told, and the
 * turn is taken for a quarter turn where it is one to within a degree. Problems: those of `fitSimilarity`, `revision.mirrored`,
 * `revision.points-apart` (params off: 1/72 in. of the new paper).
 */
export function alignByPoints(old: IssueContent, fresh: IssueContent, pairs: readonly PointPair[]): Result<Alignment> {
  const fit = fitSimilarity(pairs);
  if (!fit.ok) return fit;
  if (fit.value.mirrored) return fail("revision.mirrored");
  const { userUnit } = fresh.linework;
  const sim = squared(fit.value.sim, pairs, Math.PI / 180, sizesOf(old, fresh));
  const off = pairs.map(({ from, to }) => distance2(applyTo(sim, from), to) * userUnit);
  if (Math.max(...off) > POINTED_PT) return fail("revision.points-apart", "", { off: Math.max(...off) });
  const residualPt = Math.sqrt(off.reduce((sum, each) => sum + each * each, 0) / off.length);
  const picture = old.linework.count === 0 || fresh.linework.count === 0;
  const searched: Searched = {
    old,
    fresh,
    telling: tellingSegments(old.linework),
    counts: straightLines(fresh.linework),
  };
  return ok({
    sim,
    by: "points",
    pairs: pairs.length,
    residualPt,
    share: picture ? null : shareThere(searched, sim),
  });
}

/** Points given by hand lie this near to one another, or one of them is another place: 1/72 in. of the new paper. */
const POINTED_PT = 9;

interface Searched {
  readonly old: IssueContent;
  readonly fresh: IssueContent;
  readonly telling: TellingSegments;
  readonly counts: (segment: number) => boolean;
}

interface Way {
  readonly sim: Similarity;
  readonly share: number;
  /** Which part of the lines looked for was found end for end, 0 to 1. */
  readonly matched: number;
  readonly score: number;
  readonly pairs: number;
  readonly residualPt: number;
}

/** How the grids of two pages lie on one another by their names, best first. */
function gridWays(old: readonly FoundGrid[], fresh: readonly FoundGrid[]) {
  return old
    .flatMap((a) =>
      fresh.flatMap((b) => {
        const match = matchGrids(a, b);
        return match.ok && match.value.fits ? [match.value] : [];
      }),
    )
    .sort((a, b) => b.crossings.length - a.crossings.length)
    .slice(0, 3);
}

/** Lines of the old grid whose place bears another name now. */
function renamedLines(
  old: readonly FoundGrid[],
  fresh: readonly FoundGrid[],
  sim: Similarity,
  userUnit: number,
): string[] {
  const within = 3 / userUnit;
  const after = fresh.flatMap(({ axes }) => axes);
  const names = old.flatMap(({ axes }) =>
    axes.flatMap(({ label, line }) => {
      if (label === null) return [];
      const [a, b] = [applyTo(sim, line[0]), applyTo(sim, line[1])];
      const length = distance2(a, b);
      const off = (p: Point2) =>
        Math.abs((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])) / Math.max(length, 1e-9);
      const along = (p: Point2) =>
        ((b[0] - a[0]) * (p[0] - a[0]) + (b[1] - a[1]) * (p[1] - a[1])) / Math.max(length * length, 1e-9);
      const there = after.filter(({ line: [p, q] }) => {
        const [low, high] = [Math.min(along(p), along(q)), Math.max(along(p), along(q))];
        return off(p) <= within && off(q) <= within && low < 0.9 && high > 0.1;
      });
      if (there.length === 0 || there.some((axis) => axis.label === label || axis.label === null)) return [];
      return [`${label} is ${there[0]!.label} now`];
    }),
  );
  return [...new Set(names)];
}

/** The greatest distance between where two ways of lying put a corner of the page. */
function farthest({ view: [x0, y0, x1, y1] }: Linework, a: Similarity, b: Similarity): number {
  const corners: Point2[] = [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
  return Math.max(...corners.map((corner) => distance2(applyTo(a, corner), applyTo(b, corner))));
}

/** The best share a drawing seen from behind would bring. */
function mirroredWays({ old, fresh, counts }: Searched): number {
  const flipped = mirroredLinework(old.linework);
  const content: IssueContent = { linework: flipped.linework, grids: [], texts: [] };
  const searched: Searched = { old: content, fresh, telling: flipped.telling, counts };
  const shares = layVotes(old, fresh, true).map((sim) => refined(searched, sim)?.share ?? 0);
  return Math.max(0, ...shares);
}

/** The linework with left and right exchanged: enough of it to be looked for on another page. */
function mirroredLinework(linework: Linework): { linework: Linework; telling: TellingSegments } {
  const coords = linework.coords.slice();
  for (let i = 0; i < coords.length; i += 2) coords[i] = -coords[i]!;
  const [x0, y0, x1, y1] = linework.view;
  // The index of boxes is not asked: only the other page is searched.
  const flipped: Linework = { ...linework, coords, view: [-x1, y0, -x0, y1] };
  return { linework: flipped, telling: tellingSegments(flipped) };
}

/** How near a line must be to be taken for its partner, step by step, 1/72 in. of the new paper. */
const PARTNER_PT = [9, 3, 1];

/** A way of lying fitted to the lines it pairs, with what it then explains; undefined where it pairs none. */
function refined(searched: Searched, sim: Similarity): Way | undefined {
  const { fresh } = searched;
  let present = sim;
  let pairs: readonly PointPair[] = [];
  let matched = 0;
  for (const within of PARTNER_PT) {
    const found = partners(searched, present, within / fresh.linework.userUnit);
    pairs = found.pairs;
    matched = found.looked === 0 ? 0 : pairs.length / 2 / found.looked;
    if (pairs.length < 6) return undefined;
    const fit = fitSimilarity(pairs);
    if (!fit.ok) return undefined;
    present = squared(fit.value.sim, pairs, 2e-4, sizesOf(searched.old, fresh));
  }
  const share = shareThere(searched, present);
  const words = wordsThere(searched.old.texts, fresh, present);
  const squares = pairs.reduce((sum, { from, to }) => sum + distance2(applyTo(present, from), to) ** 2, 0);
  return {
    sim: present,
    share,
    matched,
    score: words === undefined ? share : 0.7 * share + 0.3 * words,
    pairs: pairs.length,
    residualPt: Math.sqrt(squares / pairs.length) * fresh.linework.userUnit,
  };
}

/** The ends of lines that both draw, one at a time: of the same length and direction, the nearest within reach. `looked`: for how many lines, those off the page left out. */
function partners(
  { old, fresh, telling, counts }: Searched,
  sim: Similarity,
  within: number,
): { readonly pairs: readonly PointPair[]; readonly looked: number } {
  const map = mapBy(sim);
  const [x0, y0, x1, y1] = fresh.linework.view;
  const found: PointPair[] = [];
  let looked = 0;
  for (const square of telling.squares) {
    for (const segment of square.slice(0, 3)) {
      const ends = [startOf(old.linework, segment), endOf(old.linework, segment)] as const;
      const [a, b] = [map(ends[0]), map(ends[1])];
      const length = distance2(a, b);
      const middle: Point2 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      if (middle[0] < x0 || middle[0] > x1 || middle[1] < y0 || middle[1] > y1) continue;
      looked++;
      let best: readonly [Point2, Point2] | undefined;
      let least = within;
      fresh.linework.index.search(
        middle[0] - within,
        middle[1] - within,
        middle[0] + within,
        middle[1] + within,
        (each) => {
          if (each >= fresh.linework.count || !counts(each)) return false;
          if (Math.abs(lengthOf(fresh.linework, each) - length) > 0.01 * length + 0.1 * within) return false;
          const [p, q] = [startOf(fresh.linework, each), endOf(fresh.linework, each)];
          for (const [one, other] of [
            [p, q],
            [q, p],
          ] as const) {
            const off = Math.max(distance2(one, a), distance2(other, b));
            if (off < least) {
              least = off;
              best = [one, other];
            }
          }
          return false;
        },
      );
      if (best) found.push({ from: ends[0], to: best[0] }, { from: ends[1], to: best[1] });
    }
  }
  return { pairs: found, looked };
}

/** Which part of the old drawing lies on lines of the new one: squares of the page count alike, those that fall off the new page not at all. */
function shareThere({ old, fresh, telling, counts }: Searched, sim: Similarity): number {
  const map = mapBy(sim);
  const [x0, y0, x1, y1] = fresh.linework.view;
  const within = 1 / fresh.linework.userUnit;
  let [sum, squares, off] = [0, 0, 0];
  for (const square of telling.squares) {
    let [drawn, there] = [0, 0];
    for (const segment of square) {
      const [a, b] = [map(startOf(old.linework, segment)), map(endOf(old.linework, segment))];
      const [mx, my] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      if (mx < x0 || mx > x1 || my < y0 || my > y1) continue;
      drawn += distance2(a, b);
      there += lengthOfSet(linesAlong(fresh.linework, a, b, { counts, within, bridge: within }));
    }
    if (drawn === 0) off++;
    else {
      squares++;
      sum += there / drawn;
    }
  }
  // Most of the drawing must be on the page before what is there says anything.
  return squares === 0 || squares < 0.3 * (squares + off) ? 0 : sum / squares;
}

/** Which part of the words of the old page stands at its place on the new one; undefined where there are too few to say. */
function wordsThere(texts: readonly TextRun[], fresh: IssueContent, sim: Similarity): number | undefined {
  if (texts.length < 12 || fresh.texts.length < 12) return undefined;
  const [x0, y0, x1, y1] = fresh.linework.view;
  const after = new Map<string, Point2[]>();
  for (const { text, at } of fresh.texts) after.set(text.trim(), [...(after.get(text.trim()) ?? []), at]);
  let [there, all] = [0, 0];
  for (const { text, at } of texts) {
    const to = applyTo(sim, at);
    if (to[0] < x0 || to[0] > x1 || to[1] < y0 || to[1] > y1) continue;
    all++;
    const within = 4 / fresh.linework.userUnit;
    if (after.get(text.trim())?.some((place) => distance2(place, to) <= within)) there++;
  }
  return all < 12 ? undefined : there / all;
}

/** The scales, new sheet units an old one, at which nothing was printed larger or smaller: units alike, or paper alike. */
const sizesOf = (old: IssueContent, fresh: IssueContent): readonly number[] => [
  1,
  old.linework.userUnit / fresh.linework.userUnit,
];

/** A way of lying that turns by a quarter turn, within so many radians, exactly; the shift is then the best one again. A scale within 1 in 20,000 of one of `sizes` is that. */
function squared(sim: Similarity, pairs: readonly PointPair[], within: number, sizes: readonly number[]): Similarity {
  const quarter = Math.round(sim.angle / (Math.PI / 2)) * (Math.PI / 2);
  const angle = Math.abs(sim.angle - quarter) <= within ? radians(quarter <= -Math.PI ? Math.PI : quarter) : sim.angle;
  const scale = sizes.find((size) => Math.abs(sim.scale / size - 1) < 5e-5) ?? sim.scale;
  const turn: Similarity = { scale, angle, dx: 0, dy: 0 };
  let [dx, dy] = [0, 0];
  for (const { from, to } of pairs) {
    const [x, y] = applyTo(turn, from);
    dx += to[0] - x;
    dy += to[1] - y;
  }
  return { ...turn, dx: dx / pairs.length, dy: dy / pairs.length };
}
