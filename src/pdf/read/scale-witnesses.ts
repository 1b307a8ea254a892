import { distance2, type Point2 } from "../../geometry/point.ts";
import { type Inches, inches } from "../../units/quantity.ts";
import { bareDimensions, dimensionStrings } from "./dimension-strings.ts";
import type { SheetBox } from "./gather-linework.ts";
import type { Linework } from "./linework.ts";
import type { DimensionString } from "./measured-dimension.ts";
import { tellsMillimetres } from "./metric-sheet.ts";
import type { PageContents } from "./plan-contents.ts";
import type { FoundViewport } from "./read-viewports.ts";
import { scaleBars } from "./scale-bars.ts";
import { type NotedView, notedViews } from "./view-titles.ts";

/** Something that tells the scale of a part of a sheet. Sheet space. */
export interface ScaleWitness {
  /** A note at a view, a note in the title block, the file's own viewport, a scale bar, or dimensions taken together. */
  readonly kind: "note" | "sheet-note" | "viewport" | "bar" | "dimensions";
  /** As written: the note, the title of the viewport, the labels of the bar, the title of the view the dimensions are of. */
  readonly text: string;
  /** Building length per paper length. */
  readonly ratio: number;
  readonly place: Point2;
  /** The part of the sheet it speaks for. */
  readonly region: SheetBox;
  /** For dimensions: how many agree, how many there are, and the middle deviation from their median as a part of it. */
  readonly of: { readonly agreeing: number; readonly all: number; readonly spread: number } | null;
  /** Whether it is drawn to be measured (a bar, dimensions), not merely claimed. */
  readonly measured: boolean;
  /** Where measured, two places of it and the length between them as written: the ends of the bar, or the longest dimension near the median. */
  readonly stretch: WitnessedStretch | null;
  /** What makes a note's view doubtful. */
  readonly doubts: NotedView["doubts"];
}

/** Two places on the sheet and the length in the building that is written for the way between them. */
export interface WitnessedStretch {
  readonly ends: readonly [Point2, Point2];
  readonly length: Inches;
}

/** What a page is known by. `viewports` are those of the file; those of other pages are left out. */
export interface WitnessedPage {
  readonly contents: PageContents;
  readonly linework: Linework;
  readonly viewports?: readonly FoundViewport[];
}

/** What the page's witnesses are and what they stand on. */
export interface PageScales {
  readonly witnesses: readonly ScaleWitness[];
  readonly views: readonly NotedView[];
  readonly dimensions: readonly DimensionString[];
}

/** Dimensions farther from the median than this part of it do not agree with it. */
const AGREES = 0.02;
/** A dimension may be an old one with another number written over it: fewer than this tell nothing alone. */
const LEAST_DIMENSIONS = 2;

/** The witnesses of a page's scale. */
export const scaleWitnesses = (page: WitnessedPage, signal?: AbortSignal): readonly ScaleWitness[] =>
  readScales(page, signal).witnesses;

/** The witnesses of a page's scale with the views and dimensions behind them. Bounded; stops with the signal's reason. */
export function readScales({ contents, linework, viewports = [] }: WitnessedPage, signal?: AbortSignal): PageScales {
  const { geometry, scaleNotes, texts } = contents;
  const views = notedViews(geometry, scaleNotes, texts, linework);
  signal?.throwIfAborted();
  const bars = scaleBars(linework, texts);
  const ofBars = new Set(bars.flatMap(({ labels }) => labels));
  const written = dimensionStrings(linework, texts, signal).filter(
    (each) => each.marks !== "square" || !ofBars.has(each.text),
  );
  // A figure without a unit witnesses the scale only where the sheet tells what it is in.
  const bare = tellsMillimetres(contents, viewports) ? bareDimensions(linework, texts, signal) : [];
  const dimensions = [...written, ...bare];
  const claims = views.flatMap((view): ScaleWitness[] => {
    const { note, inTitleBlock, region, doubts } = view;
    if (note.ratio === null) return [];
    const kind = inTitleBlock ? "sheet-note" : "note";
    return [
      {
        kind,
        text: note.text,
        ratio: note.ratio,
        place: note.run.at,
        region,
        of: null,
        measured: false,
        stretch: null,
        doubts,
      },
    ];
  });
  const inchesPerUnit = geometry.userUnit / 72;
  const drawn = bars.map(({ labels, ends, ratio }): ScaleWitness => {
    const place = middle(ends);
    return {
      kind: "bar",
      text: labels.join(" "),
      ratio,
      place,
      region: regionAt(place, claims) ?? geometry.view,
      of: null,
      measured: true,
      stretch: { ends, length: inches(round(ratio * distance2(...ends) * inchesPerUnit)) },
      doubts: [],
    };
  });
  return {
    witnesses: [
      ...claims,
      ...claimsOfFile(viewports, geometry.page),
      ...drawn,
      ...together(dimensions, claims, geometry.view),
    ],
    views,
    dimensions,
  };
}

/** What the file's own viewports claim on a page. */
export const claimsOfFile = (viewports: readonly FoundViewport[], page: number): readonly ScaleWitness[] =>
  viewports
    .filter((each) => each.page === page)
    .flatMap(({ name, box, measure }): ScaleWitness[] =>
      measure?.ratio === undefined
        ? []
        : [
            {
              kind: "viewport",
              text: name,
              ratio: measure.ratio,
              place: [(box[0] + box[2]) / 2, (box[1] + box[3]) / 2],
              region: box,
              of: null,
              measured: false,
              stretch: null,
              doubts: [],
            },
          ],
    );

/** A length to a millionth of an inch: what is left of dividing and multiplying again is not written on the sheet. */
const round = (length: number): number => Number(length.toFixed(6));

/** The dimensions of each part taken together: the median of what most of them say. */
function together(
  dimensions: readonly DimensionString[],
  claims: readonly ScaleWitness[],
  view: SheetBox,
): ScaleWitness[] {
  const parts = new Map<SheetBox, DimensionString[]>();
  for (const dimension of dimensions) {
    const region = regionAt(middle(dimension.ends), claims) ?? view;
    const list = parts.get(region);
    if (list) list.push(dimension);
    else parts.set(region, [dimension]);
  }
  return [...parts].flatMap(([region, list]): ScaleWitness[] => {
    if (list.length < LEAST_DIMENSIONS) return [];
    const ratio = median(list.map((each) => each.ratio));
    const off = list.map((each) => Math.abs(each.ratio / ratio - 1));
    const agreeing = off.filter((each) => each <= AGREES).length;
    // Where no two agree and they lie far apart nothing is measured.
    const spread = median(off);
    const xs = list.map((each) => middle(each.ends)[0]);
    const ys = list.map((each) => middle(each.ends)[1]);
    const near = list.filter((_, i) => off[i]! <= spread);
    const longest = near.reduce((best, each) => (distance2(...each.ends) > distance2(...best.ends) ? each : best));
    return [
      {
        kind: "dimensions",
        text: list.length === 1 ? list[0]!.text : `${list.length} dimensions`,
        ratio,
        place: [median(xs), median(ys)],
        region,
        of: { agreeing, all: list.length, spread },
        measured: true,
        stretch: { ends: longest.ends, length: longest.length.value },
        doubts: [],
      },
    ];
  });
}

/** The part of the sheet a place lies in: the smallest of those of the views. A bar stands beside its title, just under its part. */
function regionAt([x, y]: Point2, claims: readonly ScaleWitness[]): SheetBox | undefined {
  const views = claims.filter(({ kind }) => kind === "note").map(({ region }) => region);
  const distance = ([x0, y0, x1, y1]: SheetBox): number => Math.max(x0 - x, x - x1, y0 - y, y - y1, 0);
  const area = ([x0, y0, x1, y1]: SheetBox): number => (x1 - x0) * (y1 - y0);
  return views
    .filter((region) => distance(region) <= 0.05 * Math.max(region[2] - region[0], region[3] - region[1]))
    .sort((a, b) => distance(a) - distance(b) || area(a) - area(b))[0];
}

const middle = ([a, b]: readonly [Point2, Point2]): Point2 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

/** The middle value; of an even number the mean of the two. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
