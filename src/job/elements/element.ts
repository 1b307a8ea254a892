import { z } from "zod";
import type { Id, Tag } from "../fields.ts";
import { boxSchema } from "./box.ts";
import { entrySchema } from "./entry.ts";
import { fittingSchema } from "./fitting.ts";
import { racewayAsRun, rackSchema } from "./rack.ts";
import { type Run, runSchema } from "./run.ts";

/** Every kind of element a job may hold: a new kind is one file beside this one, and one line here. */
export const elementSchema = z.discriminatedUnion("kind", [
  runSchema,
  rackSchema,
  boxSchema,
  fittingSchema,
  entrySchema,
]);
export type Element = z.infer<typeof elementSchema>;
export type ElementKind = Element["kind"];

/** Every elevation tag an element has room for, with its path inside the record; none where its kind has no elevation. */
export function tagsOf(element: Element): { readonly tag: Tag | null; readonly path: string }[] {
  if ("vertices" in element) return element.vertices.map(({ tag }, i) => ({ tag, path: `vertices/${i}/tag` }));
  return "tag" in element ? [{ tag: element.tag, path: "tag" }] : [];
}

/** The runs an element is, or is made of: a run itself, every raceway of a rack; none of anything else. */
export function runsIn(element: Element): readonly Run[] {
  if ("wiring" in element) return [element];
  return "raceways" in element ? element.raceways.map((_, i) => racewayAsRun(element, i)) : [];
}

/** Every other element that an element names, with the path of the id inside the record. */
export function namedBy(element: Element): { readonly id: Id; readonly path: string }[] {
  const named: { id: Id; path: string }[] = [];
  if ("run" in element && element.run !== null) named.push({ id: element.run, path: "run" });
  if ("enclosure" in element && element.enclosure.is === "box")
    named.push({ id: element.enclosure.box, path: "enclosure/box" });
  return named;
}

/** The element once others are gone: what it named of them is not recorded any more. The same object where it named none. */
export function withoutNamed(element: Element, gone: ReadonlySet<Id>): Element {
  if (!("enclosure" in element) || !namedBy(element).some(({ id }) => gone.has(id))) return element;
  const { run, enclosure } = element;
  return {
    ...element,
    run: run !== null && gone.has(run) ? null : run,
    enclosure: enclosure.is === "box" && gone.has(enclosure.box) ? { is: "not-recorded" } : enclosure,
  };
}
