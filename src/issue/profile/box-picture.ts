import type { ProfileBox } from "../../check/profile-boxes.ts";
import type { RunProfile } from "../../check/run-profile.ts";
import type { PictureItem } from "../../geometry/picture.ts";
import { radians } from "../../units/quantity.ts";
import { INK, VERDICT_INK, WHITE } from "../inks.ts";
import { linePath, rectPath } from "../paths.ts";
import { textWidth } from "../text-width.ts";
import { cut, shifted } from "./cut-line.ts";
import type { LabelBox, LabelRoom } from "./label-room.ts";
import { topOver } from "./profile-reading.ts";
import type { ProfileScale } from "./profile-scale.ts";

const SIZE = 6.5;

/** Boxes and fittings on the run at their true size, heights in the scale of heights; heavier where they need attention. */
export function drawBoxes({ boxes = [] }: RunProfile, scale: ProfileScale): PictureItem[] {
  return boxes.flatMap((box) => {
    const [x0, y0, x1, y1] = placed(box, scale);
    if (y1 <= scale.plot[1]) return [];
    const ink = inkOf(box);
    return [
      rectPath(x0, y0, x1, y1, { fill: WHITE, opacity: 0.6 }),
      rectPath(x0, y0, x1, y1, { stroke: ink, width: ink === INK ? 0.8 : 1.4 }),
      linePath(
        [
          [x0, y0],
          [x1, y1],
        ],
        { stroke: ink, width: 0.5 },
      ),
    ];
  });
}

/** Where they stand in the picture. */
export const boxPlaces = ({ boxes = [] }: RunProfile, scale: ProfileScale): readonly LabelBox[] =>
  boxes.map((box) => placed(box, scale)).filter(([, , , top]) => top > scale.plot[1]);

/** Their labels, beneath or above them, where there is room. */
export function boxLabels({ boxes = [] }: RunProfile, scale: ProfileScale, room: LabelRoom): PictureItem[] {
  return boxes.flatMap((box) => {
    const [x0, y0, x1, y1] = placed(box, scale);
    const width = textWidth(box.label, SIZE, "condensed") + 2;
    const middle = (x0 + x1) / 2;
    const at = (left: number, low: number): LabelBox => [left, low, left + width, low + SIZE];
    const places = [y0 - SIZE - 2, y1 + 2].flatMap((low) => [
      at(middle - width / 2, low),
      at(x1, low),
      at(x0 - width, low),
    ]);
    const place = y1 > scale.plot[1] && room.take(places, scale.plot);
    if (!place) return [];
    return [
      rectPath(...place, { fill: WHITE, opacity: 0.8 }),
      {
        type: "text",
        text: box.label,
        at: [place[0] + 1, place[1] + 1.3],
        size: SIZE,
        angle: radians(0),
        align: "start",
        face: "condensed",
        fill: inkOf(box),
      } as const,
    ];
  });
}

/** How far couplings reach, dotted along both sides: nobody knows where along it they sit. */
export function drawCouplings({ axis, radiusIn, couplingIn }: RunProfile, scale: ProfileScale): PictureItem[] {
  if (couplingIn === undefined) return [];
  return axis.flatMap((piece) => {
    const over = topOver(piece, couplingIn / 2);
    if (over <= topOver(piece, radiusIn)) return [];
    return [over, -over].flatMap((side) => {
      const edge = cut(shifted(piece, side), scale);
      return edge ? [linePath(edge, { stroke: INK, width: 0.8, dash: [0.1, 2.4] })] : [];
    });
  });
}

const inkOf = ({ number, verdict }: ProfileBox) => (number === null || !verdict ? INK : VERDICT_INK[verdict]);

/** The rectangle of a box, within the plot along the run and above its floor. */
function placed({ fromIn, toIn, low, high }: ProfileBox, scale: ProfileScale): LabelBox {
  const within = (x: number) => Math.min(Math.max(x, scale.plot[0]), scale.plot[2]);
  const [a, b] = [scale.toPicture({ station: fromIn, z: low }), scale.toPicture({ station: toIn, z: high })];
  return [within(a[0]), Math.max(a[1], scale.plot[1]), within(b[0]), Math.max(b[1], scale.plot[1])];
}
