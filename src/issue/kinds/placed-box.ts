import { type Finding, isQuiet } from "../../check/finding.ts";
import type { Colour, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import type { Tag } from "../../job/fields.ts";
import type { Length } from "../../units/length.ts";
import { toInches } from "../../units/length.ts";
import { ACCENT, INK, VERDICT_INK } from "../inks.ts";
import { linePath } from "../paths.ts";
import { showTag } from "../show-length.ts";
import { elementSentence } from "../words.ts";
import type { Drawing, DrawingContext } from "./drawing.ts";
import { spotsAround } from "./label-spots.ts";

/** An element that stands at one place and fills a rectangle in plan. */
export interface PlacedBox {
  readonly label: string;
  readonly words: string;
  readonly subject: string;
  readonly at: Point2;
  readonly rotationDeg: number;
  readonly tag: Tag | null;
  /** Plan size in inches, along the element's own x and y; undefined where it is not known. */
  readonly sizeIn: readonly [number, number] | undefined;
}

/** Smallest side drawn, points of paper: smaller boxes are shown at this size. */
const LEAST_SIDE = 5;

/** Inches of a length that may be missing. */
export const inchesOf = (length: Length | undefined): number | undefined => (length ? toInches(length) : undefined);

/** A rectangle in plan with what `inside` adds on a square of side 1, and its label beside it. */
export function drawPlacedBox(
  box: PlacedBox,
  context: DrawingContext,
  inside: (ink: Colour, corner: (x: number, y: number) => Point2) => PictureItem[],
): Drawing {
  const { point } = context.frame;
  const perUnit = context.inchesPerUnit;
  const side = (i: 0 | 1): number =>
    box.sizeIn && perUnit ? Math.max(box.sizeIn[i] / perUnit, LEAST_SIDE * point) : LEAST_SIDE * point;
  const [halfX, halfY] = [side(0) / 2, side(1) / 2];
  const turn = (box.rotationDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const corner = (x: number, y: number): Point2 => [
    box.at[0] + x * halfX * c - y * halfY * s,
    box.at[1] + x * halfX * s + y * halfY * c,
  ];
  const outline = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
  const ink = worstInk(context.findings) ?? ACCENT;
  const reach = Math.hypot(halfX, halfY) / point;
  const tag = box.tag ? showTag(box.tag, context.job.settings.job.system) : undefined;
  return {
    picture: [
      linePath(outline, { fill: ink, opacity: 0.15 }, true),
      linePath(outline, { stroke: ink, width: 0.8 * point, opacity: 0.9 }, true),
      ...inside(ink, corner),
    ],
    hit: { kind: "area", outline },
    annotation: {
      // A square has no turn of its own (ISO 32000-2, 12.5.6.8).
      subtype: box.rotationDeg % 90 === 0 ? "Square" : "Polygon",
      subject: box.subject,
      contents: elementSentence(box.label, box.words, context.findings),
      vertices: outline,
      colour: ink,
    },
    labels: [
      {
        lines: [
          { text: box.label, size: 8 * point, face: "bold", ink: ACCENT },
          ...(tag ? [{ text: tag, size: 6.5 * point, face: "condensed" as const, ink: INK }] : []),
        ],
        spots: spotsAround(context.frame, box.at, reach + 2),
      },
    ],
    keepClear: [[...outline, outline[0] as Point2]],
  };
}

/** Ink of the first finding that needs attention. */
function worstInk(findings: readonly Finding[]): Colour | undefined {
  const loud = findings.find(({ verdict }) => !isQuiet(verdict));
  return loud && VERDICT_INK[loud.verdict];
}
