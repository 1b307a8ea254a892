import { z } from "zod";
import { factsSchema, idSchema, lengthSchema, pointSchema, tagSchema } from "../fields.ts";

/** What a raceway or cable is. */
export const wiringSchema = z.strictObject({
  /** Row of the raceway table: "emt", "rmc", "mc"… */
  type: z.string(),
  tradeSize: z.string(),
  /** Outside diameter where the table's is not to be used (types that vary by maker); null takes the table's. */
  outsideDiameter: lengthSchema.nullable(),
  /** Outside sizes of a rectangular section, such as a wireway's, across and up; absent: the table's, or a round section. */
  section: z.strictObject({ width: lengthSchema, height: lengthSchema }).exactOptional(),
});
export type Wiring = z.infer<typeof wiringSchema>;

/** A size by the trade table, or one of its own. */
const tableOrOwn = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("table") }),
  z.strictObject({ is: z.literal("own"), length: lengthSchema }),
]);

/** What a raceway has besides its tube. Each is absent where nobody has recorded it. */
export const besidesTube = {
  /** Couplings and connectors somewhere along it, by their outside diameter. */
  couplings: tableOrOwn.exactOptional(),
  /** Bends at its vertices, by the radius of their centre line. */
  bends: tableOrOwn.exactOptional(),
  /** How much lower it hangs between its supports than at them. */
  droop: lengthSchema.exactOptional(),
};

/** Points a raceway is traced by. A vertical drop has two at one place with different tags. */
export const verticesSchema = z.array(z.strictObject({ at: pointSchema, tag: tagSchema.nullable() }));

/** A run of a raceway or cable: straight between its vertices, in plan and in elevation between two tags. */
export const runSchema = z.strictObject({
  kind: z.literal("run"),
  label: z.string(),
  viewport: idSchema,
  wiring: wiringSchema,
  /** At least two. */
  vertices: verticesSchema,
  facts: factsSchema,
  ...besidesTube,
});
export type Run = z.infer<typeof runSchema>;
/** A size by the trade table, or one of its own. */
export type TableOrOwn = z.infer<typeof tableOrOwn>;
