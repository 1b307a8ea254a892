import type { PictureItem } from "../geometry/picture.ts";
import type { Sheet } from "../job/schema.ts";
import type { AnnotationSpec } from "../pdf/write/annotations.ts";
import type { CopyKind } from "../pdf/write/append-update.ts";
import { radians } from "../units/quantity.ts";
import { VERDICT_INK, WHITE } from "./inks.ts";
import { type Issuing, MARK_NAME } from "./mark-annotations.ts";
import { rectPath } from "./paths.ts";
import { pictureBounds, placePicture } from "./place-picture.ts";
import { sheetFrame } from "./sheet-frame.ts";
import { textWidth } from "./text-width.ts";
import { COPY_WORDS } from "./words.ts";

/** Size of the words and room around them, points of paper. */
const SIZE = 9;
const PAD = 4;
/** Distance from the edges of the page, points of paper. */
const MARGIN = 12;

/** What says on a sheet that it is a copy of another nature than the drawing: a line of words at its upper left as displayed. */
export function copyLabel(kind: CopyKind, id: string, sheet: Sheet, { author, now }: Issuing): AnnotationSpec {
  const frame = sheetFrame(sheet);
  const [x0, y0, x1, y1] = sheet.view;
  const corner = ({ 0: [x0, y1], 90: [x0, y0], 180: [x1, y0], 270: [x1, y1] } as const)[sheet.rotate];
  const text = COPY_WORDS[kind];
  const ink = VERDICT_INK["too-close"];
  const width = textWidth(text, SIZE, "bold") + 2 * PAD;
  const height = SIZE + 2 * PAD;
  const upright: PictureItem[] = [
    rectPath(0, 0, width, height, { fill: WHITE, stroke: ink, width: 0.8 }),
    {
      type: "text",
      text,
      at: [PAD, PAD + 1.5],
      size: SIZE,
      angle: radians(0),
      align: "start",
      face: "bold",
      fill: ink,
    },
  ];
  const [dx, dy] = frame.shift(MARGIN, -MARGIN - height);
  const picture = placePicture(upright, {
    scale: frame.point,
    angle: frame.upright,
    dx: corner[0] + dx,
    dy: corner[1] + dy,
  });
  const [a, b, c, d] = pictureBounds(picture) ?? [0, 0, 0, 0];
  return {
    subtype: "FreeText",
    name: `${MARK_NAME}copy:${id}`,
    contents: text,
    author,
    subject: "Copy",
    modified: now,
    layer: "findings",
    rect: [a, b, c, d],
    colour: ink,
    picture,
  };
}
