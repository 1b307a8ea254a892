import type { Colour, PathItem, Picture, TextItem } from "../geometry/picture.ts";
import { chain, type Matrix } from "../pdf/read/matrix.ts";
import { FONT_AT_100_PX } from "./fonts.ts";

/** Text smaller than this on the screen, in device pixels, is a smudge and is left out. */
const LEAST_TEXT_PX = 3.5;
/** No line gets thinner than this on the screen, in device pixels. */
const LEAST_LINE_PX = 0.75;

type Context = CanvasRenderingContext2D | OffscreenCanvasRenderingContext2D;

/**
 * Draws a picture. `toDevice` takes sheet space to device pixels of the canvas and keeps shapes (a mirror image is
 * fine: y runs up on the sheet and down on the screen). The context's own transform is replaced; its state is left changed.
 */
export function drawPicture(context: Context, picture: Picture, toDevice: Matrix, opacity = 1): void {
  const scale = Math.hypot(toDevice[0], toDevice[1]);
  for (const item of picture) {
    context.globalAlpha = opacity * (item.opacity ?? 1);
    if (item.type === "path") {
      context.setTransform(...toDevice);
      drawPath(context, item, scale);
    } else if (item.size * scale >= LEAST_TEXT_PX) drawText(context, item, toDevice);
  }
}

/** CSS colour of a device RGB colour. */
export const cssColour = ({ r, g, b }: Colour): string => {
  const known = colours.get(r * 1e8 + g * 1e4 + b);
  if (known) return known;
  const css = `rgb(${[r, g, b].map((part) => Math.round(part * 255)).join(" ")})`;
  colours.set(r * 1e8 + g * 1e4 + b, css);
  return css;
};
const colours = new Map<number, string>();

/** Paths of items drawn before; items are never changed, so the path stays right. */
const paths = new WeakMap<PathItem, Path2D>();

const pathOf = (item: PathItem): Path2D => {
  const known = paths.get(item);
  if (known) return known;
  const path = new Path2D();
  for (const step of item.steps) {
    if (step[0] === "M") path.moveTo(step[1], step[2]);
    else if (step[0] === "L") path.lineTo(step[1], step[2]);
    else if (step[0] === "C") path.bezierCurveTo(step[1], step[2], step[3], step[4], step[5], step[6]);
    else path.closePath();
  }
  paths.set(item, path);
  return path;
};

function drawPath(context: Context, item: PathItem, scale: number): void {
  const path = pathOf(item);
  if (item.fill) {
    context.fillStyle = cssColour(item.fill);
    context.fill(path, item.evenOdd ? "evenodd" : "nonzero");
  }
  if (item.stroke) {
    context.strokeStyle = cssColour(item.stroke);
    context.lineWidth = Math.max(item.width ?? 1, LEAST_LINE_PX / scale);
    context.lineCap = context.lineJoin = "round";
    context.setLineDash(item.dash ? [...item.dash] : []);
    context.stroke(path);
  }
}

function drawText(context: Context, item: TextItem, toDevice: Matrix): void {
  const [c, s] = [Math.cos(item.angle), Math.sin(item.angle)];
  const em = item.size / 100;
  // From the canvas's own text space (100 px em, y down) to sheet space.
  const toSheet: Matrix = [em * c, em * s, em * s, -em * c, item.at[0], item.at[1]];
  context.setTransform(...chain(toSheet, toDevice));
  context.font = FONT_AT_100_PX[item.face];
  context.textAlign = item.align === "middle" ? "center" : item.align;
  context.textBaseline = "alphabetic";
  context.fillStyle = cssColour(item.fill);
  context.fillText(item.text, 0, 0);
}
