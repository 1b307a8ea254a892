import { type Face, makeFace } from "../geometry/face.ts";
import { overlap } from "../geometry/overlap.ts";
import { insideOrOnEdges, planDistance2 } from "../geometry/plan-edges.ts";
import { elevationAt, planeLevel } from "../geometry/plane.ts";
import type { Point2 } from "../geometry/point.ts";
import { locate, type Polygon, type Ring, ringProblems, signedArea } from "../geometry/polygon.ts";
import { applyTo } from "../geometry/similarity.ts";
import type { Id } from "../job/fields.ts";
import type { Registration } from "../job/registration.ts";
import type { Area, Job } from "../job/schema.ts";
import type { DeckClass } from "../rules/rule-set.ts";
import { findDeckProfile } from "../trade/decks.ts";
import { type Inches, inches } from "../units/quantity.ts";
import { type AreaPart, areaParts } from "./area-parts.ts";
import type { DeckClassification } from "./deck-classification.ts";
import { type SurfacePart, type SurfacePlace, surfaceParts } from "./deck-faces.ts";
import { deckDepth, deckSurface } from "./deck-surface.ts";
import type { Reason } from "./finding.ts";
import { type Missing, reason } from "./reading.ts";

/**
 * A deck area as the check sees it: in building space, with its lowest surface where that is known. One record of the job gives one
 * of these, or several that part its plan between them: each has an outline and a classification of its own.
 */
export interface DeckArea {
  /** Tells it from every other of its job: the id of its record, and which part of it, where there are several. The same from check to check. */
  readonly key: string;
  /** The record it comes from. */
  readonly id: Id;
  readonly area: Area;
  readonly classification: DeckClassification;
  /** Plan outline, building space. */
  readonly polygon: Polygon;
  /** The outline at elevation 0: distances in plan, for areas whose elevation is not known. */
  readonly footprint: Face;
  /**
   * The bounded lowest surface: one plane, or planar pieces that together fill the outline and meet along their edges. What
   * parts two of them is no edge of the deck. Empty where the surface is not known; `missing` says why.
   */
  readonly faces: readonly Face[];
  readonly tolerance: Inches;
  /** How far the outline may be off in plan, each way, from registration. */
  readonly planTolerance: Inches;
  readonly depth: Inches | undefined;
  readonly deckClass: DeckClass;
  readonly missing: readonly Missing[];
  /** How the lowest surface was found: as a whole, or at a place of one of its faces. */
  readonly explain: (where?: SurfacePlace) => Reason;
}

/** Whether the lowest surface is known. */
export const hasSurface = (deck: DeckArea): boolean => deck.faces.length > 0;

/** The face of a known surface over a point of the plan; beside all of them, the one nearest in plan. */
export function faceOver({ faces }: DeckArea, at: Point2): Face {
  const [first] = faces;
  if (!first) throw new Error("the lowest surface is not known");
  if (faces.length === 1) return first;
  let nearest = first;
  let least = Number.POSITIVE_INFINITY;
  for (const face of faces) {
    const x = at[0] - face.origin[0];
    const y = at[1] - face.origin[1];
    if (insideOrOnEdges(face.edges, x, y)) return face;
    const apart = planDistance2(face.edges, x, y);
    if (apart >= least) continue;
    least = apart;
    nearest = face;
  }
  return nearest;
}

/** Elevation of a known surface at a point of the plan; beside it, as its nearest face goes on. */
export const surfaceAt = (deck: DeckArea, at: Point2): Inches => elevationAt(faceOver(deck, at).plane, at);

/** Of a hole, this part may lie beyond the outline: what tracing along an edge makes of it. */
const STRAY_PART = 0.01;

/** Whether a hole reaches beyond the outline it belongs to: what of it lies outside would count as deck. Both in one plane, neither crossing itself. */
export function leavesOutline(outline: Ring, hole: Ring): boolean {
  if (hole.every((spot) => locate({ outline, holes: [] }, spot) === "inside") && isConvex(outline)) return false;
  const inside = overlap({ outline, holes: [] }, { outline: hole, holes: [] }).area;
  const whole = Math.abs(signedArea(hole));
  return inside < whole * (1 - STRAY_PART);
}

/** Whether no corner of a ring turns the other way than its neighbours. */
function isConvex(ring: Ring): boolean {
  const turns = ring.map((b, i) => {
    const a = ring.at(i - 1)!;
    const c = ring[(i + 1) % ring.length]!;
    return Math.sign((b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0]));
  });
  return !turns.includes(1) || !turns.includes(-1);
}

/** Reads one area of a job into building space. */
export function deckAreas(job: Job, id: Id, area: Area, registered: Registration): DeckArea[] {
  const toBuilding = (at: Point2): Point2 => applyTo(registered.sim, at);
  const polygon: Polygon = {
    outline: area.outline.map(toBuilding),
    holes: area.holes.map((hole) => hole.map(toBuilding)),
  };
  const fault = [polygon.outline, ...polygon.holes].some((ring) => ringProblems(ring).length > 0);
  const strays = !fault && polygon.holes.some((hole) => leavesOutline(polygon.outline, hole));
  const surface = deckSurface(job, area, toBuilding);
  const missing: Missing[] = surface.known ? [] : [...surface.missing];
  if (fault) {
    const text = `${area.label}: an outline that does not cross itself`;
    missing.push({
      text,
      remedy: { kind: "outline", text: `Draw the outline of ${area.label} again, so that it does not cross itself.` },
    });
  }
  if (strays) {
    const text = `${area.label}: a hole that lies within its outline`;
    missing.push({ text, remedy: { kind: "outline", text: `Trace the hole of ${area.label} within its outline.` } });
  }
  const profile = findDeckProfile(area.deck.profile);
  if (!profile) {
    // Which deck it is decides whether the rule reaches it at all: without it there is no verdict, and never a pass.
    const text = `${area.label}: what its deck is made of`;
    missing.push({ text, remedy: { kind: "record-fact", text: `Choose the deck of ${area.label}.` } });
  }
  const usable = surface.known && !fault && !strays && profile ? surface.value : undefined;
  const explain = (): Reason =>
    fault
      ? reason(`The outline of ${area.label} cannot be used: it crosses itself or is collapsed`)
      : surface.explain();
  const { outline } = polygon;
  const under = (part: Polygon): readonly SurfacePart[] =>
    usable
      ? surfaceParts(area, outline, part, usable, surface.explain, job.settings.job.system)
      : [{ name: "", polygon: part, faces: [], missing, explain }];
  const parts = fault ? [unsoundPart(area, polygon, registered)] : areaParts(job, area, polygon, registered);
  return parts.flatMap(({ name, polygon: part, classification, planTolerance }) =>
    under(part).map((piece) => ({
      key: [id, name, piece.name].filter((each) => each !== "").join("/"),
      id,
      area,
      classification,
      polygon: piece.polygon,
      footprint: makeFace(piece.polygon, planeLevel(inches(0))),
      faces: piece.faces,
      tolerance: usable ? usable.tolerance : inches(0),
      planTolerance,
      depth: deckDepth(area),
      deckClass: profile?.material ?? "other",
      missing: piece.missing,
      explain: piece.explain,
    })),
  );
}

/** An area whose outline crosses itself cannot be parted: what follows from outlines is not settled. */
function unsoundPart({ classification }: Area, polygon: Polygon, { worst }: Registration): AreaPart {
  const { is, reason: why, by } = classification;
  const settled = is === "from-outline" ? "not-settled" : is;
  return { name: "", polygon, classification: { is: settled, reason: why, by }, planTolerance: worst };
}
