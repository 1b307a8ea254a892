import { ringProblems } from "../geometry/polygon.ts";
import type { Element } from "../job/elements/element.ts";
import type { Job } from "../job/schema.ts";
import type { Problem } from "../units/problem.ts";
import { leavesOutline } from "./deck-area.ts";
import { foldNotices } from "./fold-notices.ts";
import { gapNotices, overlapNotices } from "./outline-notices.ts";
import type { Scene } from "./scene.ts";
import { storeyNotices } from "./storey-notices.ts";

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
    else
      record.holes.forEach((hole, i) => {
        if (leavesOutline(record.outline, hole))
          notices.push({ code: "area.hole-outside", where: `areas/${id}/holes/${i}`, params: { area: record.label } });
      });
  }
  const roots = new Set(
    Object.values(job.areas).flatMap((record) => {
      const registered = scene.registration(record.viewport);
      return registered.ok ? [registered.value.root] : [];
    }),
  );
  for (const root of roots) {
    const frame = scene.frame(root);
    notices.push(...overlapNotices(scene, frame), ...gapNotices(scene, frame.areas));
  }
  for (const [id, record] of Object.entries(job.areas)) notices.push(...foldNotices(scene, id, record));
  notices.push(...storeyNotices(scene), ...lookNotices(job));
  return notices;
}

/** Sheets whose new issue shows something else where marks lie, while nobody has looked at them: what is found of those may be of what was drawn before. */
function lookNotices(job: Job): Problem[] {
  return Object.entries(job.sheets).flatMap(([id, { title, toLookAt = [] }]): Problem[] => {
    const labels = toLookAt.flatMap(({ table, id: mark }) => job[table][mark]?.label ?? []);
    if (labels.length === 0) return [];
    const names = labels.length > NAMED ? [...labels.slice(0, NAMED), "…"] : labels;
    return [
      {
        code: "sheet.to-look-at",
        where: `sheets/${id}/toLookAt`,
        params: { sheet: title, count: labels.length, names: names.join(", ") },
      },
    ];
  });
}
/** So many marks are called by name. */
const NAMED = 12;
