import type { Element, ElementKind } from "../../job/elements/element.ts";
import { boxKind } from "./box.ts";
import { entryKind } from "./entry.ts";
import { fittingKind } from "./fitting.ts";
import type { CheckKind } from "./kind.ts";
import { runKind } from "./run.ts";

/** What each kind of element answers to the check. A new kind is one line. */
const kinds: { readonly [K in ElementKind]: CheckKind<Extract<Element, { kind: K }>> } = {
  run: runKind,
  box: boxKind,
  fitting: fittingKind,
  entry: entryKind,
};

/** The answers of an element's kind. */
export const checkKindOf = (element: Element): CheckKind => kinds[element.kind] as CheckKind;
