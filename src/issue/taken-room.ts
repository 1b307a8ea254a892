import type { Point2 } from "../geometry/point.ts";

/** Corners of a rectangle in order, however it is turned. */
type Corners = readonly Point2[];

/** Tells the columns of cells apart; no sheet has so many rows. */
const STRIDE = 2 ** 24;

interface Taken {
  readonly corners: Corners;
  readonly box: Box;
}
type Box = readonly [left: number, low: number, right: number, high: number];

/**
 * The rectangles of a sheet that must stay legible: words of the drawing, labels, symbols with their numbers. Where `Occupancy`
 * weighs what is better, this says exactly whether anything is covered; rectangles that only touch do not cover each other.
 */
export class TakenRoom {
  readonly #cell: number;
  readonly #cells = new Map<number, Taken[]>();
  readonly #searched = new Map<number, number>();

  /** `cell`, sheet units, is about the size of the rectangles asked about: each is compared with those in the cells it reaches. */
  constructor(cell: number) {
    this.#cell = cell;
  }

  /** How far out a search for room about a point has to begin, as searches nearby have found; 0 where there was none. */
  searchedTo([x, y]: Point2): number {
    return this.#searched.get(this.#neighbourhood(x, y)) ?? 0;
  }

  /** Says that a search about a point found nothing nearer than so far out. */
  noteSearched([x, y]: Point2, out: number): void {
    this.#searched.set(this.#neighbourhood(x, y), out);
  }

  add(corners: Corners): void {
    const taken = { corners, box: boxOf(corners) };
    for (const key of this.#keys(taken.box)) {
      const list = this.#cells.get(key);
      if (list) list.push(taken);
      else this.#cells.set(key, [taken]);
    }
  }

  /** Is nothing there that such a rectangle would cover, not even by an edge? */
  isFree(corners: Corners): boolean {
    const box = boxOf(corners);
    for (const key of this.#keys(box))
      for (const taken of this.#cells.get(key) ?? [])
        if (boxesOverlap(box, taken.box) && rectanglesOverlap(corners, taken.corners)) return false;
    return true;
  }

  #neighbourhood(x: number, y: number): number {
    return Math.floor(x / (2 * this.#cell)) * STRIDE + Math.floor(y / (2 * this.#cell));
  }

  #keys([left, low, right, high]: Box): number[] {
    const cell = this.#cell;
    const keys: number[] = [];
    for (let x = Math.floor(left / cell); x <= Math.floor(right / cell); x++)
      for (let y = Math.floor(low / cell); y <= Math.floor(high / cell); y++) keys.push(x * STRIDE + y);
    return keys;
  }
}

/** Least overlap that counts, as a part of the shorter side's own length: rounding must not make neighbours cover each other. */
const SLACK = 1e-9;

/** Do two rectangles overlap? Where neither has a side whose direction parts them (separating axes). */
export function rectanglesOverlap(a: Corners, b: Corners): boolean {
  return !isParted(a, b) && !isParted(b, a);
}

function isParted(a: Corners, b: Corners): boolean {
  for (const [from, to] of [
    [a[0], a[1]],
    [a[1], a[2]],
  ]) {
    if (!from || !to) return true;
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const [lowA, highA] = reachOf(a, dx, dy);
    const [lowB, highB] = reachOf(b, dx, dy);
    const slack = SLACK * (highA - lowA);
    if (highA <= lowB + slack || highB <= lowA + slack) return true;
  }
  return false;
}

function reachOf(corners: Corners, dx: number, dy: number): readonly [number, number] {
  let [low, high] = [Infinity, -Infinity];
  for (const [x, y] of corners) {
    const along = x * dx + y * dy;
    if (along < low) low = along;
    if (along > high) high = along;
  }
  return [low, high];
}

function boxOf(corners: Corners): Box {
  let [left, low, right, high] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of corners) {
    left = Math.min(left, x);
    low = Math.min(low, y);
    right = Math.max(right, x);
    high = Math.max(high, y);
  }
  return [left, low, right, high];
}

const boxesOverlap = (a: Box, b: Box): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];
