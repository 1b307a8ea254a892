/**
 * What a sheet says of itself, as a person reads it: written down off renderings by poppler before anything here
 * looked for it. Places are in points of the page as displayed (1/72 in., y down), good to about 5 points.
 */
export interface SheetTruth {
  readonly file: string;
  readonly page: number;
  /** Null for a sheet without a title block. */
  readonly number: string | null;
  readonly name: string | null;
  /** Scale notes with the title of the view each stands under; null for the one in the title block. */
  readonly notes: readonly (readonly [text: string, view: string | null])[];
  /** Every dimension with a figure, with both ends. */
  readonly dimensions: readonly WrittenDimension[];
  /** Graphic scale bars: what the last label says, and both ends. */
  readonly bars: readonly (readonly [last: string, from: readonly [number, number], to: readonly [number, number]])[];
}

/** A dimension with both ends of what it measures. */
export type WrittenDimension = readonly [text: string, from: readonly [number, number], to: readonly [number, number]];

type ToPoints = (x: number, y: number) => readonly [number, number];

/** Dimensions one after the other along a line across the sheet, or down it, between places read in a picture. */
export const chain = (
  texts: readonly string[],
  places: readonly number[],
  across: number,
  vertical: boolean,
  toPoints: ToPoints,
): readonly WrittenDimension[] =>
  texts.map((text, i) => {
    const at = (place: number) => (vertical ? toPoints(across, place) : toPoints(place, across));
    return [text, at(places[i]!), at(places[i + 1]!)] as const;
  });

/** The same text so many times. */
export const times = (n: number, text: string): string[] => Array.from({ length: n }, () => text);

/** Places in a part of a page: a picture at so many dots an inch whose corner stands at (x, y), shown at `shown` of its size. */
export const inCrop =
  (dotsPerInch: number, x: number, y: number, shown = 1): ToPoints =>
  (px, py) => [((x + px / shown) * 72) / dotsPerInch, ((y + py / shown) * 72) / dotsPerInch];
