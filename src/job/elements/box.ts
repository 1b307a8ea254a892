import { z } from "zod";
import { factsSchema, idSchema, lengthSchema, pointSchema, tagSchema } from "../fields.ts";

/** A box placed at its centre in plan. */
export const boxSchema = z.strictObject({
  kind: z.literal("box"),
  label: z.string(),
  viewport: idSchema,
  at: pointSchema,
  /** Row of the box table, or "other" with a size of its own. */
  item: z.string(),
  /** Own size, where the table's is not to be used: width and length of the face with the cover, and depth behind it. */
  size: z.strictObject({ width: lengthSchema, length: lengthSchema, depth: lengthSchema }).nullable(),
  /** Which way the cover faces: down (the depth is the height) or sideways (the length is the height). */
  cover: z.enum(["down", "sideways"]),
  /** Turn about the vertical, counter-clockwise from the sheet's +x, degrees. */
  rotationDeg: z.number(),
  tag: tagSchema.nullable(),
  facts: factsSchema,
});
export type Box = z.infer<typeof boxSchema>;
