import { type Plane, planeThrough } from "../geometry/plane.ts";
import type { Point2, Point3 } from "../geometry/point.ts";
import {
  type Pair,
  type Triangulation,
  type TriangulationFault,
  triangulate,
  triangulationFaults,
} from "../geometry/triangulation.ts";
import { linePairs, type SpotsShape } from "../job/fold-lines.ts";
import type { Area } from "../job/schema.ts";
import type { Length } from "../units/length.ts";
import type { Missing } from "./reading.ts";

/** Spots this near to each other, or to a line that passes them, lie there: what tracing on a drawing cannot part. Inches in plan. */
export const SPOT_NEAR_IN = 1 / 8;

/** The lowest surface through spots, building space: one plane through three of them, or triangles between more. */
export type SpotSurface =
  | { readonly is: "plane"; readonly plane: Plane; readonly points: readonly Point3[] }
  | { readonly is: "folded"; readonly triangulation: Triangulation; readonly points: readonly Point3[] };

/**
 * The surface through the spots of an area, or everything that is missing for one. `lowest` takes an elevation as given to the lowest
 * surface, `toBuilding` a point of the sheet to the plan of the building.
 */
export function spotSurface(
  area: Area,
  shape: SpotsShape,
  lowest: (given: Length) => number,
  toBuilding: (at: Point2) => Point2,
): { readonly surface: SpotSurface | undefined; readonly missing: readonly Missing[] } {
  const { spots } = shape;
  const nowhere = (missing: readonly Missing[]) => ({ surface: undefined, missing });
  const without = spots.flatMap(({ elevation }, i) => (elevation ? [] : [i + 1]));
  if (spots.length < 3 || (spots.length === 3 && without.length > 0))
    return nowhere([lacks(area, "three spots, each with an elevation")]);
  if (without.length > 0) return nowhere([lacks(area, `the elevation of ${spotWords(without)}`)]);
  const points = spots.map(({ at, elevation }): Point3 => [...toBuilding(at), lowest(elevation as Length)]);
  const lines = linePairs(shape.lines);
  const [p, q, r] = points;
  const plane = points.length === 3 ? planeThrough(p!, q!, r!) : undefined;
  if (points.length === 3 && !plane) return nowhere([lacks(area, "three spots that do not lie on one line")]);
  const plan = points.map(([x, y]): Point2 => [x, y]);
  const faults = triangulationFaults(plan, lines, SPOT_NEAR_IN).filter(
    ({ is }) => !plane || is === "no-such-point" || is === "no-length" || is === "line-twice",
  );
  if (faults.length > 0) return nowhere(faults.map((fault) => faultMissing(area, lines, fault)));
  return {
    surface: plane
      ? { is: "plane", plane, points }
      : { is: "folded", triangulation: triangulate(points, lines, SPOT_NEAR_IN), points },
    missing: [],
  };
}

/** "spot 2", "spots 2, 5 and 7": numbers counted from 1. */
export function spotWords(numbers: readonly number[]): string {
  if (numbers.length === 1) return `spot ${numbers[0]}`;
  return `spots ${numbers.slice(0, -1).join(", ")} and ${numbers.at(-1)}`;
}

const lacks = (area: Area, what: string): Missing => ({
  text: `${area.label}: ${what}`,
  remedy: { kind: "record-fact", text: `Record for ${area.label}: ${what}.` },
});

/** A fault of the spots or the lines between them, in words, and what would mend it. */
function faultMissing({ label }: Area, lines: readonly Pair[], fault: TriangulationFault): Missing {
  const line = (n: number): string => {
    const [a, b] = lines[n]!;
    return `the line between ${spotWords([a + 1, b + 1])}`;
  };
  const said = (what: string, mend: string): Missing => ({
    text: `${label}: ${what}`,
    remedy: { kind: "record-fact", text: mend },
  });
  switch (fault.is) {
    case "one-place": {
      const [i, j] = fault.points;
      const both = spotWords([i + 1, j + 1]);
      return said(`spots that lie apart; ${both} lie at one place`, `Move one of ${both} of ${label}, or take it out.`);
    }
    case "one-line":
      return said("spots that do not all lie on one line", `Put a spot of ${label} beside the line the others lie on.`);
    case "no-such-point":
      return said(
        `spots at both ends of ${line(fault.line)}`,
        `Take out ${line(fault.line)} of ${label}, or put the spots it names.`,
      );
    case "no-length":
      return said(
        `a line that leads from one spot to another; one starts and ends at spot ${lines[fault.line]![0] + 1}`,
        `Take out the line of ${label} that starts and ends at spot ${lines[fault.line]![0] + 1}.`,
      );
    case "line-twice":
      return said(
        `one line between ${spotWords(lines[fault.lines[0]]!.map((k) => k + 1))}; there are two`,
        `Take out one of the two lines between ${spotWords(lines[fault.lines[0]]!.map((k) => k + 1))} of ${label}.`,
      );
    case "lines-cross": {
      const [one, other] = fault.lines.map((n) => spotWords(lines[n]!.map((k) => k + 1)));
      return said(
        `lines that do not cross; the line between ${one} crosses the line between ${other}`,
        `Put a spot of ${label} where the lines cross and draw each line up to it, or take one out.`,
      );
    }
    case "line-through-point": {
      const spot = fault.point + 1;
      return said(
        `lines from spot to spot; ${line(fault.line)} passes through spot ${spot}`,
        `Draw ${line(fault.line)} of ${label} as two, up to spot ${spot} and on from it.`,
      );
    }
  }
}
