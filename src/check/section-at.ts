import { planSpans, segmentToFace } from "../geometry/clearance.ts";
import type { Face } from "../geometry/face.ts";
import { elevationAt } from "../geometry/plane.ts";
import { lerp2, type Point2, type Point3 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import type { DeckArea } from "./deck-area.ts";
import type { Piece } from "./piece.ts";
import { subjectShown } from "./run-profile.ts";
import { sceneOf } from "./scene.ts";
import { axisAt } from "./unroll.ts";

/** A place in an upright section: inches along it from the axis of the wiring, and elevation above the project datum. */
export interface SectionPoint {
  readonly u: number;
  readonly z: number;
}

/** What a section cuts of one deck: a stretch of its lowest surface. */
export interface SectionDeck {
  readonly label: string;
  readonly is: DeckArea["classification"]["is"];
  readonly line: readonly [SectionPoint, SectionPoint];
  /** Whether the deck ends there, rather than the section. */
  readonly ends: readonly [boolean, boolean];
  readonly depthIn: number;
  readonly fluted: boolean;
}

/** The upright cut through wiring at one station, through the place of the deck nearest to it: the least distance there is drawn at its true length. */
export interface Section {
  readonly label: string;
  readonly station: number;
  readonly system: "imperial" | "metric";
  readonly requiredIn: number;
  /** Elevation of the axis, and how far the surface is from it. */
  readonly wiring: { readonly z: number; readonly radiusIn: number };
  readonly decks: readonly SectionDeck[];
  /** The nearest place of any deck that is no floor, and the distance from the surface of the wiring, less than 0 where it reaches through; absent where no such deck is known. */
  readonly nearest?: SectionPoint & { readonly leastIn: number };
  /** Straight up from the top of the wiring to the deck over its axis; absent where none is. */
  readonly gapIn?: number;
}

/** How far a section reaches to both sides of the wiring, inches. */
export const SECTION_REACH_IN = 9;

/**
 * The section of a run, or of a raceway of a rack, at a station: the one that `member` names, else the one that stands highest. Undefined where the element is not a run, or its
 * elevation there is not known. It tells of that station alone: the least distance of the whole run may be elsewhere.
 */
export function sectionAt(job: Job, elementId: Id, station: number, member?: string): Section | undefined {
  const subject = subjectShown(job, elementId, member);
  const shape = subject?.shape();
  const scene = sceneOf(job);
  const piece = shape?.pieces.find(({ axis, curve, from, to }) => axis && !curve && station >= from && station <= to);
  const at = piece && axisAt(piece, station);
  if (!piece?.axis || !at || !subject || shape?.root === undefined) return undefined;
  const { radius } = piece.axis;
  const known = scene.frame(shape.root).areas.filter(({ faces }) => faces.length > 0);
  const roofs = known.filter(({ classification }) => classification.is !== "floor-above");
  const near = nearestOf(at, roofs);
  const way = wayOf(piece, at, near?.onFace);
  const cutAlong = ([x, y]: Point2): number => (x - at[0]) * way[0] + (y - at[1]) * way[1];
  const over = known.flatMap(({ faces }) =>
    faces.flatMap((face) => (planSpans(at, at, face).length > 0 ? [elevationAt(face.plane, [at[0], at[1]])] : [])),
  );
  return {
    label: subject.element.label,
    station,
    system: scene.system,
    requiredIn: scene.required,
    wiring: { z: at[2], radiusIn: radius },
    decks: known.flatMap((deck) => deck.faces.flatMap((face) => cut(deck, face, at, way))),
    ...(near
      ? {
          nearest: {
            u: cutAlong([near.onFace[0], near.onFace[1]]),
            z: near.onFace[2],
            leastIn: near.distance - radius,
          },
        }
      : {}),
    ...(over.length > 0 ? { gapIn: Math.min(...over) - at[2] - radius } : {}),
  };
}

function nearestOf(at: Point3, decks: readonly DeckArea[]) {
  const found = decks.flatMap(({ faces }) => faces.map((face) => segmentToFace(at, at, face)));
  return found.length > 0 ? found.reduce((best, each) => (each.distance < best.distance ? each : best)) : undefined;
}

/** Which way the section goes: towards the nearest place of a deck; where that is straight up, square to the run. */
function wayOf(piece: Piece, at: Point3, nearest: Point3 | undefined): Point2 {
  if (nearest) {
    const [x, y] = [nearest[0] - at[0], nearest[1] - at[1]];
    const length = Math.hypot(x, y);
    if (length > 1e-6) return [x / length, y / length];
  }
  const [a, b] = [piece.planAt(piece.from), piece.planAt(piece.to)];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return length > 0 ? [(a[1] - b[1]) / length, (b[0] - a[0]) / length] : [1, 0];
}

function cut(deck: DeckArea, face: Face, [x, y]: Point3, [dx, dy]: Point2): SectionDeck[] {
  const end = (u: number): Point2 => [x + dx * u, y + dy * u];
  const [from, to] = [end(-SECTION_REACH_IN), end(SECTION_REACH_IN)];
  return planSpans([...from, 0], [...to, 0], face).map(([a, b]) => {
    const point = (t: number): SectionPoint => ({
      u: (2 * t - 1) * SECTION_REACH_IN,
      z: elevationAt(face.plane, lerp2(from, to, t)),
    });
    return {
      label: deck.area.label,
      is: deck.classification.is,
      line: [point(a), point(b)],
      ends: [a > 0, b < 1],
      depthIn: deck.depth ?? 0,
      fluted: deck.deckClass === "metal-corrugated",
    };
  });
}
