import type { Point2 } from "../geometry/point.ts";

/** What a loupe shows of a view, and how large. */
interface LoupeLook {
  /** The middle of what is shown, CSS pixels of the window. */
  readonly about: Point2;
  /** Side of the picture, CSS pixels. */
  readonly side: number;
  readonly times: number;
}

/**
 * Draws what is seen about a place of the screen into a canvas, enlarged, from the pictures that `root` is made of: nothing is drawn
 * anew. The canvas holds `side` times its ratio of device pixels each way.
 */
export function drawLoupe(canvas: HTMLCanvasElement, root: Element, { about, side, times }: LoupeLook): void {
  const context = canvas.getContext("2d");
  if (!context) return;
  const scale = (canvas.width / side) * times;
  const reach = side / times / 2;
  context.setTransform(1, 0, 0, 1, 0, 0);
  context.globalAlpha = 1;
  context.clearRect(0, 0, canvas.width, canvas.height);
  context.setTransform(scale, 0, 0, scale, canvas.width / 2 - about[0] * scale, canvas.height / 2 - about[1] * scale);
  layInto(context, root, { x0: about[0] - reach, y0: about[1] - reach, x1: about[0] + reach, y1: about[1] + reach }, 1);
}

interface Window_ {
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** Lays an element and what is in it over one another as the browser does: its ground, its picture, its children by their z-index. */
function layInto(context: CanvasRenderingContext2D, element: Element, seen: Window_, alpha: number): void {
  const style = getComputedStyle(element);
  if (style.display === "none" || style.visibility === "hidden") return;
  const opacity = alpha * Number(style.opacity);
  const { left, top, right, bottom } = element.getBoundingClientRect();
  const isSeen = right > seen.x0 && left < seen.x1 && bottom > seen.y0 && top < seen.y1;
  if (isSeen && right > left && bottom > top) {
    context.globalAlpha = opacity;
    if (style.backgroundColor !== "rgba(0, 0, 0, 0)") {
      context.fillStyle = style.backgroundColor;
      context.fillRect(left, top, right - left, bottom - top);
    }
    if (element instanceof HTMLCanvasElement && element.width > 0 && element.height > 0)
      context.drawImage(element, left, top, right - left, bottom - top);
  }
  const depth = (one: Element) => Number.parseInt(getComputedStyle(one).zIndex, 10) || 0;
  for (const child of [...element.children].toSorted((a, b) => depth(a) - depth(b)))
    layInto(context, child, seen, opacity);
}
