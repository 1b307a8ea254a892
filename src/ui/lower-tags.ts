import type { Edit } from "../job/edit.ts";
import { editOf } from "../job/edit.ts";
import type { Element } from "../job/elements/element.ts";
import type { Id, Tag } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { type Length, settle } from "../units/length.ts";
import { MM_PER_INCH } from "../units/quantity.ts";

/** How many of a unit make an inch. */
const perInch: Readonly<Record<Length["unit"], number>> = { in: 1, ft: 1 / 12, mm: MM_PER_INCH, m: MM_PER_INCH / 1000 };

/** Lowers every tag of an element by so many inches, in the unit each was given in: one undo step. */
export function lowerTags(job: Job, id: Id, byIn: number): Edit | undefined {
  const element = job.elements[id];
  if (!element) return undefined;
  return editOf(job, `Lower ${element.label}`, [{ table: "elements", id, after: lowered(element, byIn) }]);
}

function lowered(element: Element, byIn: number): Element {
  if ("vertices" in element)
    return { ...element, vertices: element.vertices.map((vertex) => ({ ...vertex, tag: lowerTag(vertex.tag, byIn) })) };
  return "tag" in element ? { ...element, tag: lowerTag(element.tag, byIn) } : element;
}

/** A tag below the deck counts downwards: lower means more. */
function lowerTag(tag: Tag | null, byIn: number): Tag | null {
  if (!tag) return null;
  const sign = tag.datum.from === "below-deck" ? 1 : -1;
  const { value, unit } = tag.length;
  // A foot is not a binary fraction apart: lowered in inches, where fractions are exact.
  const length: Length =
    unit === "ft"
      ? { value: settle(value * 12 + sign * byIn), unit: "in" }
      : { value: settle(value + sign * byIn * perInch[unit]), unit };
  return { ...tag, length };
}
