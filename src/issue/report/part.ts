/** What a part of a page is, by the standard structure types of ISO 32000-2, 14.8.4. */
type PartRole =
  | "H1"
  | "H2"
  | "H3"
  | "H4"
  | "P"
  | "L"
  | "LI"
  | "LBody"
  | "Table"
  | "TR"
  | "TH"
  | "TD"
  | "Figure"
  | "Link";

/**
 * What something set on a page is to someone who does not see it, who looks for it in the list of bookmarks, or who follows a link. Pieces that
 * name the same object are one part, over lines and pages; parts are read in the order in which they are first met. What is of no part,
 * such as rules and the foot of a page, is passed over.
 */
export interface Part {
  readonly role: PartRole;
  /** The part it lies in; absent: in none but the document. */
  readonly within?: Part;
  /** In words, what a figure shows or where a link leads. */
  readonly alt?: string;
  /** Its entry among the bookmarks, under the last one of a lesser level. */
  readonly bookmark?: { readonly text: string; readonly level: 1 | 2 | 3 };
  /** A name by which links lead to it. */
  readonly name?: string;
  /** Of a link: the name of what it leads to. Where nothing has that name it is no link. */
  readonly goesTo?: string;
  /** Of a TH: what it is the head of. Absent: its column. */
  readonly scope?: "Row" | "Column";
}

/** The name of a finding's entry in the report. */
export const entryName = (number: number): string => `finding-${number}`;

/** The name under which the report leads to a finding's symbol, where the sheet is in the same file. */
export const markName = (number: number): string => `mark-${number}`;

/** A link to a finding's entry. */
export const entryLink = (number: number, within: Part): Part => ({
  role: "Link",
  within,
  goesTo: entryName(number),
  alt: `Finding ${number} in this report`,
});

/** A link to a finding's symbol. */
export const markLink = (number: number, within: Part): Part => ({
  role: "Link",
  within,
  goesTo: markName(number),
  alt: `Finding ${number} on its sheet`,
});

/** A part and all it lies in, the outermost first. */
export const lineage = (part: Part): readonly Part[] => (part.within ? [...lineage(part.within), part] : [part]);
