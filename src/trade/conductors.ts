import { type Inches, inches } from "../units/quantity.ts";
import type { Sourced } from "./sources.ts";

/** A conductor insulation and the temperature it may reach, in degrees Celsius. */
export interface Insulation {
  readonly id: string;
  readonly ratingC: Sourced<number>;
  readonly where: "dry and wet" | "wet";
}

const rated = (id: string, ratingC: number, where: Insulation["where"] = "dry and wet"): Insulation => ({
  id,
  ratingC: { value: ratingC, source: "from-memory" },
  where,
});

/** Insulations by type letters. */
export const insulations: readonly Insulation[] = [
  rated("TW", 60),
  rated("THW", 75),
  rated("THWN", 75),
  rated("RHW", 75),
  rated("XHHW", 75, "wet"),
  rated("THHN", 90),
  rated("THW-2", 90),
  rated("THWN-2", 90),
  rated("RHW-2", 90),
  rated("XHHW-2", 90),
  rated("USE-2", 90),
];

/** The insulation with these type letters, or undefined. */
export const findInsulation = (id: string): Insulation | undefined => insulations.find((row) => row.id === id);

/**
 * Conductor sizes from small to large. The order is the trap: gauge numbers fall as wires grow down to 1, then 1/0 to 4/0
 * grow, then thousands of circular mils. `4` is seven sizes below `4/0`.
 */
export const conductorSizes = [
  ..."18 16 14 12 10 8 6 4 3 2 1 1/0 2/0 3/0 4/0".split(" "),
  ..."250 300 350 400 500 600 700 750 800 900 1000 1250 1500 1750 2000".split(" "),
] as const satisfies readonly string[];

/** The table's own name of a size as written (`#4 AWG`, `0000`, `250 kcmil`, `4/0`), or undefined when there is none. */
export function findConductorSize(text: string): string | undefined {
  const bare = text
    .trim()
    .toLowerCase()
    .replace(/^(?:no\.?\s*|#\s*)/, "")
    .replace(/\s*(?:awg|kcmil|mcm)$/, "")
    .replace(/\s*\/\s*/, "/");
  const size = /^0{1,4}$/.test(bare) ? `${bare.length}/0` : bare;
  return conductorSizes.includes(size) ? size : undefined;
}

/** Negative when `a` is the smaller conductor, 0 when equal, positive when larger; undefined when either is unknown. */
export function compareConductors(a: string, b: string): number | undefined {
  const [first, second] = [findConductorSize(a), findConductorSize(b)];
  if (first === undefined || second === undefined) return undefined;
  return conductorSizes.indexOf(first) - conductorSizes.indexOf(second);
}

/**
 * Bare solid diameter of an AWG size by ASTM B258: d = 0.005 x 92^((36 - n) / 39) in., with n = 0, -1, -2, -3 for 1/0 to
 * 4/0. Undefined for kcmil sizes and sizes unknown.
 */
export function conductorDiameter(text: string): Inches | undefined {
  const size = findConductorSize(text);
  if (size === undefined) return undefined;
  const n = size.endsWith("/0") ? 1 - Number(size[0]) : Number(size);
  return n > 36 ? undefined : inches(0.005 * 92 ** ((36 - n) / 39));
}

/** A size as it is spoken of: `4/0 AWG`, `250 kcmil`; as given where the table has no such size. */
export function conductorSizeWords(text: string): string {
  const size = findConductorSize(text);
  if (size === undefined) return text;
  return conductorSizes.indexOf(size) > conductorSizes.indexOf("4/0") ? `${size} kcmil` : `${size} AWG`;
}
