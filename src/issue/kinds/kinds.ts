import type { Element, ElementKind } from "../../job/elements/element.ts";
import { boxWords, drawBox } from "./box.ts";
import type { Drawing, DrawingContext } from "./drawing.ts";
import { drawEntry, entryWords } from "./entry.ts";
import { drawFitting, fittingWords } from "./fitting.ts";
import { drawRack, rackWords } from "./rack.ts";
import { drawRun, wiringWords } from "./run.ts";

/** How one kind of element is shown. */
interface KindDrawing<K extends ElementKind> {
  /** What the element is, beside its label: `3/4 EMT`. */
  readonly words: (element: Extract<Element, { kind: K }>) => string;
  readonly draw: (element: Extract<Element, { kind: K }>, context: DrawingContext) => Drawing;
}

/** Every kind, by its name in the job: a new kind is one file beside this one, and one line here. */
const KINDS: { readonly [K in ElementKind]: KindDrawing<K> } = {
  run: { words: wiringWords, draw: drawRun },
  rack: { words: rackWords, draw: drawRack },
  box: { words: boxWords, draw: drawBox },
  fitting: { words: fittingWords, draw: drawFitting },
  entry: { words: entryWords, draw: drawEntry },
};

/** What its kind draws of an element. */
export const drawElement = (element: Element, context: DrawingContext): Drawing =>
  (KINDS[element.kind] as KindDrawing<ElementKind>).draw(element, context);

/** What an element is, beside its label: `3/4 EMT`, `4" square box, 1 1/2" deep`. */
export const elementWords = (element: Element): string =>
  (KINDS[element.kind] as KindDrawing<ElementKind>).words(element);
