import type { Colour, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { labelPoint } from "../../geometry/polygon.ts";
import type { Area } from "../../job/schema.ts";
import { findDeckProfile } from "../../trade/decks.ts";
import { DECK_INK, FAINT_INK, INK, OKABE_ITO, VERDICT_INK } from "../inks.ts";
import { ringsPath } from "../paths.ts";
import { showDeckElevation } from "../show-length.ts";
import { CLASSIFICATION_WORDS } from "../words.ts";
import { shapeLabels, shapeMarks } from "./deck-shape.ts";
import type { Drawing, DrawingContext, Label } from "./drawing.ts";
import { spotsAlong, spotsOver } from "./label-spots.ts";

/** How each classification is outlined: told apart by dash as well as colour. Lengths in points of paper. */
const OUTLINE: Readonly<
  Record<Area["classification"]["is"], { readonly ink: Colour; readonly dash?: readonly number[] }>
> = {
  roof: { ink: DECK_INK },
  "floor-above": { ink: VERDICT_INK["not-governed"], dash: [7, 2.5, 1, 2.5] },
  "not-settled": { ink: OKABE_ITO.reddishPurple, dash: [2.5, 2.5] },
  "from-outline": { ink: DECK_INK },
};

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
