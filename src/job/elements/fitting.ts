import { z } from "zod";
import { factsSchema, idSchema, lengthSchema, pointSchema, tagSchema } from "../fields.ts";

/** A conduit body or other fitting placed at its centre in plan, taken as the rectangular envelope around it. */
export const fittingSchema = z.strictObject({
  kind: z.literal("fitting"),
  label: z.string(),
  viewport: idSchema,
  at: pointSchema,
  /** Row of the fitting table and its trade size, or "other" with a size of its own. */
  item: z.string(),
  tradeSize: z.string(),
  size: z.strictObject({ width: lengthSchema, length: lengthSchema, height: lengthSchema }).nullable(),
  rotationDeg: z.number(),
  tag: tagSchema.nullable(),
  facts: factsSchema,
});
export type Fitting = z.infer<typeof fittingSchema>;
