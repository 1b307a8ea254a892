import { toInches, type UnitSystem } from "../units/length.ts";
import type { Inches } from "../units/quantity.ts";
import type { DeckClass, ElementClass, RuleSet } from "./rule-set.ts";

/** Does the rule set cover this element under this deck, where the deck is a roof? */
export const covers = (set: RuleSet, element: ElementClass, deck: DeckClass): boolean =>
  set.scope.elements.includes(element) && (set.scope.decks === "any" || set.scope.decks.includes(deck));

/** May nothing be concealed in the corrugations of this deck? */
export const bansConcealment = (set: RuleSet, deck: DeckClass): boolean =>
  set.concealment?.decks.includes(deck) ?? false;

/** The distance required, as the unit system states it: 1.5 in., or 38 mm in metric jobs. Equal passes. */
export const requiredClearance = (set: RuleSet, units: UnitSystem): Inches => toInches(set.clearance[units]);
