import type { Wiring } from "../../job/elements/run.ts";
import { findRacewayKind, findRacewaySize } from "../../trade/raceways.ts";
import { toInches, type UnitSystem } from "../../units/length.ts";
import { type Reading, reason } from "../reading.ts";
import { asGiven, sourceText, written } from "../words.ts";
import type { Section } from "./traced.ts";

/** The outside section of a raceway or cable: its own where it has one, else the table's. Its height or diameter is what reaches the deck. */
export function sectionOf(label: string, wiring: Wiring, system: UnitSystem): Reading<Section> {
  const { type, tradeSize, outsideDiameter: own, section } = wiring;
  const kind = findRacewayKind(type);
  const name = `${tradeSize} ${kind?.short ?? type}`;
  const source = `as recorded for ${label}`;
  if (section) {
    const [width, height] = [toInches(section.width), toInches(section.height)];
    return {
      known: true,
      value: { width, height },
      explain: () =>
        reason(`Outside height of ${label}, ${name}, ${asGiven(section.width, system)} wide`, {
          value: asGiven(section.height, system),
          quantity: { is: "height", in: height },
          source,
        }),
    };
  }
  if (own)
    return {
      known: true,
      value: { diameter: toInches(own) },
      explain: () =>
        reason(`Outside diameter of ${label}, ${name}`, {
          value: asGiven(own, system),
          quantity: { is: "diameter", in: toInches(own) },
          source,
        }),
    };
  const row = findRacewaySize(type, tradeSize);
  if (row) {
    const { outside, width } = row;
    return {
      known: true,
      value: width ? { width: width.value, height: outside.value } : { diameter: outside.value },
      explain: () =>
        reason(
          width ? `Outside height of ${name}, ${written(width.value, system)} wide` : `Outside diameter of ${name}`,
          {
            value: written(outside.value, system),
            quantity: { is: width ? "height" : "diameter", in: outside.value },
            source: sourceText(outside.source),
          },
        ),
    };
  }
  const text = `${label}: the outside diameter of ${name} is not in the tables`;
  const remedy = {
    kind: "record-fact",
    text: `Choose a type and trade size for ${label}, or record its outside diameter.`,
  } as const;
  return { known: false, missing: [{ text, remedy }], explain: () => reason(text) };
}
