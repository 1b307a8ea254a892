import { z } from "zod";
import { lengthSchema } from "./fields.ts";

/** A layer by its name and thickness; null = not known. */
export const layerSchema = z.strictObject({ name: z.string(), thickness: lengthSchema.nullable() });

/**
 * How the roofing over a deck area is held down, for advice on how far its fasteners reach below the deck. Never part of a verdict.
 * null = not known.
 */
export const roofingSchema = z.strictObject({
  /** Length of the fastener below its head. */
  fastener: lengthSchema.nullable(),
  /** What lies between its head and the top of the deck, from above. */
  layers: z.array(layerSchema),
  /** Thickness of what it goes through last: the sheet of a steel deck, the boards of a wood one. */
  deckThickness: lengthSchema.nullable(),
  /** Which flange of a fluted deck it goes through. */
  flange: z.enum(["bottom", "top", "not-recorded"]),
  /** How much more than its reach is to be kept clear; null: no margin. */
  margin: lengthSchema.nullable(),
});
export type Roofing = z.infer<typeof roofingSchema>;

/** A roofing of which nothing has been recorded. */
export const NO_ROOFING: Roofing = {
  fastener: null,
  layers: [],
  deckThickness: null,
  flange: "not-recorded",
  margin: null,
};
