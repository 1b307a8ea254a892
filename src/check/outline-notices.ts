import { gapBetween, type Plot } from "../geometry/gap-between.ts";
import { overlap } from "../geometry/overlap.ts";
import { distance2, type Point2 } from "../geometry/point.ts";
import { area, boundingBox, labelPoint, type Polygon, type Ring, ringProblems } from "../geometry/polygon.ts";
import { applyTo, invert } from "../geometry/similarity.ts";
import type { Problem } from "../units/problem.ts";
import { inches, MM_PER_INCH } from "../units/quantity.ts";
import { type DeckArea, hasSurface, surfaceAt } from "./deck-area.ts";
import type { Frame, Scene } from "./scene.ts";
import { written } from "./words.ts";

/** Overlaps smaller than this share of the smaller area are traced edges that do not quite meet. */
const SLIVER = 0.01;
/** Two decks over one place whose elevations differ by less than this are one deck drawn twice, inches. */
const SAME_ELEVATION_IN = 0.25;

/** Outlines nearer to each other than this are neighbours that were meant to meet, inches. */
const GAP_WIDEST_IN = 12;
/** A strip narrower or shorter than this is how outlines are traced, inches; the tolerances in plan count twice besides. */
const GAP_NARROWEST_IN = 1 / 8;
const GAP_SHORTEST_IN = 12;
/** The outline of an area whole, whatever parts it is in. */
interface AreaPlot extends Plot {
  readonly id: string;
  readonly label: string;
  readonly tolerance: number;
}

/** Neighbours whose outlines do not meet: wiring in the strip between them lies under neither. */
export function gapNotices(scene: Scene, decks: readonly DeckArea[]): Problem[] {
  const plots = plotsOf(scene, decks);
  const neighbours = neighboursOf(plots);
  const problems: Problem[] = [];
  for (const [i, a] of plots.entries())
    for (const j of neighbours[i]!) {
      if (j < i) continue;
      const b = plots[j]!;
      const narrowest = Math.max(GAP_NARROWEST_IN, 2 * (scene.planTolerance + Math.max(a.tolerance, b.tolerance)));
      const others = () => neighbours[i]!.filter((k) => k !== j).map((k) => plots[k]!.polygon);
      const limits = { narrowest, widest: GAP_WIDEST_IN, shortest: GAP_SHORTEST_IN };
      const gap = gapBetween(a, b, others, limits);
      if (!gap) continue;
      problems.push({
        code: "area.gap",
        where: `areas/${a.id}`,
        params: {
          a: a.label,
          b: b.label,
          width: rounded(gap.width, scene),
          length: rounded(gap.length, scene),
          ...placeOf(scene, a, gap.at),
        },
      });
    }
  return problems;
}

function plotsOf(scene: Scene, decks: readonly DeckArea[]): AreaPlot[] {
  const seen = new Set<string>();
  return decks.flatMap(({ id, area: record, planTolerance }): AreaPlot[] => {
    if (seen.has(id)) return [];
    seen.add(id);
    const registered = scene.registration(record.viewport);
    if (!registered.ok || [record.outline, ...record.holes].some((ring) => ringProblems(ring).length > 0)) return [];
    const ring = (points: Ring): Ring => points.map((at) => applyTo(registered.value.sim, at));
    const polygon: Polygon = { outline: ring(record.outline), holes: record.holes.map(ring) };
    return [{ id, label: record.label, polygon, box: boundingBox(polygon.outline), tolerance: planTolerance }];
  });
}

/** For every plot the others whose boxes come as near as a gap may be wide, by their numbers in rising order. */
function neighboursOf(plots: readonly AreaPlot[]): number[][] {
  const found: number[][] = plots.map(() => []);
  // From left to right: what begins beyond the end of one is no neighbour of it.
  const order = plots.map((_, i) => i).sort((i, j) => plots[i]!.box.min[0] - plots[j]!.box.min[0]);
  for (const [n, i] of order.entries()) {
    const a = plots[i]!.box;
    for (let m = n + 1; m < order.length; m++) {
      const j = order[m]!;
      const b = plots[j]!.box;
      if (b.min[0] > a.max[0] + GAP_WIDEST_IN) break;
      if (a.min[1] - GAP_WIDEST_IN > b.max[1] || b.min[1] - GAP_WIDEST_IN > a.max[1]) continue;
      found[i]!.push(j);
      found[j]!.push(i);
    }
  }
  return found.map((numbers) => numbers.sort((i, j) => i - j));
}

/** Where a place in building space lies: the corner of an area's outline nearest to it, and the spot on its sheet. */
function placeOf(
  { job, registration }: Scene,
  { id, polygon }: Pick<AreaPlot, "id" | "polygon">,
  at: Point2,
): Problem["params"] {
  const record = job.areas[id];
  const registered = record && registration(record.viewport);
  const apart = polygon.outline.map((corner) => distance2(corner, at));
  const corner = apart.indexOf(Math.min(...apart)) + 1;
  if (!record || !registered?.ok) return { corner };
  const [x, y] = applyTo(invert(registered.value.sim), at);
  return {
    corner,
    sheet: job.viewports[record.viewport]?.sheet ?? "",
    x: Number(x.toFixed(2)),
    y: Number(y.toFixed(2)),
  };
}

/** A length as it is read off a tape, for a size that is there to be recognised. */
function rounded(length: number, { system }: Scene): string {
  const step = system === "metric" ? 1 / MM_PER_INCH : 1 / 8;
  return written(Math.max(step, Math.round(length / step) * step), system);
}

/** Decks farther apart than this are taken for two levels of a building, as wide as a low crawl space; inches. Common practice, no source. */
const STACKED_IN = 48;

/** Decks of one kind over one place: drawn twice, or at different elevations. */
export function overlapNotices(scene: Scene, frame: Frame): Problem[] {
  const { areas: decks } = frame;
  const problems: Problem[] = [];
  for (const [i, a] of decks.entries()) {
    for (const j of laterOverlapping(frame, i)) {
      const b = decks[j]!;
      // A floor deck below a roof is a building of two storeys, not a contradiction.
      if ((a.classification.is === "floor-above") !== (b.classification.is === "floor-above")) continue;
      if (a.id === b.id || !hasSurface(a) || !hasSurface(b) || a.missing.length > 0 || b.missing.length > 0) continue;
      const shared = overlap(a.polygon, b.polygon);
      const largest = shared.polygons.toSorted((p, q) => area(q) - area(p))[0];
      const at = largest?.outline[0];
      if (!largest || !at || shared.area < SLIVER * Math.min(sizeOf(a), sizeOf(b))) continue;
      const difference = Math.abs(surfaceAt(a, at) - surfaceAt(b, at));
      const code =
        difference > STACKED_IN
          ? "area.stacked"
          : difference > SAME_ELEVATION_IN
            ? "area.overlap-elevations"
            : "area.overlap";
      problems.push({
        code,
        where: `areas/${a.id}`,
        params: {
          a: a.area.label,
          b: b.area.label,
          difference: Number(difference.toFixed(3)),
          ...(code === "area.stacked" ? { apart: rounded(difference, scene), ...lowerFirst(a, b, at) } : {}),
          ...sizeText(scene, largest),
          ...placeOf(scene, a, labelPoint(largest)),
        },
      });
    }
  }
  return problems;
}

/** Which of two decks is the lower one at a place, by its label. */
function lowerFirst(a: DeckArea, b: DeckArea, at: Point2): { readonly lower: string; readonly upper: string } {
  const [lower, upper] = surfaceAt(a, at) <= surfaceAt(b, at) ? [a, b] : [b, a];
  return { lower: lower.area.label, upper: upper.area.label };
}

/** How far a piece reaches along the axes of the plan. */
function sizeText(scene: Scene, { outline }: Polygon): Problem["params"] {
  const { min, max } = boundingBox(outline);
  return { across: rounded(max[0] - min[0], scene), up: rounded(max[1] - min[1], scene) };
}

const sizeOf = (deck: DeckArea): number => area(deck.polygon);

/** The later decks whose boxes share more with a deck's than an edge, in plan. */
function laterOverlapping({ areas, footprints }: Frame, i: number): number[] {
  const a = areas[i]!.footprint.box;
  return footprints.query(a, inches(0)).filter((j) => {
    const b = areas[j]!.footprint.box;
    return j > i && a.min[0] < b.max[0] && b.min[0] < a.max[0] && a.min[1] < b.max[1] && b.min[1] < a.max[1];
  });
}
