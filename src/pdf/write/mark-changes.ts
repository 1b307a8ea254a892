import type { Result } from "../../units/problem.ts";
import type { Box } from "./appearance.ts";
import { findSpecification } from "./attachment.ts";
import { PLACES_ENTRY, parsePlaces } from "./mark-places.ts";
import { readPages } from "./page-tree.ts";
import { asResult } from "./pdf-failure.ts";
import { type PdfFile, readTolerantly } from "./pdf-file.ts";
import { isDict, nameOf, numberOf, type PdfDict, type PdfObject, PdfRef, PdfStream } from "./pdf-object.ts";
import { textOf } from "./text-string.ts";

/** What another program did to an annotation of ours, since it was issued. */
export type MarkChange =
  | { readonly is: "moved"; readonly name: string; readonly page: number; readonly from: Box; readonly to: Box }
  | { readonly is: "deleted"; readonly name: string; readonly page: number }
  /** Its words were written over. */
  | { readonly is: "edited"; readonly name: string; readonly page: number; readonly text: string }
  /** Somebody wrote an answer to it, or set a state such as `Accepted` (ISO 32000-2, 12.5.6.3). */
  | {
      readonly is: "answered";
      readonly name: string;
      readonly page: number;
      readonly author: string;
      readonly text: string;
      readonly state: string;
    };

/** Differences that come of other programs writing fewer decimals. Sheet units. */
const SAME = 0.05;

/**
 * What other programs did to the annotations of an issued PDF, in the order in which they were issued; answers in the order of the pages.
 * Empty where the file does not carry the attachment `called`, or was issued without annotations.
 */
export const readMarkChanges = (bytes: Uint8Array, called: string, password?: string): Result<MarkChange[]> =>
  asResult(() => readTolerantly(bytes, password, (file) => changesIn(file, called)));

const changesIn = (file: PdfFile, called: string): MarkChange[] => {
  const { resolve } = file;
  const specification = resolve(findSpecification(file, called));
  const held = isDict(specification) ? resolve(specification.get(PLACES_ENTRY)) : null;
  if (!(held instanceof PdfStream)) return [];
  const issued = parsePlaces(new TextDecoder().decode(file.data(held)));
  const known = new Map(issued.map((place) => [place.name, place]));
  const found = annotationsIn(file);
  const ours = new Map<string, PdfDict>();
  const nameByObject = new Map<number, string>();
  for (const { ref, dict } of found) {
    const name = textOf(resolve(dict.get("NM")));
    if (!known.has(name)) continue;
    ours.set(name, dict);
    if (ref) nameByObject.set(ref.num, name);
  }
  const changes = issued.flatMap((place): MarkChange[] => {
    const dict = ours.get(place.name);
    if (dict === undefined) return [{ is: "deleted", name: place.name, page: place.page }];
    const { name, page, contents } = place;
    const text = textOf(resolve(dict.get("Contents")));
    const edited = contents !== undefined && asOneLine(text) !== asOneLine(contents);
    const words: MarkChange[] = edited ? [{ is: "edited", name, page, text }] : [];
    const to = boxOf(file, dict);
    if (to === undefined || to.every((v, i) => Math.abs(v - (place.box[i] as number)) <= SAME)) return words;
    return [{ is: "moved", name, page, from: place.box, to }, ...words];
  });
  for (const { dict, page } of found) {
    if (known.has(textOf(resolve(dict.get("NM")))) || nameOf(resolve(dict.get("RT"))) === "Group") continue;
    const name = answeredBy(file, dict, nameByObject);
    if (name === undefined) continue;
    const words = (key: string) => textOf(resolve(dict.get(key)));
    changes.push({ is: "answered", name, page, author: words("T"), text: words("Contents"), state: words("State") });
  }
  return changes;
};

/** Words without their line ends, which other programs write in their own way. */
const asOneLine = (text: string): string => text.replace(/\s+/g, " ").trim();

/** The name of our annotation that an answer, or an answer to an answer, belongs to. */
const answeredBy = (file: PdfFile, answer: PdfDict, ours: ReadonlyMap<number, string>): string | undefined => {
  let to: PdfObject = answer.get("IRT") ?? null;
  for (let steps = 0; to instanceof PdfRef && steps < 100; steps++) {
    const name = ours.get(to.num);
    if (name !== undefined) return name;
    const next = file.resolve(to);
    to = (isDict(next) ? next.get("IRT") : null) ?? null;
  }
  return undefined;
};

const annotationsIn = (file: PdfFile) =>
  readPages(file.catalog(), file.resolve).flatMap((leaf, i) => {
    const list = file.resolve(leaf.dict.get("Annots"));
    return (Array.isArray(list) ? list : []).flatMap((o) => {
      const dict = file.resolve(o);
      return isDict(dict) ? [{ ref: o instanceof PdfRef ? o : undefined, dict, page: i + 1 }] : [];
    });
  });

const boxOf = (file: PdfFile, dict: PdfDict): Box | undefined => {
  const rect = file.resolve(dict.get("Rect"));
  const [a, b, c, d] = Array.isArray(rect) ? rect.map((v) => numberOf(file.resolve(v))) : [];
  if (a === undefined || b === undefined || c === undefined || d === undefined) return undefined;
  return [Math.min(a, c), Math.min(b, d), Math.max(a, c), Math.max(b, d)];
};
