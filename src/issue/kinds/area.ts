import type { Colour, PictureItem } from "../../geometry/picture.ts";
import { distance2, lerp2, type Point2 } from "../../geometry/point.ts";
import { labelPoint } from "../../geometry/polygon.ts";
import type { Area } from "../../job/schema.ts";
import { findDeckProfile } from "../../trade/decks.ts";
import { formatLength } from "../../units/format-length.ts";
import { toInches } from "../../units/length.ts";
import { DECK_INK, FAINT_INK, INK, OKABE_ITO, VERDICT_INK } from "../inks.ts";
import { linePath, ringsPath } from "../paths.ts";
import { showDeckElevation } from "../show-length.ts";
import { CLASSIFICATION_WORDS } from "../words.ts";
import type { Drawing, DrawingContext, Label } from "./drawing.ts";
import { spotsAlong, spotsAround, spotsOver } from "./label-spots.ts";

/** How each classification is outlined: told apart by dash as well as colour. Lengths in points of paper. */
const OUTLINE: Readonly<
  Record<Area["classification"]["is"], { readonly ink: Colour; readonly dash?: readonly number[] }>
> = {
  roof: { ink: DECK_INK },
  "floor-above": { ink: VERDICT_INK["not-governed"], dash: [7, 2.5, 1, 2.5] },
  "not-settled": { ink: OKABE_ITO.reddishPurple, dash: [2.5, 2.5] },
  "from-outline": { ink: DECK_INK },
};

/** Longest arrow of a slope, points of paper. */
const ARROW = 60;

/** Deck profile and depth, in the words of the table. */
export const deckWords = (area: Area): string => findDeckProfile(area.deck.profile)?.label ?? area.deck.profile;

/** An area on the sheet it is traced on: outline with a light band along it, its label, its fall or its spots. */
export function drawArea(area: Area, context: Omit<DrawingContext, "findings" | "along">): Drawing {
  const { point } = context.frame;
  const { ink, dash } = OUTLINE[area.classification.is];
  const rings = [area.outline, ...area.holes];
  const picture: PictureItem[] = [
    ringsPath(rings, { stroke: ink, width: 5 * point, opacity: 0.14 }),
    ringsPath(rings, {
      stroke: ink,
      width: 0.8 * point,
      opacity: 0.85,
      ...(dash ? { dash: dash.map((length) => length * point) } : {}),
    }),
    ...shapeMarks(area, context),
  ];
  const elevation = showDeckElevation(context.job, area);
  const kind = CLASSIFICATION_WORDS[area.classification.is];
  return {
    picture,
    hit: { kind: "area", outline: area.outline },
    annotation: {
      subtype: "Polygon",
      subject: "Deck area",
      contents: `${area.label}: ${kind}, ${deckWords(area)}, ${elevation}.`,
      vertices: area.outline,
      colour: ink,
    },
    labels: [areaLabel(area, context, ink, [elevation, kind]), ...shapeLabels(area, context)],
    keepClear: rings.map((ring) => [...ring, ...ring.slice(0, 1)]),
  };
}

/** The same area on a sheet registered to its own: a faint outline in that sheet's space, and its name. */
export function drawAreaOutline(
  area: Area,
  rings: readonly (readonly Point2[])[],
  context: Omit<DrawingContext, "findings" | "along">,
): Drawing {
  const { point } = context.frame;
  const { ink, dash } = OUTLINE[area.classification.is];
  const outline = rings[0] ?? [];
  const elevation = showDeckElevation(context.job, area);
  return {
    picture: [
      ringsPath(rings, {
        stroke: ink,
        width: 0.6 * point,
        opacity: 0.55,
        ...(dash ? { dash: dash.map((length) => length * point) } : {}),
      }),
    ],
    hit: { kind: "area", outline },
    annotation: {
      subtype: "Polygon",
      subject: "Deck area",
      contents: `${area.label}: ${CLASSIFICATION_WORDS[area.classification.is]}, ${elevation}. Traced on another sheet.`,
      vertices: outline,
      colour: ink,
    },
    labels: [edgeLabel(area, outline, elevation, context)],
    keepClear: [],
  };
}

function areaLabel(area: Area, { frame }: Pick<DrawingContext, "frame">, ink: Colour, lines: readonly string[]): Label {
  return {
    lines: [
      { text: area.label, size: 10 * frame.point, face: "bold", ink },
      ...lines.map((text) => ({ text, size: 7.5 * frame.point, face: "regular" as const, ink: INK })),
    ],
    spots: spotsOver(frame, labelPoint({ outline: area.outline, holes: area.holes })),
  };
}

function edgeLabel(
  area: Area,
  outline: readonly Point2[],
  elevation: string,
  { frame }: Pick<DrawingContext, "frame">,
): Label {
  return {
    lines: [{ text: `${area.label}  ${elevation}`, size: 6.5 * frame.point, face: "condensed", ink: FAINT_INK }],
    spots: spotsAlong(frame, [...outline, ...outline.slice(0, 1)], 2.5),
  };
}

/** Arrow downhill for a slope, small crosses for spots. */
function shapeMarks(area: Area, { frame: { point } }: Pick<DrawingContext, "frame">): PictureItem[] {
  const shape = area.elevation.shape;
  const paint = { stroke: DECK_INK, width: 0.8 * point, opacity: 0.85 };
  if (shape.is === "spots") {
    return shape.spots.map(({ at: [x, y] }): PictureItem => {
      const r = 3 * point;
      return {
        type: "path",
        steps: [
          ["M", x - r, y],
          ["L", x + r, y],
          ["M", x, y - r],
          ["L", x, y + r],
        ],
        ...paint,
      };
    });
  }
  if (shape.is !== "slope") return [];
  const length = distance2(shape.point, shape.towards);
  if (length === 0) return [];
  const [ux, uy] = [(shape.towards[0] - shape.point[0]) / length, (shape.towards[1] - shape.point[1]) / length];
  const reach = Math.min(length, ARROW * point);
  const end: Point2 = [shape.point[0] + ux * reach, shape.point[1] + uy * reach];
  const barb = (side: number): Point2 => [
    end[0] - ux * 6 * point - side * uy * 2.2 * point,
    end[1] - uy * 6 * point + side * ux * 2.2 * point,
  ];
  return [
    linePath([shape.point, end], paint),
    linePath([barb(1), end, barb(-1)], { fill: DECK_INK, opacity: 0.85 }, true),
  ];
}

/** Words of a slope along its arrow, elevations beside spots. */
function shapeLabels(area: Area, { frame, job }: Pick<DrawingContext, "frame" | "job">): Label[] {
  const shape = area.elevation.shape;
  const words = (text: string) => ({ text, size: 6.5 * frame.point, face: "condensed" as const, ink: DECK_INK });
  if (shape.is === "slope") {
    const length = distance2(shape.point, shape.towards);
    if (length === 0) return [];
    const end = lerp2(shape.point, shape.towards, Math.min(1, (ARROW * frame.point) / length));
    return [{ lines: [words(shape.text)], spots: spotsAlong(frame, [shape.point, end], 2.5) }];
  }
  if (shape.is !== "spots") return [];
  return shape.spots.map(({ at, elevation }): Label => {
    const text = elevation ? formatLength(toInches(elevation), job.settings.job.system) : "no elevation";
    return { lines: [words(text)], spots: spotsAround(frame, at, 4) };
  });
}
