import { inches } from "../units/quantity.ts";
import type { DeckMaterial } from "./decks.ts";
import type { SourcedInches } from "./sources.ts";

/** How far the trade at least drives a roof fastener: past a steel deck, or into wood. */
export interface Penetration {
  readonly id: string;
  readonly label: string;
  /** The deck it is said of. */
  readonly material: DeckMaterial;
  /** Is it counted past the far side of the deck, or into the deck? */
  readonly counted: "past" | "into";
  readonly least: SourcedInches;
}

const customary = (n: number): SourcedInches => ({
  value: inches(n),
  source: "from-memory",
  note: "Common practice, no source. The maker of the roofing states its own.",
});

/** Customary least penetrations of screws, by deck. */
export const penetrations: readonly Penetration[] = [
  {
    id: "screw-steel",
    label: "Screw, past a steel deck",
    material: "metal-corrugated",
    counted: "past",
    least: customary(0.75),
  },
  { id: "screw-wood", label: "Screw, into a wood deck", material: "wood", counted: "into", least: customary(1) },
];

/** The customary least penetration for a deck of this material, or undefined where none is listed. */
export const findPenetration = (material: DeckMaterial): Penetration | undefined =>
  penetrations.find((row) => row.material === material);
