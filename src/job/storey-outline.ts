import { z } from "zod";
import type { Id } from "./fields.ts";
import { idSchema, pointSchema } from "./fields.ts";

/** What may stand on a deck without being an occupied storey: things that make it a roof to one reviewer and a floor to another. */
export const STANDING_THINGS = ["mezzanine", "canopy", "plaza-deck", "balcony", "something-else"] as const;
export type StandingThing = (typeof STANDING_THINGS)[number];

/** What stands within the outline. Only an occupied storey makes the deck below it a floor by its outline alone; anything else a person settles, with a reason. */
const aboveSchema = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("not-recorded") }),
  z.strictObject({ is: z.literal("occupied-storey") }),
  z.strictObject({
    is: z.literal("other"),
    what: z.enum(STANDING_THINGS),
    /** What the deck below it is taken to be; without a reason and a name it stays not settled. */
    makes: z.enum(["floor-above", "roof", "not-settled"]),
  }),
]);

/** The outline of what stands on a deck, traced on any sheet registered to that of the deck. It speaks for the areas that name it, and for no other. */
export const storeyOutlineSchema = z.strictObject({
  label: z.string(),
  viewport: idSchema,
  /** Ring in sheet space, not repeated at its end. */
  outline: z.array(pointSchema),
  /** What is open to the sky inside: courts and shafts. */
  holes: z.array(z.array(pointSchema)),
  above: aboveSchema,
  reason: z.string(),
  by: z.string(),
});
export type StoreyOutline = z.infer<typeof storeyOutlineSchema>;

/** What a deck is above the rooms below it. */
export type SettledAs = "roof" | "floor-above" | "not-settled";

/** What a deck area is: recorded as such, or following from outlines of the storey above, named by their ids. */
export const classificationSchema = z.discriminatedUnion("is", [
  z.strictObject({
    is: z.enum(["roof", "floor-above", "not-settled"]),
    reason: z.string(),
    by: z.string(),
  }),
  z.strictObject({
    is: z.literal("from-outline"),
    outlines: z.array(idSchema),
    reason: z.string(),
    by: z.string(),
  }),
]);
export type AreaClassification = z.infer<typeof classificationSchema>;

/** The outlines that decide what an area is, by id; none where it was recorded directly. */
export const outlinesOf = (classification: AreaClassification): readonly Id[] =>
  classification.is === "from-outline" ? classification.outlines : [];

/**
 * What the deck within an outline is by it: a floor under an occupied storey; what was decided for anything else, where a reason and a name
 * are recorded with it; else not settled.
 */
export function makesOf({ above, reason, by }: Pick<StoreyOutline, "above" | "reason" | "by">): SettledAs {
  if (above.is === "not-recorded") return "not-settled";
  if (above.is === "occupied-storey") return "floor-above";
  return reason.trim() === "" || by.trim() === "" ? "not-settled" : above.makes;
}
