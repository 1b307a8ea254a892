import { z } from "zod";
import { boxSchema } from "./box.ts";
import { fittingSchema } from "./fitting.ts";
import { runSchema } from "./run.ts";

/** Every kind of element a job may hold: a new kind is one file beside this one, and one line here. */
export const elementSchema = z.discriminatedUnion("kind", [runSchema, boxSchema, fittingSchema]);
export type Element = z.infer<typeof elementSchema>;
export type ElementKind = Element["kind"];
