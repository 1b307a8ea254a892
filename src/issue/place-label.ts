import type { PictureItem } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { radians } from "../units/quantity.ts";
import type { Label, LabelSpot } from "./kinds/drawing.ts";
import type { Occupancy } from "./occupancy.ts";
import { CAP_HEIGHT, DESCENT, textWidth } from "./text-width.ts";

/** Distance from baseline to baseline, as a part of the text size. */
const LEADING = 1.3;
/** Room between a line and a label beside it, as a part of the text size. */
const BESIDE = 0.45;
/** What a label weighs for those placed after it. */
const LABEL_WEIGHT = 6;
/** How much worse each later spot of a list is than the one before it. */
const LATER = 1.5;

/**
 * Sets a label at the spot with the least underneath, earlier spots first among equals, and marks its place as taken.
 * A label that fits nowhere on the page is set at its first spot: a name left out would be worse.
 */
export function placeLabel(label: Label, occupancy: Occupancy): PictureItem[] {
  const width = Math.max(...label.lines.map(({ text, size, face }) => textWidth(text, size, face)), 0);
  const drops = baselines(label);
  const height = drops.total;
  const first = label.lines[0];
  if (!first) return [];
  let best: { corners: Point2[]; spot: LabelSpot; up: number; cost: number } | undefined;
  let rank = 0;
  for (const spot of label.spots) {
    const sides = label.beside ? [height / 2 + first.size * BESIDE, -height / 2 - first.size * BESIDE] : [0];
    for (const up of sides) {
      const corners = boxAt(spot, width, height, up);
      const cost = occupancy.costOfBox(corners) + LATER * rank++;
      if (!best || cost < best.cost) best = { corners, spot, up, cost };
    }
  }
  if (!best) return [];
  occupancy.addBox(best.corners, LABEL_WEIGHT);
  const { spot, up } = best;
  const [c, s] = [Math.cos(spot.angle), Math.sin(spot.angle)];
  return label.lines.map((line, i): PictureItem => {
    const v = up + height / 2 - (drops.at[i] as number);
    return {
      type: "text",
      text: line.text,
      at: [spot.at[0] - v * s, spot.at[1] + v * c],
      size: line.size,
      angle: radians(spot.angle),
      align: "middle",
      face: line.face,
      fill: line.ink,
    };
  });
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

function boxAt({ at, angle }: LabelSpot, width: number, height: number, up: number): Point2[] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const corner = (x: number, y: number): Point2 => [at[0] + x * c - y * s, at[1] + x * s + y * c];
  return [
    corner(-width / 2, up - height / 2),
    corner(width / 2, up - height / 2),
    corner(width / 2, up + height / 2),
    corner(-width / 2, up + height / 2),
  ];
}
