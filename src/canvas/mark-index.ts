import Flatbush from "flatbush";
import type { Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { type ListDifference, listDifference } from "./list-difference.ts";
import type { HitShape, ScreenMark, SheetRect } from "./screen-mark.ts";

/** A mark near a point, and how near: 0 inside an area or on a spot. Sheet units. */
export interface NearMark {
  readonly mark: ScreenMark;
  readonly distance: number;
}

/** The box of a mark that is looked for; undefined where it lies nowhere. */
type BoxOf = (mark: ScreenMark) => SheetRect | undefined;

/** Marks by the place of one of their boxes; a box that lies nowhere is left out. */
class BoxIndex {
  readonly #tree: Flatbush | undefined;
  readonly #marks: readonly ScreenMark[];

  constructor(marks: readonly ScreenMark[], boxOf: BoxOf) {
    this.#marks = marks.filter((mark) => isSomewhere(boxOf(mark)));
    if (this.#marks.length === 0) return;
    this.#tree = new Flatbush(this.#marks.length);
    for (const mark of this.#marks) {
      const { x0, y0, x1, y1 } = boxOf(mark)!;
      this.#tree.add(x0, y0, x1, y1);
    }
    this.#tree.finish();
  }

  /** The marks whose box touches the rectangle, in no order. */
  search({ x0, y0, x1, y1 }: SheetRect): ScreenMark[] {
    return (this.#tree?.search(x0, y0, x1, y1) ?? []).map((k) => this.#marks[k]!);
  }
}

const isSomewhere = (box: SheetRect | undefined): box is SheetRect =>
  box !== undefined && box.x0 <= box.x1 && box.y0 <= box.y1;

/** So many marks may be looked through one by one, or be found and be here no more, before all are put in order again. */
const APART = 200;

/** The marks of one layer, found by place. Sheet space throughout. Later marks lie over earlier ones. */
export class MarkIndex {
  readonly marks: readonly ScreenMark[];
  /** The marks that were in the index this one was made from and are here no more, and those that have come; one that stands elsewhere is both. */
  readonly changes: Pick<ListDifference<ScreenMark>, "gone" | "come">;
  /** The marks that were put in order, and where each stands among the others. */
  readonly #ordered: ReadonlyMap<ScreenMark, number>;
  readonly #pictures: BoxIndex;
  readonly #shapes: BoxIndex;
  /** Of those, the ones that are here no more. */
  readonly #gone: ReadonlySet<ScreenMark>;
  /** Marks that are not among them, and where they stand between them. */
  readonly #apart: ReadonlyMap<ScreenMark, number>;

  /** `before`: an index of much the same marks. Where few are new, what it has put in order is used again. */
  constructor(marks: readonly ScreenMark[], before?: MarkIndex) {
    this.marks = marks;
    const differ = before && listDifference(before.marks, marks);
    this.changes = differ ?? { gone: [], come: marks };
    const little = differ && before.#after(differ);
    this.#ordered = little ? before.#ordered : new Map(marks.map((mark, place) => [mark, place]));
    this.#gone = little?.gone ?? new Set();
    this.#apart = little?.apart ?? new Map();
    this.#pictures = little ? before.#pictures : new BoxIndex(marks, pictureBox);
    this.#shapes = little ? before.#shapes : new BoxIndex(marks, shapeBox);
  }

  #placeOf(mark: ScreenMark): number {
    return this.#apart.get(mark) ?? this.#ordered.get(mark)!;
  }

  /** What is gone and what stands apart after a change; undefined where that is too much, or has no room between its neighbours. */
  #after({ gone, come, following }: ListDifference<ScreenMark>) {
    if (gone.length + come.length > APART) return undefined;
    const next = { gone: new Set(this.#gone), apart: new Map(this.#apart) };
    for (const mark of gone) if (!next.apart.delete(mark)) next.gone.add(mark);
    for (const [i, mark] of come.entries()) {
      const [before, after] = following[i]!;
      const low = before === undefined ? -1 : (next.apart.get(before) ?? this.#placeOf(before));
      const high = after === undefined ? low + 2 : this.#placeOf(after);
      const place = (low + high) / 2;
      if (!(low < place && place < high)) return undefined;
      next.apart.set(mark, place);
    }
    return next.apart.size + next.gone.size > 2 * APART ? undefined : next;
  }

  /** The marks with a box that touches the rectangle, in drawing order. */
  #search(index: BoxIndex, boxOf: BoxOf, rect: SheetRect): ScreenMark[] {
    const found = index.search(rect).filter((mark) => !this.#gone.has(mark));
    for (const mark of this.#apart.keys()) {
      const box = boxOf(mark);
      if (isSomewhere(box) && box.x0 <= rect.x1 && box.x1 >= rect.x0 && box.y0 <= rect.y1 && box.y1 >= rect.y0)
        found.push(mark);
    }
    return found.sort((a, b) => this.#placeOf(a) - this.#placeOf(b));
  }

  /** The marks whose pictures touch the rectangle, in drawing order. */
  inView(rect: SheetRect): ScreenMark[] {
    return this.#search(this.#pictures, pictureBox, rect);
  }

  /** The marks whose hit shape is no farther than `reach` (inclusive), nearest first, at equal distance the topmost first. */
  near(at: Point2, reach: number): NearMark[] {
    const around = { x0: at[0] - reach, y0: at[1] - reach, x1: at[0] + reach, y1: at[1] + reach };
    return this.#search(this.#shapes, shapeBox, around)
      .map((mark, i) => ({ i, mark, distance: shapeDistance(mark.hit!, at) }))
      .filter(({ distance }) => distance <= reach)
      .sort((a, b) => a.distance - b.distance || b.i - a.i)
      .map(({ mark, distance }) => ({ mark, distance }));
  }

  /** The marks whose hit shape touches the rectangle, in drawing order. */
  touching(rect: SheetRect): ScreenMark[] {
    return this.#search(this.#shapes, shapeBox, rect).filter((mark) => shapeTouches(mark.hit!, rect));
  }
}

/** Boxes of pictures seen before; pictures are never changed, so they stay right. */
const boxes = new WeakMap<Picture, SheetRect>();

/** A rectangle that holds the picture, generous about text. An empty picture lies nowhere. */
export function pictureBounds(picture: Picture): SheetRect {
  const known = boxes.get(picture);
  if (known) return known;
  const box = measured(picture);
  boxes.set(picture, box);
  return box;
}

/** A rectangle that holds a mark: its picture, and the shape its halo follows. */
export function markBounds({ picture, hit }: ScreenMark): SheetRect {
  const a = pictureBounds(picture);
  if (!hit) return a;
  const b = shapeBounds(hit);
  return { x0: Math.min(a.x0, b.x0), y0: Math.min(a.y0, b.y0), x1: Math.max(a.x1, b.x1), y1: Math.max(a.y1, b.y1) };
}

function measured(picture: Picture): SheetRect {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  const take = (x: number, y: number, around: number) => {
    x0 = Math.min(x0, x - around);
    y0 = Math.min(y0, y - around);
    x1 = Math.max(x1, x + around);
    y1 = Math.max(y1, y + around);
  };
  for (const item of picture) {
    if (item.type === "text") {
      // No face sets a sign wider than 0.9 em on average over a line of more than a few signs.
      const long = item.size * (0.9 * item.text.length + 1);
      const back = item.align === "start" ? 0 : item.align === "middle" ? long / 2 : long;
      const [c, s] = [Math.cos(item.angle), Math.sin(item.angle)];
      take(item.at[0] - c * back, item.at[1] - s * back, item.size);
      take(item.at[0] + c * (long - back), item.at[1] + s * (long - back), item.size);
      continue;
    }
    const half = item.stroke ? (item.width ?? 1) / 2 : 0;
    for (const step of item.steps)
      for (let i = 1; i + 1 < step.length; i += 2) take(step[i] as number, step[i + 1] as number, half);
  }
  return { x0, y0, x1, y1 };
}

const pointsOf = (shape: HitShape): readonly Point2[] =>
  shape.kind === "line" ? shape.points : shape.kind === "area" ? shape.outline : [shape.at];

const shapeBounds = (shape: HitShape): SheetRect => {
  const around = shape.kind === "spot" ? shape.radius : 0;
  const points = pointsOf(shape);
  const xs = points.map((p) => p[0]);
  const ys = points.map((p) => p[1]);
  return {
    x0: Math.min(...xs) - around,
    y0: Math.min(...ys) - around,
    x1: Math.max(...xs) + around,
    y1: Math.max(...ys) + around,
  };
};

const pictureBox: BoxOf = (mark) => pictureBounds(mark.picture);
const shapeBox: BoxOf = (mark) => mark.hit && shapeBounds(mark.hit);

/** Distance from a point to a hit shape: to the line, 0 inside the area or the spot, else to its edge. Sheet units. */
export function shapeDistance(shape: HitShape, at: Point2): number {
  if (shape.kind === "spot") return Math.max(0, Math.hypot(at[0] - shape.at[0], at[1] - shape.at[1]) - shape.radius);
  if (shape.kind === "area") return isInside(shape.outline, at) ? 0 : lineDistance(shape.outline, at, true);
  return lineDistance(shape.points, at, false);
}

const lineDistance = (points: readonly Point2[], at: Point2, closed: boolean): number => {
  let least = points.length === 1 ? Math.hypot(at[0] - points[0]![0], at[1] - points[0]![1]) : Infinity;
  for (let i = closed ? 0 : 1; i < points.length; i++) {
    least = Math.min(least, segmentDistance(points.at(i - 1)!, points[i]!, at));
  }
  return least;
};

const segmentDistance = (a: Point2, b: Point2, p: Point2): number => {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const long = dx * dx + dy * dy;
  const t = long > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / long)) : 0;
  return Math.hypot(p[0] - a[0] - t * dx, p[1] - a[1] - t * dy);
};

/** Even-odd: a point on the edge may fall on either side. */
const isInside = (outline: readonly Point2[], [x, y]: Point2): boolean => {
  let inside = false;
  for (let i = 0; i < outline.length; i++) {
    const a = outline.at(i - 1)!;
    const b = outline[i]!;
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  }
  return inside;
};

const shapeTouches = (shape: HitShape, rect: SheetRect): boolean => {
  if (shape.kind === "spot") {
    const x = Math.min(Math.max(shape.at[0], rect.x0), rect.x1);
    const y = Math.min(Math.max(shape.at[1], rect.y0), rect.y1);
    return Math.hypot(shape.at[0] - x, shape.at[1] - y) <= shape.radius;
  }
  const points = pointsOf(shape);
  if (points.some(([x, y]) => x >= rect.x0 && x <= rect.x1 && y >= rect.y0 && y <= rect.y1)) return true;
  for (let i = shape.kind === "area" ? 0 : 1; i < points.length; i++) {
    if (segmentTouches(points.at(i - 1)!, points[i]!, rect)) return true;
  }
  return shape.kind === "area" && isInside(shape.outline, [rect.x0, rect.y0]);
};

/** Whether a segment and a rectangle have a point in common: the segment is cut by each side in turn. */
const segmentTouches = (a: Point2, b: Point2, rect: SheetRect): boolean => {
  let [from, to] = [0, 1];
  for (const [start, end, low, high] of [
    [a[0], b[0], rect.x0, rect.x1],
    [a[1], b[1], rect.y0, rect.y1],
  ] as const) {
    const along = end - start;
    if (along === 0) {
      if (start < low || start > high) return false;
      continue;
    }
    const [t0, t1] = [(low - start) / along, (high - start) / along];
    from = Math.max(from, Math.min(t0, t1));
    to = Math.min(to, Math.max(t0, t1));
    if (from > to) return false;
  }
  return true;
};
