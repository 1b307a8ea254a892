import type { Element, ElementKind } from "../job/elements/element.ts";
import { findBoxKind } from "../trade/boxes.ts";
import { findRacewayKind } from "../trade/raceways.ts";

/** What an element is, in a few words; a new kind is one line here. */
const words: { readonly [K in ElementKind]: (element: Extract<Element, { kind: K }>) => string } = {
  run: ({ wiring }) => `${findRacewayKind(wiring.type)?.short ?? wiring.type} ${wiring.tradeSize}`,
  rack: ({ raceways }) => `Rack of ${raceways.length}`,
  box: ({ item }) => findBoxKind(item)?.label ?? "Box",
  entry: ({ conductor }) => (conductor === null ? "Conductor entry" : `Entry, ${conductor}`),
  fitting: ({ tradeSize }) => `Conduit body ${tradeSize}`,
};

/** What an element is, in a few words: `EMT 3/4`, `Rack of 4`. */
export const whatItIs = <K extends ElementKind>(element: Extract<Element, { kind: K }>): string =>
  words[element.kind as K](element);
