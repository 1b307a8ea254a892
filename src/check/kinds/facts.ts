import type { ElementFacts } from "../../job/fields.ts";
import type { Fact, FactName, FactValue } from "../../rules/rule-set.ts";

/** The facts a person records on an element, by the name exceptions ask for them. */
const RECORDED: Partial<Record<FactName, keyof ElementFacts>> = {
  "wiring.steelFittings": "steelFittings",
  "element.inConcrete": "inConcrete",
  "element.concreteThickness": "concreteThickness",
  "element.accessible": "accessible",
};

/** Under which key of an element's facts an exception's fact is recorded; undefined where it is no fact of elements. */
export const recordedKey = (name: FactName): keyof ElementFacts | undefined => RECORDED[name];

/** A recorded fact, "not known" where nothing was recorded, or undefined where it is no fact of elements. */
export function recordedFact(facts: ElementFacts, label: string, name: FactName): Fact | undefined {
  const key = RECORDED[name];
  if (!key) return undefined;
  const value: FactValue | null = facts[key];
  return value === null ? { known: false } : { known: true, value, from: `recorded for ${label}` };
}
