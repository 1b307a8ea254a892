import type { Point2 } from "../../geometry/point.ts";
import { type Edit, editOf } from "../../job/edit.ts";
import type { Element } from "../../job/elements/element.ts";
import type { Id, Tag } from "../../job/fields.ts";
import { raisedTag } from "../../job/raised-tag.ts";
import type { Job } from "../../job/schema.ts";
import type { Remedy } from "../finding.ts";

/**
 * The edit that carries out a remedy on an element, one undo step; undefined where the element is gone or the remedy is not one
 * that can be carried out by itself (a change of wiring, a fact to record). It makes the element that was checked again
 * before the remedy was offered.
 */
export function remedyEdit(job: Job, id: Id, remedy: Remedy): Edit | undefined {
  const element = job.elements[id];
  const after = element && remedied(element, remedy);
  const verb = remedy.shift ? "Move" : "Lower";
  return after && editOf(job, `${verb} ${element.label}`, [{ table: "elements", id, after }]);
}

/** The element as a remedy makes it, or undefined where the remedy does not say how. */
export function remedied(element: Element, { byIn, shift }: Remedy): Element | undefined {
  if (shift) return shifted(element, shift);
  return byIn === undefined ? undefined : lowered(element, byIn);
}

/** The element with every point shifted, sheet space. */
function shifted(element: Element, [dx, dy]: Point2): Element {
  const move = ([x, y]: Point2): Point2 => [x + dx, y + dy];
  if ("vertices" in element)
    return { ...element, vertices: element.vertices.map((vertex) => ({ ...vertex, at: move(vertex.at) })) };
  return { ...element, at: move(element.at) };
}

/** The element with every tag lowered by so many inches, each in the unit it was given in. */
function lowered(element: Element, byIn: number): Element {
  if ("vertices" in element)
    return { ...element, vertices: element.vertices.map((vertex) => ({ ...vertex, tag: lowerTag(vertex.tag, byIn) })) };
  return "tag" in element ? { ...element, tag: lowerTag(element.tag, byIn) } : element;
}

const lowerTag = (tag: Tag | null, byIn: number): Tag | null => tag && raisedTag(tag, -byIn);
