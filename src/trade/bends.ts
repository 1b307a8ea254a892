import { inches } from "../units/quantity.ts";
import type { SourcedInches } from "./sources.ts";

/** The least radius of a bend made in one shot or with a full shoe, to the centre line, by trade size. */
export interface BendRadius {
  readonly size: string;
  readonly radius: SourcedInches;
}

const bend = (size: string, radius: number): BendRadius => ({
  size,
  radius: {
    value: inches(radius),
    source: "from-memory",
    note: "NFPA 70, chapter 9, table 2, one-shot and full-shoe benders, from memory. Factory elbows and other benders differ: edit it on the run.",
  },
});

/** Bend radii, from small to large. */
export const bendRadii: readonly BendRadius[] = [
  bend("1/2", 4),
  bend("3/4", 4.5),
  bend("1", 5.75),
  bend("1-1/4", 7.25),
  bend("1-1/2", 8.25),
  bend("2", 9.5),
  bend("2-1/2", 10.5),
  bend("3", 13),
  bend("3-1/2", 15),
  bend("4", 16),
];

/** The bend radius of this trade size, or undefined when the table has no such row. */
export const findBendRadius = (size: string): BendRadius | undefined => bendRadii.find((row) => row.size === size);
