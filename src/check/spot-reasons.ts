import { elevationAt, planeThrough } from "../geometry/plane.ts";
import type { Point2, Point3 } from "../geometry/point.ts";
import type { Triple } from "../geometry/triangulation.ts";
import type { SpotsShape } from "../job/fold-lines.ts";
import type { Area, FoldLine } from "../job/schema.ts";
import { type Length, toInches, type UnitSystem } from "../units/length.ts";
import type { Reason } from "./finding.ts";
import { reason } from "./reading.ts";
import { type SpotSurface, spotWords } from "./spot-surface.ts";
import { asGiven, deckBasisWords, written } from "./words.ts";

/** What a line between two spots is called. */
export const foldWords: Readonly<Record<FoldLine["kind"], string>> = {
  ridge: "ridge",
  hip: "hip",
  valley: "valley",
  drain: "drain line",
  edge: "edge",
};

/** A step for every spot that has an elevation, the last first, and one for the lines between them. */
export function spotSteps(area: Area, { spots, lines = [] }: SpotsShape, system: UnitSystem): Reason[] {
  const basis = deckBasisWords[area.elevation.basis];
  const given = spots.flatMap(({ elevation }, i) =>
    elevation ? [reason(`Spot ${i + 1}, ${basis}`, { value: asGiven(elevation, system) })] : [],
  );
  const folds = lines.map(({ between, kind }) => `${foldWords[kind]} between ${spotWords(between)}`);
  return [...given.reverse(), ...(folds.length > 0 ? [reason(`Folds along its lines: ${folds.join("; ")}`)] : [])];
}

/**
 * The lowest surface at a point of the plan: the three spots whose plane it lies in, each with its elevation as given and how much of it
 * counts there, and then what leads from the elevations given to the lowest surface.
 */
export function spotsReason(
  area: Area,
  { spots, lines = [] }: SpotsShape,
  { points }: SpotSurface,
  at: Point2,
  triple: Triple,
  system: UnitSystem,
  steps: readonly Reason[],
): Reason {
  const [p, q, r] = triple.map((k) => points[k]!) as [Point3, Point3, Point3];
  const plane = planeThrough(p, q, r);
  if (!plane) throw new Error("a face of a deck has no plane");
  const shares = sharesOf(at, p, q, r);
  const numbers = triple.map((k) => k + 1).sort((a, b) => a - b);
  const basis = deckBasisWords[area.elevation.basis];
  const own = triple
    .map((k, i) => ({ k, share: shares[i]! }))
    .sort((a, b) => a.k - b.k)
    .map(({ k, share }) => {
      const elevation = spots[k]!.elevation as Length;
      return reason(`Spot ${k + 1}, ${basis}, of which ${share.toFixed(4)} counts there`, {
        value: asGiven(elevation, system),
        quantity: { is: "spot", in: toInches(elevation), share },
      });
    });
  const fall = Math.hypot(plane.gx, plane.gy);
  const slope = reason("Slope of the deck between these spots", {
    value: `${((Math.atan(fall) * 180) / Math.PI).toFixed(2)}°`,
    quantity: { is: "fall", in: fall },
  });
  const along = lines
    .filter(({ between }) => between.every((n) => numbers.includes(n)))
    .map(({ between, kind }) => reason(`It ends at the ${foldWords[kind]} between ${spotWords(between)}`));
  const there = elevationAt(plane, at);
  return reason(
    `Lowest surface of the deck of ${area.label} there, between ${spotWords(numbers)}`,
    { value: written(there, system), quantity: { is: "lowest-there", in: there } },
    [...own, slope, ...along, ...steps],
  );
}

/** How much each corner of a triangle counts at a point of its plane; together 1. */
function sharesOf(at: Point2, p: Point3, q: Point3, r: Point3): [number, number, number] {
  const twice = (a: Point2 | Point3, b: Point2 | Point3, c: Point2 | Point3): number =>
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  const whole = twice(p, q, r);
  const ofP = twice(at, q, r) / whole;
  const ofQ = twice(p, at, r) / whole;
  return [ofP, ofQ, 1 - ofP - ofQ];
}
