import { type FaceIndex, makeFaceIndex } from "../geometry/face-index.ts";
import type { Id } from "../job/fields.ts";
import { type Registration, sheetToBuilding } from "../job/registration.ts";
import type { Job, Settings } from "../job/schema.ts";
import type { AmendedRules } from "../rules/amend.ts";
import type { RuleSet } from "../rules/rule-set.ts";
import { requiredClearance } from "../rules/scope.ts";
import { toInches, type UnitSystem } from "../units/length.ts";
import type { Result } from "../units/problem.ts";
import { type Inches, inches } from "../units/quantity.ts";
import { type DeckArea, deckAreas } from "./deck-area.ts";
import { type FindRules, rulesOfJob } from "./rules-of-job.ts";

/** All deck areas that share a frame, with an index over those whose lowest surface is known and one over all outlines. */
export interface Frame {
  readonly areas: readonly DeckArea[];
  readonly surfaces: FaceIndex;
  /** Number of a face in `surfaces` to the area it belongs to. */
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
const SCENE_TABLES = ["sheets", "storeys", "viewports", "areas", "storeyOutlines"] as const;

/** Whether the scene of one job, with the other job in it, is that of the other: they differ in elements at most. */
export const sameScene = (one: Job, other: Job): boolean =>
  SCENE_TABLES.every((table) => one[table] === other[table]) && sameSettings(one.settings.job, other.settings.job);

/** Whether two settings differ in nothing a check reads: which labels were given is none of its business. */
function sameSettings(one: Settings, other: Settings): boolean {
  if (one === other) return true;
  const [a, b] = [
    { ...one, labelsGiven: undefined },
    { ...other, labelsGiven: undefined },
  ];
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof typeof a>;
  return [...keys].every((key) => a[key] === b[key]);
}

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
    list.push(...deckAreas(job, id, area, registered.value));
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
    frame: (root) => frames.get(root) ?? noAreas,
    registration,
  };
}

const scenes = new WeakMap<Job["areas"], Scene>();

/**
 * The scene of a job by its own rule edition, made once for a job and for those that differ from it in elements alone: for whoever asks about
 * its elements one by one, while one of them moves too.
 */
export function sceneOf(job: Job): Scene {
  const known = scenes.get(job.areas);
  if (known?.job === job) return known;
  const scene = known && sameScene(known.job, job) ? { ...known, job } : makeScene(job);
  scenes.set(job.areas, scene);
  return scene;
}

function makeFrame(areas: readonly DeckArea[]): Frame {
  const slack = areas.reduce((most, { planTolerance, tolerance }) => Math.max(most, planTolerance + tolerance), 0);
  return {
    areas,
    surfaces: makeFaceIndex(areas.flatMap((area) => area.faces)),
    surfaceAreas: areas.flatMap((area) => area.faces.map(() => area)),
    footprints: makeFaceIndex(areas.map((area) => area.footprint)),
    slack,
  };
}

const noAreas = makeFrame([]);
