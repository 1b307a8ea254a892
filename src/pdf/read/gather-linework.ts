import Flatbush from "flatbush";
import { findArcs } from "./find-arcs.ts";
import { type LineStyle, type Linework, MAX_SEGMENTS, MAX_STYLES, SEGMENT } from "./linework.ts";
import type { PageGeometry } from "./page-geometry.ts";

/** A box in sheet space: least x, least y, greatest x, greatest y. */
export type SheetBox = readonly [number, number, number, number];

/** Takes segments in the order of drawing and makes a page's linework of them. All in sheet space. */
export interface LineworkGatherer {
  /** The place of a style in the table; the same style has one place. */
  styleOf(style: LineStyle): number;
  /** Begins a path: the next segment does not go on with the one before, even where it starts at its end. */
  part(): void;
  /** Adds a straight piece, cut to the box; pieces of no length and such as have no place (not finite) are dropped. */
  add(x0: number, y0: number, x1: number, y1: number, style: number, flags: number, box: SheetBox): void;
  /** Whether no more is taken. */
  full(): boolean;
  finish(): Linework;
}

/** A gatherer for a page. */
export function gatherLinework({ page, view, userUnit }: PageGeometry): LineworkGatherer {
  let room = 1024;
  let coords = new Float32Array(4 * room);
  let style = new Uint16Array(room);
  let flags = new Uint8Array(room);
  const starts = growing();
  let count = 0;
  let partial = false;
  let [endX, endY] = [Number.NaN, Number.NaN];
  const styles: LineStyle[] = [];
  const places = new Map<string, number>();

  const grow = (): void => {
    room *= 2;
    const [oldCoords, oldStyle, oldFlags] = [coords, style, flags];
    coords = new Float32Array(4 * room);
    style = new Uint16Array(room);
    flags = new Uint8Array(room);
    coords.set(oldCoords);
    style.set(oldStyle);
    flags.set(oldFlags);
  };

  const clipped = new Float64Array(4);
  return {
    styleOf(each) {
      const key = JSON.stringify([each.layer, each.shown, each.stroke, each.fill, each.width, each.dash]);
      const known = places.get(key);
      if (known !== undefined) return known;
      if (styles.length >= MAX_STYLES) {
        partial = true;
        return MAX_STYLES - 1;
      }
      places.set(key, styles.length);
      return styles.push(each) - 1;
    },
    part() {
      endX = Number.NaN;
    },
    add(x0, y0, x1, y1, of, bits, box) {
      const cut = clipTo(box, x0, y0, x1, y1, clipped);
      if (cut < 0) return;
      if (count >= MAX_SEGMENTS) {
        partial = true;
        return;
      }
      if (count === room) grow();
      const at = 4 * count;
      coords[at] = clipped[0]!;
      coords[at + 1] = clipped[1]!;
      coords[at + 2] = clipped[2]!;
      coords[at + 3] = clipped[3]!;
      if (coords[at] === coords[at + 2] && coords[at + 1] === coords[at + 3]) return;
      style[count] = of;
      flags[count] = bits | cut;
      const goesOn = coords[at] === endX && coords[at + 1] === endY && style[count - 1] === of;
      if (!goesOn) starts.push(count);
      endX = coords[at + 2]!;
      endY = coords[at + 3]!;
      count++;
    },
    full: () => count >= MAX_SEGMENTS,
    finish() {
      starts.push(count);
      const pathStart = starts.whole();
      const pathClosed = new Uint8Array(pathStart.length - 1);
      for (let path = 0; path < pathClosed.length; path++) {
        const [first, last] = [4 * pathStart[path]!, 4 * (pathStart[path + 1]! - 1)];
        const back = coords[first] === coords[last + 2] && coords[first + 1] === coords[last + 3];
        pathClosed[path] = Number(back && last > first + 4);
      }
      const kept = { coords: coords.slice(0, 4 * count), style: style.slice(0, count), flags: flags.slice(0, count) };
      const whole = { page, userUnit, view, count, ...kept, pathStart, pathClosed, styles, partial };
      return { ...whole, arcs: findArcs(whole), index: indexOf(kept.coords) };
    },
  };
}

/** The boxes of the segments, in a tree whose numbers are as exact as theirs. One far away box stands in for no segments. */
function indexOf(coords: Float32Array): Flatbush {
  const count = coords.length / 4;
  const index = new Flatbush(Math.max(1, count), 16, Float32Array);
  if (count === 0) index.add(1e30, 1e30, 1e30, 1e30);
  for (let at = 0; at < coords.length; at += 4) {
    const x0 = coords[at]!;
    const y0 = coords[at + 1]!;
    const x1 = coords[at + 2]!;
    const y1 = coords[at + 3]!;
    index.add(Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1));
  }
  index.finish();
  return index;
}

/** Cuts a segment to a box into `out`. Returns the bits of its cut ends, or -1 where nothing is left. */
function clipTo(box: SheetBox, x0: number, y0: number, x1: number, y1: number, out: Float64Array): number {
  const dx = x1 - x0;
  const dy = y1 - y0;
  if (!Number.isFinite(dx) || !Number.isFinite(dy)) return -1;
  // Most lines lie within: nothing to cut.
  if (
    Math.min(x0, x1) >= box[0] &&
    Math.max(x0, x1) <= box[2] &&
    Math.min(y0, y1) >= box[1] &&
    Math.max(y0, y1) <= box[3]
  ) {
    out[0] = x0;
    out[1] = y0;
    out[2] = x1;
    out[3] = y1;
    return 0;
  }
  let from = 0;
  let to = 1;
  for (let side = 0; side < 4; side++) {
    const along = side < 2 ? dx : dy;
    const start = side < 2 ? x0 : y0;
    const room = side % 2 === 0 ? start - box[side >> 1]! : box[2 + (side >> 1)]! - start;
    const speed = side % 2 === 0 ? -along : along;
    if (speed === 0) {
      if (room < 0) return -1;
    } else if (speed < 0) from = Math.max(from, room / speed);
    else to = Math.min(to, room / speed);
  }
  if (!(from <= to)) return -1;
  out[0] = from > 0 ? x0 + dx * from : x0;
  out[1] = from > 0 ? y0 + dy * from : y0;
  out[2] = to < 1 ? x0 + dx * to : x1;
  out[3] = to < 1 ? y0 + dy * to : y1;
  return (from > 0 ? SEGMENT.cutStart : 0) | (to < 1 ? SEGMENT.cutEnd : 0);
}

function growing(): { push(value: number): void; whole(): Uint32Array } {
  let list = new Uint32Array(1024);
  let length = 0;
  return {
    push(value) {
      if (length === list.length) {
        const longer = new Uint32Array(2 * length);
        longer.set(list);
        list = longer;
      }
      list[length++] = value;
    },
    whole: () => list.slice(0, length),
  };
}
