import { overlap } from "../geometry/overlap.ts";
import type { Point2 } from "../geometry/point.ts";
import { type Polygon, type Ring, ringProblems } from "../geometry/polygon.ts";
import { applyTo } from "../geometry/similarity.ts";
import { outlinesOf } from "../job/storey-outline.ts";
import type { Problem } from "../units/problem.ts";
import type { Scene } from "./scene.ts";

interface Traced {
  readonly viewport: string;
  readonly outline: Ring;
  readonly holes: readonly Ring[];
}

/** What is doubtful in the outlines of storeys above: rings that cross themselves, and storeys that lie nowhere over a deck they speak for. */
export function storeyNotices(scene: Scene): Problem[] {
  const { areas, storeyOutlines } = scene.job;
  const problems: Problem[] = [];
  for (const [id, storey] of Object.entries(storeyOutlines))
    if (!isSound(storey))
      problems.push({
        code: "storey.outline",
        where: `storeyOutlines/${id}/outline`,
        params: { storey: storey.label },
      });
  for (const [id, area] of Object.entries(areas)) {
    const own = isSound(area) ? placed(scene, area) : undefined;
    if (!own) continue;
    for (const [i, named] of outlinesOf(area.classification).entries()) {
      const storey = storeyOutlines[named];
      const there = storey && isSound(storey) ? placed(scene, storey) : undefined;
      if (!storey || !there || there.root !== own.root || overlap(own.polygon, there.polygon).area > 0) continue;
      problems.push({
        code: "storey.not-over",
        where: `areas/${id}/classification/outlines/${i}`,
        params: { storey: storey.label, area: area.label, ...placeOf(scene, storey) },
      });
    }
  }
  return problems;
}

/** The first corner of an outline, for whoever wants to be shown it: the sheet it lies on and the place there, sheet space. */
function placeOf({ job }: Scene, { viewport, outline }: Traced): Problem["params"] {
  const sheet = job.viewports[viewport]?.sheet;
  const [first] = outline;
  return sheet === undefined || !first ? {} : { sheet, x: first[0], y: first[1] };
}

const isSound = ({ outline, holes }: Traced): boolean =>
  [outline, ...holes].every((ring) => ringProblems(ring).length === 0);

function placed(
  scene: Scene,
  { viewport, outline, holes }: Traced,
): { readonly root: string; readonly polygon: Polygon } | undefined {
  const registered = scene.registration(viewport);
  if (!registered.ok) return undefined;
  const { sim, root } = registered.value;
  const toBuilding = (ring: Ring): Point2[] => ring.map((at) => applyTo(sim, at));
  return { root, polygon: { outline: toBuilding(outline), holes: holes.map(toBuilding) } };
}
