import { annotationsOf } from "./annotations.ts";
import type { Box } from "./appearance.ts";
import type { Increment } from "./increment.ts";
import { dict, isDict, name, nameOf, type PdfArray, type PdfDict, type PdfObject, type PdfRef } from "./pdf-object.ts";
import { textString } from "./text-string.ts";

/** A spot on a sheet that leads into the pages put behind it, and that these pages lead to. */
export interface SheetLink {
  /** Unique among the annotations of a page; issuing again recognises it. */
  readonly name: string;
  /** What a viewer says of it. */
  readonly contents: string;
  /** Where it is clicked, sheet space. */
  readonly rect: Box;
  /** What is shown of the sheet when a page leads here, sheet space. */
  readonly shows: Box;
  /** The name of the place in the other pages. */
  readonly to: string;
  /** The name by which the other pages lead here. */
  readonly called: string;
  /** Id of the layer it is on. */
  readonly layer: string;
}

/** Places by their names. */
export type Places = ReadonlyMap<string, PdfArray>;

/** Where pages lead by the names of links: the part of the sheet they show (ISO 32000-2, table 149). */
export const sheetPlaces = (
  pages: readonly { readonly page: PdfRef; readonly links: readonly SheetLink[] }[],
): Places =>
  new Map(
    pages.flatMap(({ page, links }) =>
      links.map(({ called, shows }): [string, PdfArray] => [called, [page, name("FitR"), ...shows]]),
    ),
  );

/** Adds links to a page (12.5.6.5), above its other annotations; those whose place is not among `places` are left out. */
export const addSheetLinks = (
  increment: Increment,
  page: PdfRef,
  links: readonly SheetLink[],
  places: Places,
  groupOf: (layer: string) => PdfRef | undefined,
): void => {
  const added = links.flatMap((link) => {
    const place = places.get(link.to);
    if (!place) return [];
    return [
      increment.add(
        dict({
          Type: name("Annot"),
          Subtype: name("Link"),
          Rect: [...link.rect],
          P: page,
          NM: textString(link.name),
          Contents: textString(link.contents),
          Border: [0, 0, 0],
          F: 4, // printed, which archival files ask for
          OC: groupOf(link.layer),
          Dest: place,
        }),
      ),
    ];
  });
  if (added.length === 0) return;
  const edited = increment.edit(page, "a page");
  edited.set("Annots", [...annotationsOf(increment, edited), ...added]);
};

/** The link with its place looked up by name; undefined where nothing is called so, or it is another annotation with such an entry. */
export const withPlace = (link: PdfDict, places: Places): PdfDict | undefined => {
  const called = nameOf(link.get("Dest"));
  if (called === undefined) return link;
  const place = places.get(called);
  return place && new Map([...link, ["Dest", place as PdfObject]]);
};

/** The places that a document's catalog names (12.3.2.4), the older kind with names for keys. */
export const namedPlaces = (
  catalog: PdfDict,
  resolve: (o: PdfObject | undefined) => PdfObject,
): Map<string, PdfArray> => {
  const held = resolve(catalog.get("Dests"));
  return new Map(
    [...(isDict(held) ? held : [])].flatMap(([key, value]): [string, PdfArray][] => {
      const place = resolve(value);
      return Array.isArray(place) ? [[key, place]] : [];
    }),
  );
};
