import { z } from "zod";
import { toInches } from "../../units/length.ts";
import { factsSchema, idSchema, lengthSchema } from "../fields.ts";
import { besidesTube, type Run, verticesSchema, wiringSchema } from "./run.ts";

/** One raceway or cable of a rack. */
const racewaySchema = z.strictObject({
  /** What it is called after the rack's own label; "" takes its number in the list. */
  label: z.string(),
  wiring: wiringSchema,
  facts: factsSchema,
  ...besidesTube,
});

/** Where the raceways lie across the rack, by their centres. */
const spacingSchema = z.discriminatedUnion("is", [
  /** Evenly, so far from centre to centre, with the middle of them all on the traced line. */
  z.strictObject({ is: z.literal("centres"), apart: lengthSchema }),
  /** Each so far from the traced line, to the right as it is traced; negative to the left. One for every raceway. */
  z.strictObject({ is: z.literal("offsets"), offsets: z.array(lengthSchema) }),
]);

/**
 * Several raceways side by side on one support, traced once: all bear on it, so that their bottoms are at one elevation. Its tags name that bottom,
 * or the centre or top of the largest of them.
 */
export const rackSchema = z.strictObject({
  kind: z.literal("rack"),
  label: z.string(),
  viewport: idSchema,
  /** From the left as the rack is traced. */
  raceways: z.array(racewaySchema).min(1),
  spacing: spacingSchema,
  /** At least two. */
  vertices: verticesSchema,
});
export type Rack = z.infer<typeof rackSchema>;
export type RackRaceway = Rack["raceways"][number];

/** The label of a raceway of a rack: K-1/2. */
export const racewayLabel = (rack: Pick<Rack, "label" | "raceways">, i: number): string =>
  `${rack.label}/${rack.raceways[i]?.label || i + 1}`;

/** From the traced line to the middle of a raceway, inches to the right as the rack is traced; undefined where it is not recorded. */
export function racewayOffset(
  { spacing, raceways }: Pick<Rack, "spacing" | "raceways">,
  i: number,
): number | undefined {
  if (spacing.is === "centres") return (i - (raceways.length - 1) / 2) * toInches(spacing.apart);
  const own = spacing.offsets[i];
  return own && toInches(own);
}

/** A raceway of a rack as a run by itself along the traced line, without its place across it. */
export function racewayAsRun(rack: Rack, i: number): Run {
  const { label: _, ...raceway } = rack.raceways[i]!;
  return { kind: "run", label: racewayLabel(rack, i), viewport: rack.viewport, vertices: rack.vertices, ...raceway };
}
