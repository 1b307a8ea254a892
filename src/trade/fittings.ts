import { inches } from "../units/quantity.ts";
import type { SourcedInches, SourceId } from "./sources.ts";

/** A conduit body (LB, LL, T and their kin) by trade size: the box that encloses it. Differs by maker; edit it on the job. */
export interface ConduitBody {
  readonly size: string;
  readonly length: SourcedInches;
  readonly width: SourcedInches;
  /** From the cover to the back. */
  readonly depth: SourcedInches;
}

/** How far couplings and connectors stand out beyond the tube. */
export interface FittingReach {
  /** The raceway kind they belong to. */
  readonly kind: string;
  readonly size: string;
  /** Outside diameter of the largest usual coupling or connector. */
  readonly outside: SourcedInches;
}

const NOTE = "Differs by maker and form. A default; edit it to suit the fitting.";
const sourced = (n: number, source: SourceId = "from-memory"): SourcedInches => ({
  value: inches(n),
  source,
  note: NOTE,
});
const body = (size: string, length: number, width: number, depth: number): ConduitBody => ({
  size,
  length: sourced(length),
  width: sourced(width),
  depth: sourced(depth),
});
const reach = (kind: string, rows: readonly (readonly [size: string, outsideIn: number])[]): FittingReach[] =>
  rows.map(([size, outside]) => ({ kind, size, outside: sourced(outside) }));

/** Conduit bodies, from small to large. */
export const conduitBodies: readonly ConduitBody[] = [
  body("1/2", 4.6, 1.4, 1.8),
  body("3/4", 5.4, 1.6, 2.1),
  body("1", 6.3, 1.9, 2.4),
  body("1-1/4", 7.6, 2.4, 3),
  body("1-1/2", 8.3, 2.6, 3.3),
  body("2", 10, 3.2, 4),
];

/** Couplings and connectors: set-screw for EMT, threaded for RMC and IMC, solvent-weld for PVC, screw-in and liquidtight connectors for flexible types. */
export const fittingReaches: readonly FittingReach[] = [
  ...reach("emt", [
    ["1/2", 1],
    ["3/4", 1.25],
    ["1", 1.5],
    ["1-1/4", 1.9],
    ["1-1/2", 2.15],
    ["2", 2.65],
    ["2-1/2", 3.5],
    ["3", 4.15],
    ["3-1/2", 4.7],
    ["4", 5.2],
  ]),
  ...reach("rmc", [
    ["1/2", 1.06],
    ["3/4", 1.3],
    ["1", 1.6],
    ["1-1/4", 1.95],
    ["1-1/2", 2.22],
    ["2", 2.75],
    ["2-1/2", 3.28],
    ["3", 3.95],
    ["3-1/2", 4.45],
    ["4", 4.98],
  ]),
  ...reach("imc", [
    ["1/2", 1.06],
    ["3/4", 1.3],
    ["1", 1.6],
    ["1-1/4", 1.95],
    ["1-1/2", 2.22],
    ["2", 2.75],
    ["2-1/2", 3.28],
    ["3", 3.95],
    ["3-1/2", 4.45],
    ["4", 4.98],
  ]),
  ...reach("pvc40", [
    ["1/2", 1.1],
    ["3/4", 1.33],
    ["1", 1.62],
    ["1-1/4", 2],
    ["1-1/2", 2.25],
    ["2", 2.75],
    ["2-1/2", 3.3],
    ["3", 3.95],
    ["3-1/2", 4.5],
    ["4", 5.05],
  ]),
  ...reach("pvc80", [
    ["1/2", 1.1],
    ["3/4", 1.33],
    ["1", 1.62],
    ["1-1/4", 2],
    ["1-1/2", 2.25],
    ["2", 2.75],
    ["2-1/2", 3.3],
    ["3", 3.95],
    ["3-1/2", 4.5],
    ["4", 5.05],
  ]),
  ...reach("fmc", [
    ["3/8", 1],
    ["1/2", 1.25],
    ["3/4", 1.5],
    ["1", 1.8],
    ["1-1/4", 2.2],
    ["1-1/2", 2.5],
    ["2", 3.1],
  ]),
  ...reach("lfmc", [
    ["3/8", 1.2],
    ["1/2", 1.35],
    ["3/4", 1.6],
    ["1", 1.95],
    ["1-1/4", 2.4],
    ["1-1/2", 2.7],
    ["2", 3.3],
  ]),
];

/** The conduit body of this trade size, or undefined. */
export const findConduitBody = (size: string): ConduitBody | undefined =>
  conduitBodies.find((row) => row.size === size);

/** The reach of couplings and connectors on this raceway, or undefined when the table has no such row. */
export const findFittingReach = (kindId: string, size: string): FittingReach | undefined =>
  fittingReaches.find((row) => row.kind === kindId && row.size === size);
