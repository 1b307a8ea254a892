import { STANDING_WORDS } from "../../check/words.ts";
import type { Colour, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { labelPoint, type Ring, signedArea } from "../../geometry/polygon.ts";
import { makesOf, type SettledAs, type StoreyOutline } from "../../job/storey-outline.ts";
import { FAINT_INK, INK, OKABE_ITO, VERDICT_INK } from "../inks.ts";
import { ringsPath } from "../paths.ts";
import type { Drawing, DrawingContext, LabelLine } from "./drawing.ts";
import { spotsAlong, spotsOver } from "./label-spots.ts";

/**
 * How the outline of a storey is drawn, by what it makes of the deck below: a floor is a double line, as in the sign for "not governed";
 * what leaves a roof is a single dashed line; what is not settled a double line in dashes. Lengths in points of paper.
 */
const LINES: Readonly<
  Record<SettledAs, { readonly ink: Colour; readonly double: boolean; readonly dash?: readonly number[] }>
> = {
  "floor-above": { ink: VERDICT_INK["not-governed"], double: true },
  roof: { ink: VERDICT_INK["not-governed"], double: false, dash: [6, 2.5] },
  "not-settled": { ink: OKABE_ITO.reddishPurple, double: true, dash: [2.5, 2.5] },
};

/** Between the two lines, points of paper. */
const APART = 2.4;

/** What stands there and what it makes of the deck, in a few words. */
export function storeyWords(outline: StoreyOutline): string {
  const { above } = outline;
  if (above.is === "not-recorded") return "storey above not settled";
  if (above.is === "occupied-storey") return "occupied storey above";
  const makes = makesOf(outline);
  const said = makes === "floor-above" ? "a floor below" : makes === "roof" ? "a roof below" : "not settled";
  return `${STANDING_WORDS[above.what]}: ${said}`;
}

/** The outline of a storey above on the sheet it is traced on: its line, its label, what it makes of the deck. */
export function drawStorey(outline: StoreyOutline, context: Omit<DrawingContext, "findings" | "along">): Drawing {
  const { frame } = context;
  const rings = [outline.outline, ...outline.holes];
  const { ink } = LINES[makesOf(outline)];
  const lines: LabelLine[] = [
    { text: outline.label, size: 8 * frame.point, face: "bold", ink: FAINT_INK },
    { text: storeyWords(outline), size: 6.5 * frame.point, face: "regular", ink: INK },
  ];
  return {
    picture: linesOf(outline, rings, frame.point, 0.9, 0.85),
    hit: { kind: "area", outline: outline.outline },
    annotation: annotationOf(outline, outline.outline, ink, ""),
    labels: [{ lines, spots: spotsOver(frame, labelPoint({ outline: outline.outline, holes: outline.holes })) }],
    keepClear: rings.map((ring) => [...ring, ...ring.slice(0, 1)]),
  };
}

/** The same outline on a sheet registered to its own: fainter, in that sheet's space, and its name along it. */
export function drawStoreyElsewhere(
  outline: StoreyOutline,
  rings: readonly (readonly Point2[])[],
  context: Omit<DrawingContext, "findings" | "along">,
): Drawing {
  const { frame } = context;
  const ring = rings[0] ?? [];
  const { ink } = LINES[makesOf(outline)];
  const text = `${outline.label}  ${storeyWords(outline)}`;
  return {
    picture: linesOf(outline, rings, frame.point, 0.6, 0.55),
    hit: { kind: "area", outline: ring },
    annotation: annotationOf(outline, ring, ink, " Traced on another sheet."),
    labels: [
      {
        lines: [{ text, size: 6.5 * frame.point, face: "condensed", ink: FAINT_INK }],
        spots: spotsAlong(frame, [...ring, ...ring.slice(0, 1)], 2.5),
      },
    ],
    keepClear: [],
  };
}

const annotationOf = (
  outline: StoreyOutline,
  vertices: readonly Point2[],
  colour: Colour,
  more: string,
): Drawing["annotation"] => ({
  subtype: "Polygon",
  subject: "Storey above",
  contents: `${outline.label}: ${storeyWords(outline)}.${more}`,
  vertices,
  colour,
});

function linesOf(
  outline: StoreyOutline,
  rings: readonly Ring[],
  point: number,
  width: number,
  opacity: number,
): PictureItem[] {
  const { ink, double, dash } = LINES[makesOf(outline)];
  const paint = {
    stroke: ink,
    width: width * point,
    opacity,
    ...(dash ? { dash: dash.map((length) => length * point) } : {}),
  };
  const inner = rings.map((ring, i) => inset(ring, (i === 0 ? 1 : -1) * APART * point));
  return [ringsPath(rings, paint), ...(double ? [ringsPath(inner, paint)] : [])];
}

/** A ring with every edge moved inwards by a distance (outwards where it is below nought); at sharp corners the point stays within four times that. */
export function inset(ring: Ring, by: number): Point2[] {
  const left = signedArea(ring) >= 0 ? by : -by;
  return ring.map((at, i) => {
    const before = direction(ring[(i - 1 + ring.length) % ring.length]!, at);
    const after = direction(at, ring[(i + 1) % ring.length]!);
    const [nx, ny] = [-before[1] - after[1], before[0] + after[0]];
    const square = nx * nx + ny * ny;
    // The two normals add up to nothing where the ring turns straight back.
    const scale = square > 0 ? (2 * left) / Math.max(square, 1 / 4) : 0;
    return [at[0] + nx * scale, at[1] + ny * scale];
  });
}

function direction(from: Point2, to: Point2): Point2 {
  const [x, y] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(x, y);
  return length > 0 ? [x / length, y / length] : [0, 0];
}
