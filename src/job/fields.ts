import { z } from "zod";

/** Id of a record: lower-case letters, digits and hyphens. Never shown; the label is. */
export const idSchema = z.string().regex(/^[a-z0-9][a-z0-9-]{0,63}$/);
export type Id = z.infer<typeof idSchema>;

/** A length as it was given: a value with its unit. */
export const lengthSchema = z.strictObject({ value: z.number(), unit: z.enum(["in", "ft", "mm", "m"]) });

/** A point in sheet space (PDF user space of the page, before page rotation). */
export const pointSchema = z.tuple([z.number(), z.number()]).readonly();

/** What an elevation of a deck is counted from. */
export const datumSchema = z.discriminatedUnion("from", [
  z.strictObject({ from: z.literal("project") }),
  z.strictObject({ from: z.literal("storey"), storey: idSchema }),
]);

/** What an elevation tag of wiring is counted from; "below-deck" is downwards from the lowest surface of the deck above. */
export const tagDatumSchema = z.discriminatedUnion("from", [
  ...datumSchema.options,
  z.strictObject({ from: z.literal("below-deck") }),
]);

/** An elevation tag: a length, what it is counted from, and which surface of the element it names. */
export const tagSchema = z.strictObject({
  length: lengthSchema,
  datum: tagDatumSchema,
  basis: z.enum(["bottom", "centre", "top"]),
  /** How far the tag may be off, each way; null takes the job's tolerance. */
  plusMinus: lengthSchema.nullable(),
});
export type Tag = z.infer<typeof tagSchema>;

/** What is known of an element beyond its shape. null = not recorded, which never counts as a yes or a no. */
export const factsSchema = z.strictObject({
  steelFittings: z.boolean().nullable(),
  inConcrete: z.boolean().nullable(),
  concreteThickness: lengthSchema.nullable(),
  accessible: z.boolean().nullable(),
});
export type ElementFacts = z.infer<typeof factsSchema>;

/** Facts of which nothing has been recorded. */
export const NO_FACTS: ElementFacts = {
  steelFittings: null,
  inConcrete: null,
  concreteThickness: null,
  accessible: null,
};
