import type { Problem } from "../units/problem.ts";
import { namedBy, tagsOf } from "./elements/element.ts";
import type { Job } from "./schema.ts";
import { outlinesOf } from "./storey-outline.ts";

const ONE_OF = {
  sheets: "sheet",
  viewports: "viewport",
  storeys: "storey",
  elements: "element",
  storeyOutlines: "storey-outline",
  areas: "area",
} as const;

/** Every reference of the job that leads nowhere: a viewport without its sheet, an element without its viewport, a tag on no storey, an entry of no run. */
export function dangling(job: Job): Problem[] {
  const problems: Problem[] = [];
  const need = (table: keyof typeof ONE_OF, id: string | null | undefined, where: string, label: string): void => {
    if (id !== null && id !== undefined && !Object.hasOwn(job[table], id))
      problems.push({ code: `job.no-such-${ONE_OF[table]}`, where, params: { id, label } });
  };
  for (const [id, viewport] of Object.entries(job.viewports)) {
    need("sheets", viewport.sheet, `viewports/${id}/sheet`, viewport.name);
    need("storeys", viewport.storey, `viewports/${id}/storey`, viewport.name);
    need("viewports", viewport.registration?.to, `viewports/${id}/registration/to`, viewport.name);
  }
  for (const [id, area] of Object.entries(job.areas)) {
    need("viewports", area.viewport, `areas/${id}/viewport`, area.label);
    const { datum } = area.elevation;
    if (datum.from === "storey") need("storeys", datum.storey, `areas/${id}/elevation/datum/storey`, area.label);
    for (const [i, outline] of outlinesOf(area.classification).entries())
      need("storeyOutlines", outline, `areas/${id}/classification/outlines/${i}`, area.label);
  }
  for (const [id, outline] of Object.entries(job.storeyOutlines))
    need("viewports", outline.viewport, `storeyOutlines/${id}/viewport`, outline.label);
  for (const [id, element] of Object.entries(job.elements)) {
    need("viewports", element.viewport, `elements/${id}/viewport`, element.label);
    for (const { tag, path } of tagsOf(element))
      if (tag?.datum.from === "storey")
        need("storeys", tag.datum.storey, `elements/${id}/${path}/datum/storey`, element.label);
    for (const named of namedBy(element)) need("elements", named.id, `elements/${id}/${named.path}`, element.label);
  }
  for (const [id, note] of Object.entries(job.notes)) {
    need("sheets", note.sheet, `notes/${id}/sheet`, note.label);
    if (note.about) need(note.about.table, note.about.id, `notes/${id}/about/id`, note.label);
  }
  return problems;
}
