import { inches } from "../units/quantity.ts";
import type { SourcedInches } from "./sources.ts";

/** A way of hanging a raceway under a deck. */
export interface Support {
  readonly id: string;
  readonly label: string;
  /** Room it leaves between the deck's lowest surface and the top of the raceway, before fittings. */
  readonly leaves: SourcedInches;
}

/** Supports, from the one that leaves least room to the one that leaves most. */
export const supports: readonly Support[] = [
  {
    id: "strapped-tight",
    label: "Strapped tight to the deck",
    leaves: { value: inches(0), source: "common-practice" },
  },
  {
    id: "shallow-strut",
    label: 'Shallow strut channel, 13/16"',
    leaves: { value: inches(0.8125), source: "from-memory", note: "MFMA-4 practice, channel tight to the deck." },
  },
  {
    id: "deep-strut",
    label: 'Deep strut channel, 1 5/8"',
    leaves: { value: inches(1.625), source: "from-memory", note: "MFMA-4 practice, channel tight to the deck." },
  },
];

/** The support with this id, or undefined. */
export const findSupport = (id: string): Support | undefined => supports.find((support) => support.id === id);
