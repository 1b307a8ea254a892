import { z } from "zod";
import { factsSchema, idSchema, lengthSchema, pointSchema, tagSchema } from "../fields.ts";

/** A run of a raceway or cable: straight between its vertices, in plan and in elevation between two tags. */
export const runSchema = z.strictObject({
  kind: z.literal("run"),
  label: z.string(),
  viewport: idSchema,
  wiring: z.strictObject({
    /** Row of the raceway table: "emt", "rmc", "mc"… */
    type: z.string(),
    tradeSize: z.string(),
    /** Outside diameter where the table's is not to be used (types that vary by maker); null takes the table's. */
    outsideDiameter: lengthSchema.nullable(),
  }),
  /** At least two; a vertical drop has two vertices at one place with different tags. */
  vertices: z.array(z.strictObject({ at: pointSchema, tag: tagSchema.nullable() })),
  facts: factsSchema,
});
export type Run = z.infer<typeof runSchema>;
