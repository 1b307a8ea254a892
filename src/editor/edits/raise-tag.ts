import type { Edit } from "../../job/edit.ts";
import { tagsOf } from "../../job/elements/element.ts";
import type { Id, Tag } from "../../job/fields.ts";
import { raisedTag } from "../../job/raised-tag.ts";
import type { Job } from "../../job/schema.ts";
import type { Length, UnitSystem } from "../../units/length.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import type { Inches } from "../../units/quantity.ts";
import { withoutIdle } from "./change.ts";
import { setTag } from "./elements.ts";

/** The step a tape holds, in parts of each unit: 1/16 in. and a millimetre. */
const PER_UNIT: Readonly<Record<Length["unit"], number>> = { in: 16, ft: 192, mm: 1, m: 1000 };

/**
 * Raises the elevation tag of one vertex, or of a thing placed at a point (vertex 0), lowers it where `by` is negative, to the nearest step of a
 * tape. Problems: `edit.no-such-vertex` where there is no tag, and those of `setTag`.
 */
export function raiseTag(job: Job, id: Id, vertex: number, by: Inches): Result<Edit> {
  const element = job.elements[id];
  const tag = element && tagsOf(element)[vertex]?.tag;
  if (!tag) return fail("edit.no-such-vertex", `elements/${id}`, { label: element?.label ?? id, vertex });
  const edit = setTag(job, id, vertex, onTape(raisedTag(tag, by)));
  if (!edit.ok) return edit;
  const verb = by < 0 ? "Lower" : "Raise";
  return ok(withoutIdle({ ...edit.value, name: `${verb} a tag of ${element.label}` }));
}

function onTape(tag: Tag): Tag {
  const { value, unit } = tag.length;
  const per = PER_UNIT[unit];
  return { ...tag, length: { value: Math.round(value * per) / per, unit } };
}

/** What an arrow key raises or lowers a tag by: 1/8 in., or 5 mm. */
export const keyStep = (system: UnitSystem): number => (system === "metric" ? 5 / 25.4 : 1 / 8);
