import { type Face, makeFace } from "../geometry/face.ts";
import { type FaceIndex, makeFaceIndex } from "../geometry/face-index.ts";
import { planeLevel } from "../geometry/plane.ts";
import type { Point2 } from "../geometry/point.ts";
import { type Polygon, ringProblems } from "../geometry/polygon.ts";
import { applyTo } from "../geometry/similarity.ts";
import type { Id } from "../job/fields.ts";
import { type Registration, sheetToBuilding } from "../job/registration.ts";
import type { Area, Job } from "../job/schema.ts";
import type { AmendedRules } from "../rules/amend.ts";
import type { DeckClass, RuleSet } from "../rules/rule-set.ts";
import { requiredClearance } from "../rules/scope.ts";
import { findDeckProfile } from "../trade/decks.ts";
import { toInches, type UnitSystem } from "../units/length.ts";
import type { Result } from "../units/problem.ts";
import { type Inches, inches } from "../units/quantity.ts";
import { type DeckSurface, deckDepth, deckSurface } from "./deck-surface.ts";
import type { Reason } from "./finding.ts";
import { type Missing, reason } from "./reading.ts";
import { type FindRules, rulesOfJob } from "./rules-of-job.ts";

/** A deck area as the check sees it: in building space, with its lowest surface where that is known. */
export interface DeckArea {
  readonly id: Id;
  readonly area: Area;
  /** Plan outline, building space. */
  readonly polygon: Polygon;
  /** The outline at elevation 0: distances in plan, for areas whose elevation is not known. */
  readonly footprint: Face;
  /** The bounded lowest surface, or undefined with what is missing. */
  readonly face: Face | undefined;
  readonly tolerance: Inches;
  /** How far the outline may be off in plan, each way, from registration. */
  readonly planTolerance: Inches;
  readonly depth: Inches | undefined;
  readonly deckClass: DeckClass;
  readonly missing: readonly Missing[];
  /** How the lowest surface was found. */
  readonly reason: Reason;
}

/** All deck areas that share a frame, with an index over those whose lowest surface is known and one over all outlines. */
export interface Frame {
  readonly areas: readonly DeckArea[];
  readonly surfaces: FaceIndex;
  /** Number in `surfaces` to area. */
  readonly surfaceAreas: readonly DeckArea[];
  readonly footprints: FaceIndex;
  /** The largest plan and elevation tolerance of its areas: how much wider to search. */
  readonly slack: number;
}

/** Everything about a job that its elements are checked against. Made anew when anything but an element changes. */
export interface Scene {
  readonly job: Job;
  /** The job's rule set with its local amendments. */
  readonly rules: RuleSet | undefined;
  /** What the amendments came to. */
  readonly amended: AmendedRules | undefined;
  readonly system: UnitSystem;
  readonly required: Inches;
  readonly planTolerance: Inches;
  /** The frame of a root viewport; one without areas when there are none in it. */
  readonly frame: (root: Id) => Frame;
  readonly registration: (viewport: Id) => Result<Registration>;
}

/** What elements are checked against: while these tables are the same objects, the scene holds. */
const SCENE_TABLES = ["settings", "sheets", "storeys", "viewports", "areas"] as const;

/** Whether the scene of one job, with the other job in it, is that of the other: they differ in elements at most. */
export const sameScene = (one: Job, other: Job): boolean => SCENE_TABLES.every((table) => one[table] === other[table]);

const NO_AREAS: Frame = {
  areas: [],
  surfaces: makeFaceIndex([]),
  surfaceAreas: [],
  footprints: makeFaceIndex([]),
  slack: 0,
};

/** Reads the areas of a job into building space, and its rule set with the local amendments. Pure. */
export function makeScene(job: Job, find?: FindRules): Scene {
  const { system, tolerances } = job.settings.job;
  const amended = rulesOfJob(job, find);
  const rules = amended?.rules;
  const registrations = new Map<Id, Result<Registration>>();
  const registration = (viewport: Id): Result<Registration> => {
    const known = registrations.get(viewport);
    if (known) return known;
    const fresh = sheetToBuilding(job, viewport);
    registrations.set(viewport, fresh);
    return fresh;
  };
  const byRoot = new Map<Id, DeckArea[]>();
  for (const [id, area] of Object.entries(job.areas)) {
    const registered = registration(area.viewport);
    if (!registered.ok) continue;
    const list = byRoot.get(registered.value.root) ?? [];
    list.push(deckArea(job, id, area, registered.value));
    byRoot.set(registered.value.root, list);
  }
  const frames = new Map([...byRoot].map(([root, areas]) => [root, makeFrame(areas)] as const));
  return {
    job,
    rules,
    amended,
    system,
    required: rules ? requiredClearance(rules, system) : inches(0),
    planTolerance: toInches(tolerances.plan),
    frame: (root) => frames.get(root) ?? NO_AREAS,
    registration,
  };
}

function makeFrame(areas: readonly DeckArea[]): Frame {
  const withSurface = areas.filter((area) => area.face);
  return {
    areas,
    surfaces: makeFaceIndex(withSurface.map((area) => area.face!)),
    surfaceAreas: withSurface,
    footprints: makeFaceIndex(areas.map((area) => area.footprint)),
    slack: Math.max(...areas.map((area) => area.planTolerance + area.tolerance)),
  };
}

function deckArea(job: Job, id: Id, area: Area, registered: Registration): DeckArea {
  const toBuilding = (at: Point2): Point2 => applyTo(registered.sim, at);
  const polygon: Polygon = {
    outline: area.outline.map(toBuilding),
    holes: area.holes.map((hole) => hole.map(toBuilding)),
  };
  const fault = [polygon.outline, ...polygon.holes].some((ring) => ringProblems(ring).length > 0);
  const surface = deckSurface(job, area, toBuilding);
  const missing: Missing[] = surface.known ? [] : [...surface.missing];
  if (fault) {
    const text = `${area.label}: an outline that does not cross itself`;
    missing.push({
      text,
      remedy: { kind: "outline", text: `Draw the outline of ${area.label} again, so that it does not cross itself.` },
    });
  }
  const profile = findDeckProfile(area.deck.profile);
  if (!profile) {
    // Which deck it is decides whether the rule reaches it at all: without it there is no verdict, and never a pass.
    const text = `${area.label}: what its deck is made of`;
    missing.push({ text, remedy: { kind: "record-fact", text: `Choose the deck of ${area.label}.` } });
  }
  const usable: DeckSurface | undefined = surface.known && !fault && profile ? surface.value : undefined;
  return {
    id,
    area,
    polygon,
    footprint: makeFace(polygon, planeLevel(inches(0))),
    face: usable ? makeFace(polygon, usable.plane) : undefined,
    tolerance: usable ? usable.tolerance : inches(0),
    planTolerance: registered.worst,
    depth: deckDepth(area),
    deckClass: profile?.material ?? "other",
    missing,
    reason: fault
      ? reason(`The outline of ${area.label} cannot be used: it crosses itself or is collapsed`)
      : surface.explain(),
  };
}
