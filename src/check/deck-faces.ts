import { type Face, makeFace } from "../geometry/face.ts";
import { type FoldedFaces, foldedFaces } from "../geometry/folded-faces.ts";
import { distance2, type Point2, type Point3 } from "../geometry/point.ts";
import type { Polygon, Ring } from "../geometry/polygon.ts";
import { distanceToSegment, type Triple } from "../geometry/triangulation.ts";
import type { Area } from "../job/schema.ts";
import type { UnitSystem } from "../units/length.ts";
import type { DeckSurface } from "./deck-surface.ts";
import type { Reason } from "./finding.ts";
import { type Missing, reason } from "./reading.ts";
import { SPOT_NEAR_IN, type SpotSurface } from "./spot-surface.ts";
import { stationText } from "./words.ts";

/** A place on a lowest surface, building space. */
export interface SurfacePlace {
  readonly face: Face;
  readonly at: Point3;
}

/** A part of an area whose surface is known all over, or nowhere. */
export interface SurfacePart {
  /** Tells it from the others of its polygon: "" for the whole of it, or the first with a surface. */
  readonly name: string;
  readonly polygon: Polygon;
  readonly faces: readonly Face[];
  readonly missing: readonly Missing[];
  readonly explain: (where?: SurfacePlace) => Reason;
}

/**
 * Lays a known lowest surface under a plan polygon of its area, building space; `outline` is that of the whole area. One plane lies under all of it. Spots say nothing of what lies beyond
 * them: that is a part without a surface, which names the corner where a spot is missing.
 */
export function surfaceParts(
  area: Area,
  outline: Ring,
  polygon: Polygon,
  { surface, explainAt }: DeckSurface,
  whole: () => Reason,
  system: UnitSystem,
): SurfacePart[] {
  if (surface.is === "level-or-slope")
    return [{ name: "", polygon, faces: [makeFace(polygon, surface.plane)], missing: [], explain: whole }];
  if (surface.is === "plane") {
    const triple: Triple = [0, 1, 2];
    const explain = (where?: SurfacePlace): Reason =>
      where && explainAt ? explainAt([where.at[0], where.at[1]], triple) : whole();
    return [{ name: "", polygon, faces: [makeFace(polygon, surface.plane)], missing: [], explain }];
  }
  const folded = foldedOrNothing(polygon, surface);
  if (!folded) {
    const text = `${area.label}: an outline and spots that can be laid over one another`;
    const mend = `Move the corners of ${area.label} that lie almost on a line between two of its spots, or put spots there.`;
    const missing: Missing[] = [{ text, remedy: { kind: "outline", text: mend } }];
    return [{ name: "", polygon, faces: [], missing, explain: whole }];
  }
  const { within, beyond } = folded;
  const known = within.map(({ polygon: part, faces }, i): SurfacePart => {
    const tripleOf = new Map(faces.map(({ face, triangle }) => [face, triangle]));
    return {
      name: i === 0 ? "" : `part-${i + 1}`,
      polygon: part,
      faces: faces.map(({ face }) => face),
      missing: [],
      explain(where) {
        const triple = where && tripleOf.get(where.face);
        return triple && explainAt ? explainAt([where.at[0], where.at[1]], triple) : whole();
      },
    };
  });
  const unknown = beyond.map((part, i): SurfacePart => {
    const missing = [missingSpot(area, outline, part, surface, system)];
    const text = `Lowest surface of ${area.label} is not known beyond its spots`;
    return {
      name: `beyond-${i + 1}`,
      polygon: part,
      faces: [],
      missing,
      explain: () => reason(text, {}, [whole()]),
    };
  });
  return [...known, ...unknown];
}

/** The faces, or undefined where the clipper fails on this outline over these spots: then nothing is known of the deck, and nothing may be guessed. */
function foldedOrNothing(
  polygon: Polygon,
  { points, triangulation }: Extract<SpotSurface, { is: "folded" }>,
): FoldedFaces | undefined {
  try {
    return foldedFaces(polygon, points, triangulation, SPOT_NEAR_IN);
  } catch {
    return undefined;
  }
}

/** The corner of a part that lies farthest beyond the spots, as the place where one is missing. */
function missingSpot(
  area: Area,
  outline: Ring,
  part: Polygon,
  { points, triangulation: { hull } }: Extract<SpotSurface, { is: "folded" }>,
  system: UnitSystem,
): Missing {
  const ring = hull.map((k): Point2 => [points[k]![0], points[k]![1]]);
  const away = (at: Point2): number =>
    Math.min(...ring.map((a, i) => distanceToSegment(at, a, ring[(i + 1) % ring.length]!)));
  const far = part.outline.reduce((best, at) => (away(at) > away(best) ? at : best));
  const corners = outline.map((at, i) => ({ number: i + 1, apart: distance2(at, far) }));
  const { number } = corners.reduce((best, each) => (each.apart < best.apart ? each : best));
  const where = `corner ${number} of its outline`;
  const how = stationText(away(far), system);
  return {
    text: `${area.label}: a spot with an elevation at or beyond ${where}, which lies ${how} outside its spots`,
    remedy: {
      kind: "record-fact",
      text: `Put a spot of ${area.label} at ${where}, where its deck ends, and record its elevation there.`,
    },
  };
}
