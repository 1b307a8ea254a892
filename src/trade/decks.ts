import { inches } from "../units/quantity.ts";
import type { SourcedInches } from "./sources.ts";

/** What a deck is made of, as rules tell decks apart. */
export type DeckMaterial = "metal-corrugated" | "wood" | "concrete" | "other";

/**
 * A deck profile. `depth` is what lies between the top of the deck and its lowest surface: for fluted steel, the underside of the
 * bottom flange. Absent where it must be given for the job.
 */
export interface DeckProfile {
  readonly id: string;
  readonly label: string;
  readonly material: DeckMaterial;
  readonly depth?: SourcedInches;
  /** Distance from flute to flute. */
  readonly pitch?: SourcedInches;
}

const memory = (n: number): SourcedInches => ({ value: inches(n), source: "from-memory" });
const steel = (id: string, label: string, depth: number, pitch?: number): DeckProfile => ({
  id,
  label,
  material: "metal-corrugated",
  depth: memory(depth),
  ...(pitch === undefined ? {} : { pitch: memory(pitch) }),
});

/** Every deck profile. A new one is one entry here. */
export const deckProfiles: readonly DeckProfile[] = [
  steel("wide-rib-1-1/2", 'Wide-rib steel roof deck, 1 1/2"', 1.5, 6),
  steel("deep-rib-3", 'Deep-rib steel roof deck, 3"', 3, 8),
  steel("form-9/16", 'Steel form deck, 9/16"', 0.5625),
  steel("form-1", 'Steel form deck, 1"', 1),
  steel("composite-1-1/2", 'Composite steel deck, 1 1/2"', 1.5),
  steel("composite-2", 'Composite steel deck, 2"', 2),
  steel("composite-3", 'Composite steel deck, 3"', 3),
  { id: "steel-other", label: "Other fluted steel deck", material: "metal-corrugated" },
  { id: "wood", label: "Wood deck or sheathing", material: "wood" },
  { id: "concrete", label: "Concrete deck", material: "concrete" },
  { id: "other", label: "Other deck", material: "other" },
];

/** The profile with this id, or undefined. */
export const findDeckProfile = (id: string): DeckProfile | undefined => deckProfiles.find((deck) => deck.id === id);
