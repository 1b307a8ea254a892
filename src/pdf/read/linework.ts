import type Flatbush from "flatbush";
import type { Point2 } from "../../geometry/point.ts";
import type { SheetUnits } from "../../units/quantity.ts";

/** How a part of the linework is drawn. Widths and dashes are in sheet space. */
export interface LineStyle {
  /** Id of the optional content group it belongs to (`PlanLayer.id`); null for none, or for one that cannot be named singly. */
  readonly layer: string | null;
  /** Whether the file shows that layer to begin with. */
  readonly shown: boolean;
  /** `#rrggbb`, or null where nothing is stroked; "pattern" where it is no plain colour. */
  readonly stroke: string | null;
  /** The same of the fill. */
  readonly fill: string | null;
  /** 0 is the thinnest line a device can draw. */
  readonly width: SheetUnits;
  /** Lengths of dashes and gaps in turn as the file states them; empty for a solid line. Dashes drawn one by one are solid lines. */
  readonly dash: readonly SheetUnits[];
}

/** What is known of a segment, as bits of `Linework.flags`. */
export const SEGMENT = {
  /** A piece of a flattened curve: its ends inside the curve are no corners of the drawing. */
  curved: 1,
  /** Its start, or its end, is where a clip or the page's edge cut it, not an end of the line. */
  cutStart: 2,
  cutEnd: 4,
  /** The edge of a filled region that is not stroked. */
  filled: 8,
  /** One of many parallel, evenly spaced lines. */
  hatch: 16,
  /** Part of a letter drawn as lines. */
  glyph: 32,
} as const;

/** A part of a circle found in the linework: segments `first` to `last`, both included, one after the other. Sheet space. */
export interface FoundArc {
  readonly first: number;
  readonly last: number;
  readonly centre: Point2;
  readonly radius: SheetUnits;
  /** Whether it is a whole circle. */
  readonly full: boolean;
}

/**
 * All vector paths of a page as straight segments in sheet space, in the order of drawing. Curves are flattened to within
 * `FLATNESS_PT`. Clips count as boxes: nothing outside the box of its clip is kept, and no segment reaches beyond the page.
 * Coordinates are 32-bit, as the engine hands them over: on a page of 4,096 units good to 1/4,000 of a unit.
 */
export interface Linework {
  /** 1 for the first page. */
  readonly page: number;
  /** Size of one sheet unit in 1/72 in. of paper: what the eye sees is judged on paper. */
  readonly userUnit: number;
  /** The page's crop box in sheet space: least x, least y, greatest x, greatest y. */
  readonly view: readonly [number, number, number, number];
  /** Number of segments. */
  readonly count: number;
  /** Start x, y and end x, y of each segment. */
  readonly coords: Float32Array;
  /** Place of each segment's style in `styles`. */
  readonly style: Uint16Array;
  /** Bits of `SEGMENT` for each segment. */
  readonly flags: Uint8Array;
  /** First segment of each path, and at the end `count`. A path is a chain of segments, each starting where the one before it ends. */
  readonly pathStart: Uint32Array;
  /** 1 for each path that ends where it starts. */
  readonly pathClosed: Uint8Array;
  readonly styles: readonly LineStyle[];
  readonly arcs: readonly FoundArc[];
  /** The boxes of all segments. */
  readonly index: Flatbush;
  /** True where the page holds more than is read (`MAX_SEGMENTS`, `MAX_STYLES`): what is here is then only part of it. */
  readonly partial: boolean;
}

/** How far a flattened curve may lie from the true one, in 1/72 in. of paper. */
export const FLATNESS_PT = 0.1;
/** Segments kept of one page. */
export const MAX_SEGMENTS = 4_000_000;
/** Styles told apart on one page; the rest count as the last. */
export const MAX_STYLES = 65_535;

/** The path a segment belongs to. */
export function pathOf({ pathStart }: Linework, segment: number): number {
  let [low, high] = [0, pathStart.length - 2];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (pathStart[middle]! <= segment) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Bytes the linework takes in memory, its index included; styles and arcs, which are few, are left out. */
export const bytesOf = ({ coords, style, flags, pathStart, pathClosed, index }: Linework): number =>
  [coords, style, flags, pathStart, pathClosed, index.data].reduce((sum, part) => sum + part.byteLength, 0);

/** Which linework is offered or followed. */
export interface LineworkChoice {
  /** Segments with any of these bits are left out; left out: hatching, letters drawn as lines. */
  readonly without?: number;
  /** Whether linework of layers the file hides counts too. */
  readonly hidden?: boolean;
}

/** A test of segments: true for those that can be seen and that the choice lets through. White edges of fills are not seen. */
export function chosen(
  { styles, style, flags }: Linework,
  { without = SEGMENT.hatch | SEGMENT.glyph, hidden = false }: LineworkChoice = {},
): (segment: number) => boolean {
  const seen = Uint8Array.from(styles, (each) => Number((hidden || each.shown) && isSeen(each)));
  return (segment) => (flags[segment]! & without) === 0 && seen[style[segment]!] === 1;
}

const WHITE = "#ffffff";
const isSeen = ({ stroke, fill }: LineStyle): boolean => stroke !== null || (fill !== null && fill !== WHITE);
