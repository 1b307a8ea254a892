import type { Point2 } from "../geometry/point.ts";

/** A width and a height, CSS pixels. */
interface Extent {
  readonly width: number;
  readonly height: number;
}

/** Free space between the loupe and the edge of the window, and between it and the finger's middle, CSS pixels. */
const MARGIN = 6;
const CLEAR_OF_FINGER = 44;

/**
 * The upper left corner of a loupe for a finger at `finger`, CSS pixels of the window: above it where there is room, else beside it, on
 * the side with more. Always wholly in a window that is larger than the loupe.
 */
export function loupePlace([x, y]: Point2, window: Extent, loupe: Extent): Point2 {
  const within = (at: number, long: number, room: number) => Math.max(MARGIN, Math.min(at, room - long - MARGIN));
  const above = y - CLEAR_OF_FINGER - loupe.height;
  if (above >= MARGIN) return [within(x - loupe.width / 2, loupe.width, window.width), above];
  const beside = x > window.width / 2 ? x - CLEAR_OF_FINGER - loupe.width : x + CLEAR_OF_FINGER;
  return [within(beside, loupe.width, window.width), within(y - loupe.height / 2, loupe.height, window.height)];
}
