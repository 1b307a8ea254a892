import { z } from "zod";
import type { Tag } from "../fields.ts";
import { boxSchema } from "./box.ts";
import { fittingSchema } from "./fitting.ts";
import { runSchema } from "./run.ts";

/** Every kind of element a job may hold: a new kind is one file beside this one, and one line here. */
export const elementSchema = z.discriminatedUnion("kind", [runSchema, boxSchema, fittingSchema]);
export type Element = z.infer<typeof elementSchema>;
export type ElementKind = Element["kind"];

/** Every elevation tag of an element, with its path inside the record. */
export function tagsOf(element: Element): { readonly tag: Tag | null; readonly path: string }[] {
  return "vertices" in element
    ? element.vertices.map(({ tag }, i) => ({ tag, path: `vertices/${i}/tag` }))
    : [{ tag: element.tag, path: "tag" }];
}
