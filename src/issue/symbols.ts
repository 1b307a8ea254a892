import type { Verdict } from "../check/finding.ts";
import type { Colour, PathItem, Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { VERDICT_INK, WHITE } from "./inks.ts";
import { arcSteps, circlePath, linePath, rectPath } from "./paths.ts";

/**
 * The "tip and bar" family: a fastener tip that comes down from the deck, a bar for the wiring. Each symbol fills a
 * square of side 1 about the origin, upright, and can be told from the others without colour.
 */
export type SymbolArt = (ink: Colour) => Picture;

/** Line widths, as parts of the symbol's side. */
const THIN = 0.07;
const BOLD = 0.11;

/** A fastener from the top of the square down to its point at `down`. `fill` absent leaves it open. */
function tip(ink: Colour, down: number, fill?: Colour): PathItem {
  const shoulder = down + 0.22;
  const points: Point2[] = [
    [-0.1, 0.5],
    [0.1, 0.5],
    [0.1, shoulder],
    [0, down],
    [-0.1, shoulder],
  ];
  return linePath(points, { stroke: ink, width: THIN, ...(fill ? { fill } : {}) }, true);
}

/** The half of the tip on the left of its axis. */
function halfTip(ink: Colour, down: number): PathItem {
  const points: Point2[] = [
    [-0.1, 0.5],
    [0, 0.5],
    [0, down],
    [-0.1, down + 0.22],
  ];
  return linePath(points, { fill: ink }, true);
}

/** The wiring: a bar across the square, its middle at `y`. */
const bar = (paint: { fill?: Colour; stroke?: Colour; width?: number }, y: number, from = -0.5, to = 0.5) =>
  rectPath(from, y - 0.09, to, y + 0.09, paint);

/** The symbol of every verdict. */
export const SYMBOLS: Readonly<Record<Verdict, SymbolArt>> = {
  "too-close": (ink) => [
    bar({ fill: ink, stroke: ink, width: THIN }, -0.1),
    // A light edge keeps the tip apart from the bar in grey print.
    { ...tip(WHITE, -0.5), width: 0.2 },
    tip(ink, -0.5, ink),
  ],
  borderline: (ink) => [
    bar({ fill: WHITE, stroke: ink, width: THIN }, -0.36),
    bar({ fill: ink }, -0.36, -0.5, 0),
    tip(ink, -0.24, WHITE),
    halfTip(ink, -0.24),
  ],
  "cannot-tell": (ink) => [
    bar({ fill: ink, stroke: ink, width: THIN }, -0.36),
    circlePath([0, 0.16], 0.25, { stroke: ink, width: BOLD }),
  ],
  clear: (ink) => [
    linePath(
      [
        [-0.5, 0.4],
        [0.5, 0.4],
      ],
      { stroke: ink, width: THIN },
    ),
    bar({ fill: ink, stroke: ink, width: THIN }, -0.36, -0.5, 0.38),
    linePath(
      [
        [0.24, -0.05],
        [0.34, -0.16],
        [0.5, 0.14],
      ],
      { stroke: ink, width: BOLD },
    ),
  ],
  "not-governed": (ink) => [
    linePath(
      [
        [-0.5, 0.42],
        [0.5, 0.42],
      ],
      { stroke: ink, width: BOLD },
    ),
    linePath(
      [
        [-0.5, 0.16],
        [0.5, 0.16],
      ],
      { stroke: ink, width: BOLD },
    ),
    bar({ fill: ink, stroke: ink, width: THIN }, -0.36),
  ],
  concealed: (ink) => [
    linePath(
      [
        [-0.5, -0.4],
        [-0.36, -0.4],
        [-0.24, 0.4],
        [0.24, 0.4],
        [0.36, -0.4],
        [0.5, -0.4],
      ],
      { stroke: ink, width: BOLD },
    ),
    circlePath([0, 0.02], 0.17, { fill: ink, stroke: ink, width: THIN }),
  ],
  "entry-unprotected": (ink) => [
    { type: "path", steps: arcSteps([0.12, 0], 0.34, -0.8 * Math.PI, 0.8 * Math.PI), stroke: ink, width: BOLD },
    bar({ fill: ink, stroke: ink, width: THIN }, 0, -0.5, 0.12),
  ],
};

/** A verdict's symbol in its own colour, on a square of side 1 about the origin. */
export const symbolOf = (verdict: Verdict): Picture => SYMBOLS[verdict](VERDICT_INK[verdict]);
