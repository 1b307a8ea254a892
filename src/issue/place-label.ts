import type { PictureItem } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { radians } from "../units/quantity.ts";
import { WHITE } from "./inks.ts";
import type { Label, LabelSpot } from "./kinds/drawing.ts";
import type { Occupancy } from "./occupancy.ts";
import { linePath } from "./paths.ts";
import { CAP_HEIGHT, DESCENT, textWidth } from "./text-width.ts";

/** Distance from baseline to baseline, as a part of the text size. */
const LEADING = 1.3;
/** How far the ground behind a label covers what is drawn below it: it dims linework, and never hides it. */
const GROUND = 0.65;
/** What a label weighs for those placed after it. */
const LABEL_WEIGHT = 6;
/** How much worse each later spot of a list is than the one before it. */
const LATER = 1;

/**
 * Sets a label at the spot with the least underneath, earlier spots first among equals, and marks its place as taken.
 * A label that fits nowhere on the page is set at its first spot: a name left out would be worse.
 */
export function placeLabel(label: Label, occupancy: Occupancy): PictureItem[] {
  const width = Math.max(...label.lines.map(({ text, size, face }) => textWidth(text, size, face)), 0);
  const drops = baselines(label);
  const height = drops.total;
  if (label.lines.length === 0) return [];
  let best: { corners: Point2[]; spot: LabelSpot; middle: Point2; cost: number } | undefined;
  let rank = 0;
  for (const spot of label.spots) {
    const middle: Point2 = [spot.side[0] * (width / 2 + spot.gap), spot.side[1] * (height / 2 + spot.gap)];
    const corners = boxAt(spot, width, height, middle);
    const handicap = LATER * rank++;
    // Later spots only get dearer: nothing below the best so far is left to find.
    if (best && handicap >= best.cost) break;
    const cost = occupancy.costOfBox(corners, best ? best.cost - handicap : Infinity) + handicap;
    if (!best || cost < best.cost) best = { corners, spot, middle, cost };
  }
  if (!best) return [];
  occupancy.addBox(best.corners, LABEL_WEIGHT);
  const { spot, middle } = best;
  const [c, s] = [Math.cos(spot.angle), Math.sin(spot.angle)];
  const ground = linePath(best.corners, { fill: WHITE, opacity: GROUND }, true);
  const lines = label.lines.map((line, i): PictureItem => {
    const u = middle[0];
    const v = middle[1] + height / 2 - (drops.at[i] as number);
    return {
      type: "text",
      text: line.text,
      at: [spot.at[0] + u * c - v * s, spot.at[1] + u * s + v * c],
      size: line.size,
      angle: radians(spot.angle),
      align: "middle",
      face: line.face,
      fill: line.ink,
    };
  });
  return [ground, ...lines];
}

/** How far each baseline lies below the top of the label, and the height of all lines. */
function baselines(label: Label): { readonly at: readonly number[]; readonly total: number } {
  const at: number[] = [];
  let down = 0;
  label.lines.forEach(({ size }, i) => {
    down += i === 0 ? size * CAP_HEIGHT : size * LEADING;
    at.push(down);
  });
  const last = label.lines[label.lines.length - 1];
  return { at, total: down + (last ? last.size * DESCENT : 0) };
}

function boxAt({ at, angle }: LabelSpot, width: number, height: number, middle: Point2): Point2[] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const corner = (right: number, up: number): Point2 => {
    const u = middle[0] + (right * width) / 2;
    const v = middle[1] + (up * height) / 2;
    return [at[0] + u * c - v * s, at[1] + u * s + v * c];
  };
  return [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
}
