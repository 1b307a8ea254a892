import type { FactTest } from "../../rules/rule-set.ts";
import { findRacewayKind } from "../../trade/raceways.ts";

/** A change of wiring in words: to which types, and the questions that then have to be answered. */
export function wiringText(types: readonly string[], needs: readonly FactTest[]): string {
  const names = types.map((id) => findRacewayKind(id)?.short ?? id).join(" or ");
  const then = needs.length > 0 ? ` Then answer: ${needs.map(({ question }) => question).join(" ")}` : "";
  return `Change the wiring to ${names}.${then}`;
}
