import type { Point2 } from "../geometry/point.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";

/** What words of the drawing weigh for our labels, symbols and notes. */
export const WORDS_WEIGHT = 3;

/** What a line of the drawing's words covers, descenders included; sheet space. */
export function cornersOfWords({ at: [x, y], angle, width, height }: TextRun): Point2[] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const corner = (along: number, up: number): Point2 => [x + along * c - up * s, y + along * s + up * c];
  const [low, high] = [-0.25 * height, 0.8 * height];
  return [corner(0, low), corner(width, low), corner(width, high), corner(0, high)];
}
