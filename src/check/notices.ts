import { overlap } from "../geometry/overlap.ts";
import { area, ringProblems } from "../geometry/polygon.ts";
import type { Element } from "../job/elements/element.ts";
import type { Job } from "../job/schema.ts";
import type { Problem } from "../units/problem.ts";
import { type DeckArea, hasSurface, surfaceAt } from "./deck-area.ts";
import type { Scene } from "./scene.ts";

/** Overlaps smaller than this share of the smaller area are traced edges that do not quite meet. */
const SLIVER = 0.01;
/** Two decks over one place whose elevations differ by less than this are one deck drawn twice, inches. */
const SAME_ELEVATION_IN = 0.25;

/** What is wrong or doubtful in the elements themselves, in the order of their records. */
export function elementNotices(job: Job): Problem[] {
  const problems: Problem[] = [];
  for (const [id, element] of Object.entries(job.elements))
    if (hasNotice(element))
      problems.push({ code: "run.one-point", where: `elements/${id}/vertices`, params: { run: element.label } });
  return problems;
}

/** Whether `elementNotices` has anything to say of an element. */
export const hasNotice = (element: Element): boolean => "vertices" in element && element.vertices.length < 2;

/** What is wrong or doubtful in amendments, viewports and deck areas: what cannot apply, registrations that do not work, outlines that cross, decks that overlap. */
export function sceneNotices(scene: Scene): Problem[] {
  const { job } = scene;
  const notices: Problem[] = (scene.amended?.problems ?? []).map((problem) => ({
    ...problem,
    where: `settings/job/amendments/${problem.where}`,
  }));
  for (const id of Object.keys(job.viewports)) {
    const registered = scene.registration(id);
    if (!registered.ok) notices.push(...registered.problems);
  }
  for (const [id, record] of Object.entries(job.areas)) {
    if ([record.outline, ...record.holes].some((ring) => ringProblems(ring).length > 0))
      notices.push({ code: "area.outline", where: `areas/${id}/outline`, params: { area: record.label } });
  }
  const roots = new Set(
    Object.values(job.areas).flatMap((record) => {
      const registered = scene.registration(record.viewport);
      return registered.ok ? [registered.value.root] : [];
    }),
  );
  for (const root of roots) notices.push(...overlaps(scene.frame(root).areas));
  return notices;
}

function overlaps(decks: readonly DeckArea[]): Problem[] {
  const problems: Problem[] = [];
  for (const [i, a] of decks.entries()) {
    for (const j of laterOverlapping(decks, i)) {
      const b = decks[j]!;
      // A floor deck below a roof is a building of two storeys, not a contradiction.
      if ((a.classification.is === "floor-above") !== (b.classification.is === "floor-above")) continue;
      if (a.id === b.id || !hasSurface(a) || !hasSurface(b) || a.missing.length > 0 || b.missing.length > 0) continue;
      const shared = overlap(a.polygon, b.polygon);
      const at = shared.polygons[0]?.outline[0];
      if (!at || shared.area < SLIVER * Math.min(sizeOf(a), sizeOf(b))) continue;
      const difference = Math.abs(surfaceAt(a, at) - surfaceAt(b, at));
      const code = difference > SAME_ELEVATION_IN ? "area.overlap-elevations" : "area.overlap";
      problems.push({
        code,
        where: `areas/${a.id}`,
        params: { a: a.area.label, b: b.area.label, difference: Number(difference.toFixed(3)) },
      });
    }
  }
  return problems;
}

const sizeOf = (deck: DeckArea): number => area(deck.polygon);

function laterOverlapping(decks: readonly DeckArea[], i: number): number[] {
  const a = decks[i]!.footprint.box;
  const found: number[] = [];
  for (let j = i + 1; j < decks.length; j++) {
    const b = decks[j]!.footprint.box;
    if (a.min[0] < b.max[0] && b.min[0] < a.max[0] && a.min[1] < b.max[1] && b.min[1] < a.max[1]) found.push(j);
  }
  return found;
}
