import { type IntervalSet, intersect, subtract } from "../geometry/interval-set.ts";
import type { PathItem, PathStep, PictureItem } from "../geometry/picture.ts";
import { lerp2, type Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import type { Job, Viewport } from "../job/schema.ts";
import type { Drawing, Label } from "./kinds/drawing.ts";

type Region = NonNullable<Viewport["region"]>;

/** What of a sheet a viewport holds, sheet space: its region (null: the page) without the smaller regions of others. */
export interface Clip {
  readonly inside: Region | null;
  readonly outside: readonly Region[];
}

/** What of its sheet a viewport holds. A place belongs to the smallest region around it. */
export function clipOf(job: Job, id: Id): Clip {
  const own = job.viewports[id];
  const size = (region: Region | null) => (region ? (region[2] - region[0]) * (region[3] - region[1]) : Infinity);
  const outside = Object.entries(job.viewports).flatMap(([other, { sheet, region }]) =>
    other !== id && region && sheet === own?.sheet && size(region) < size(own.region) ? [region] : [],
  );
  return { inside: own?.region ?? null, outside };
}

/**
 * A drawing of straight lines as far as it lies in what a viewport holds: its lines end there, and its labels stay within. Undefined where
 * nothing of it does.
 */
export function clipDrawing(drawing: Drawing, clip: Clip): Drawing | undefined {
  const { inside, outside } = clip;
  if (!inside && outside.length === 0) return drawing;
  const within = (ring: readonly Point2[]) => (inside ? clipRing(ring, inside) : ring);
  const { hit, annotation } = drawing;
  const outline = hit.kind === "area" ? within(hit.outline) : [];
  const picture = drawing.picture.flatMap((item) => clipItem(item, clip));
  if (picture.length === 0 && outline.length < 3) return undefined;
  return {
    picture,
    hit: hit.kind === "area" ? { ...hit, outline } : hit,
    annotation: annotation.vertices ? { ...annotation, vertices: within(annotation.vertices) } : annotation,
    labels: drawing.labels.map((label) => ({ ...label, spots: spotsWithin(label.spots, clip) })),
    keepClear: drawing.keepClear.flatMap((line) => clipLine(line, clip)),
  };
}

function* spotsWithin(spots: Label["spots"], { inside, outside }: Clip): Label["spots"] {
  const holds = ([x0, y0, x1, y1]: Region, [x, y]: Point2) => x >= x0 && x <= x1 && y >= y0 && y <= y1;
  for (const spot of spots)
    if ((!inside || holds(inside, spot.at)) && !outside.some((region) => holds(region, spot.at))) yield spot;
}

function clipItem(item: PictureItem, clip: Clip): PictureItem[] {
  if (item.type !== "path") return [item];
  const { fill: _, evenOdd: _rule, ...stroked } = item;
  const steps = linesOf(item).flatMap((line) =>
    clipLine(line, clip).flatMap((piece) => piece.map(([x, y], i): PathStep => (i === 0 ? ["M", x, y] : ["L", x, y]))),
  );
  return steps.length === 0 ? [] : [{ ...stroked, steps }];
}

/** The lines of a path of straight steps, closed ones back at their first point. */
function linesOf({ steps }: PathItem): Point2[][] {
  const lines: Point2[][] = [];
  for (const step of steps) {
    if (step[0] === "M") lines.push([[step[1], step[2]]]);
    else if (step[0] === "L") lines.at(-1)?.push([step[1], step[2]]);
    else if (step[0] === "Z" && lines.at(-1)?.[0]) lines.at(-1)!.push(lines.at(-1)![0]!);
  }
  return lines;
}

/** The pieces of a line that lie in what a viewport holds, edges counted in. */
export function clipLine(line: readonly Point2[], { inside, outside }: Clip): Point2[][] {
  const pieces: Point2[][] = [];
  let open: Point2[] | undefined;
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    let kept: IntervalSet = [[0, 1]];
    if (inside) kept = intersect(kept, shareIn(a, b, inside));
    for (const region of outside) kept = subtract(kept, shareIn(a, b, region));
    for (const [from, to] of kept) {
      if (!open || from > 0) {
        open = [lerp2(a, b, from)];
        pieces.push(open);
      }
      open.push(lerp2(a, b, to));
      if (to < 1) open = undefined;
    }
    if (kept.length === 0) open = undefined;
  }
  return pieces;
}

/** The share of a segment in a rectangle, as an interval of 0 to 1: between the sides it enters and leaves by. */
function shareIn(a: Point2, b: Point2, [x0, y0, x1, y1]: Region): IntervalSet {
  let [from, to] = [0, 1];
  for (const [p, q, low, high] of [
    [a[0], b[0], x0, x1],
    [a[1], b[1], y0, y1],
  ] as const) {
    const d = q - p;
    if (d === 0) {
      if (p < low || p > high) return [];
      continue;
    }
    const [enter, leave] = d > 0 ? [(low - p) / d, (high - p) / d] : [(high - p) / d, (low - p) / d];
    from = Math.max(from, enter);
    to = Math.min(to, leave);
  }
  return from < to ? [[from, to]] : [];
}

/** A ring cut to a rectangle, side by side; where it leaves and comes back, it runs along the side between. */
function clipRing(ring: readonly Point2[], [x0, y0, x1, y1]: Region): readonly Point2[] {
  const sides: readonly ((at: Point2) => number)[] = [
    ([x]) => x - x0,
    ([x]) => x1 - x,
    ([, y]) => y - y0,
    ([, y]) => y1 - y,
  ];
  return sides.reduce<readonly Point2[]>(
    (points, beyond) =>
      points.flatMap((at, i) => {
        const before = points.at(i - 1)!;
        const [p, q] = [beyond(before), beyond(at)];
        const crossing = p < 0 !== q < 0 ? [lerp2(before, at, p / (p - q))] : [];
        return q < 0 ? crossing : [...crossing, at];
      }),
    ring,
  );
}
