import { z } from "zod";
import { idSchema, pointSchema } from "../fields.ts";

/** What a raceway enters: a box of the job, or anything else in words of one's own, such as "panel LP-2". */
const enclosureSchema = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("not-recorded") }),
  z.strictObject({ is: z.literal("box"), box: idSchema }),
  z.strictObject({ is: z.literal("words"), words: z.string() }),
]);

/** How the conductors are protected from the edge of the entry. */
const protectionSchema = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("not-recorded") }),
  z.strictObject({ is: z.literal("none") }),
  z.strictObject({
    is: z.literal("method"),
    /** One of the methods that rule sets name: "insulating-fitting", "integral-hub"… */
    method: z.string(),
    /** Temperature rating of the fitting or insert, degrees Celsius; null where it is not recorded, or the method has none. */
    ratingC: z.number().positive().nullable(),
  }),
]);

/** A place where a raceway with insulated conductors enters a cabinet, box, enclosure or another raceway. null = not recorded. */
export const entrySchema = z.strictObject({
  kind: z.literal("entry"),
  label: z.string(),
  viewport: idSchema,
  at: pointSchema,
  /** The run that enters here. */
  run: idSchema.nullable(),
  enclosure: enclosureSchema,
  /** The largest circuit conductor, by its row of the conductor table: "4", "4/0", "250"… */
  conductor: z.string().nullable(),
  /** Its insulation, by type letters of the insulation table. */
  insulation: z.string().nullable(),
  protection: protectionSchema,
  /** Is the raceway held by a locknut or another mechanical fastening? A bushing of insulating material is none. */
  fastened: z.boolean().nullable(),
  /** Was, or will, the protection be in place before the conductors are pulled? */
  beforePulling: z.boolean().nullable(),
});
export type Entry = z.infer<typeof entrySchema>;
export type EntryProtectionRecord = Entry["protection"];
export type Enclosure = Entry["enclosure"];
