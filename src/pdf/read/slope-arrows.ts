import type { Point2 } from "../../geometry/point.ts";
import { isArrowTip } from "./arrowheads.ts";
import type { Linework } from "./linework.ts";
import type { TextRun } from "./plan-contents.ts";
import { within } from "./seen-segments.ts";
import { endOf, startOf } from "./segment-geometry.ts";

/** The arrow drawn beside a slope. On roof plans it points down the slope (common practice, no source). Sheet space. */
export interface SlopeArrow {
  readonly tail: Point2;
  readonly tip: Point2;
}

/** How far the arrow may run from the middle of its text, in heights of the text. */
const NEAR_EM = 4;
/** Longest arrow, in 1/72 in. of paper. */
const LONGEST_PT = 300;
const MOST = 5_000;

/** The arrow a text runs along: a straight line beside it with an arrowhead at one end only; null where there is none. */
export function slopeArrow(linework: Linework, { at, angle, width, height }: TextRun): SlopeArrow | null {
  const u: Point2 = [Math.cos(angle), Math.sin(angle)];
  const middle: Point2 = [
    at[0] + (u[0] * width) / 2 - u[1] * 0.35 * height,
    at[1] + (u[1] * width) / 2 + u[0] * 0.35 * height,
  ];
  const reach = NEAR_EM * height;
  let best: { arrow: SlopeArrow; cost: number } | undefined;
  for (const segment of within(
    linework,
    [middle[0] - reach, middle[1] - reach, middle[0] + reach, middle[1] + reach],
    MOST,
  )) {
    const [a, b] = [startOf(linework, segment), endOf(linework, segment)];
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const long = Math.hypot(dx, dy);
    if (long < height || long * linework.userUnit > LONGEST_PT) continue;
    if (Math.abs(dx * u[1] - dy * u[0]) > 0.02 * long) continue;
    const [rx, ry] = [a[0] - middle[0], a[1] - middle[1]];
    const off = Math.abs(ry * u[0] - rx * u[1]);
    const [from, to] = [rx * u[0] + ry * u[1], (b[0] - middle[0]) * u[0] + (b[1] - middle[1]) * u[1]];
    const beside = Math.max(0, Math.min(from, to), -Math.max(from, to));
    // The arrow's own text stands at its middle: a leader that passes may be nearer.
    const cost = off + Math.abs(from + to) / 4;
    if (off > reach || beside > 0.5 * width || (best && cost >= best.cost)) continue;
    const heading: Point2 = [dx / long, dy / long];
    const [atEnd, atStart] = [isArrowTip(linework, b, heading), isArrowTip(linework, a, [-heading[0], -heading[1]])];
    if (atEnd !== atStart) best = { arrow: atEnd ? { tail: a, tip: b } : { tail: b, tip: a }, cost };
  }
  return best?.arrow ?? null;
}
