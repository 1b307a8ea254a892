import Flatbush from "flatbush";
import { type Inches, inches } from "../units/quantity.ts";
import { boxToFace } from "./box-clearance.ts";
import type { Face } from "./face.ts";
import type { Point3 } from "./point.ts";
import { leastSquared, type Nearest, readFound } from "./segment-face.ts";
import { type Box3, boxOfCapsule, boxOfOrientedBox, type Capsule, type OrientedBox } from "./solid.ts";

/** The nearest of many faces: its number in the list the index was made from, and the distance to it. */
export interface NearestFace extends Nearest {
  readonly face: number;
}

/** Finds faces by place. The number of a face is its position in `faces`. */
export interface FaceIndex {
  readonly faces: readonly Face[];
  /**
   * Numbers, in rising order, of all faces whose box comes within `reach` of the box along the axes that holds the
   * capsule or is given: every face that is within reach, and some that are not.
   */
  query(what: Box3 | Capsule, reach: Inches): number[];
  /**
   * The nearest of all faces that `accept` admits to the axis p-q, however far; undefined when there is none. Of
   * several equally near, any.
   */
  nearestToSegment(p: Point3, q: Point3, accept?: (face: number) => boolean): NearestFace | undefined;
  /** The same for a box. */
  nearestToBox(box: OrientedBox, accept?: (face: number) => boolean): NearestFace | undefined;
}

/** First margin of a search for the nearest face, inches: most wiring hangs closer than this below its deck. */
const FIRST_MARGIN = 12;

/** An index over faces that do not change; faces without corners are never found. */
export function makeFaceIndex(faces: readonly Face[]): FaceIndex {
  const usable = faces.map((face, number) => ({ face, number })).filter(({ face }) => face.edges.length > 0);
  const tree = usable.length > 0 ? new Flatbush(usable.length) : undefined;
  for (const { face } of usable) tree?.add(face.box.min[0], face.box.min[1], face.box.max[0], face.box.max[1]);
  tree?.finish();
  const everything = tree ? Math.hypot(tree.maxX - tree.minX, tree.maxY - tree.minY) : 0;

  /** Positions in `usable` of the faces whose plan box comes within margin of the box. */
  const near = (box: Box3, margin: number): number[] =>
    tree ? tree.search(box.min[0] - margin, box.min[1] - margin, box.max[0] + margin, box.max[1] + margin) : [];

  /**
   * Looks at faces in growing rings until none outside the ring can be nearer. `measure` tries one face against the
   * best squared distance so far and returns the new best.
   */
  const search = (box: Box3, measure: (position: number, bound: number) => number): void => {
    let bound = Number.POSITIVE_INFINITY;
    let seen: Set<number> | undefined;
    let margin = FIRST_MARGIN;
    // Grows fourfold each time, so 40 rounds exceed any plan; the last round looks at everything.
    for (let round = 0; round < 40 && tree; round++) {
      const last = margin > everything + distanceInPlan(box, tree) || round === 39;
      const ring = last ? usable.map((_, i) => i) : near(box, margin);
      for (const i of ring) {
        if (seen?.has(i)) continue;
        if (boxGap2(box, usable[i]!.face.box) <= bound) bound = measure(i, bound);
      }
      // A little more than the distance itself, so that rounding cannot leave a nearer face outside.
      const needed = Math.sqrt(bound) * (1 + 1e-12) + 1e-9;
      if (last || needed <= margin) return;
      seen ??= new Set();
      for (const i of ring) seen.add(i);
      margin = Number.isFinite(needed) ? needed * (1 + 1e-9) : margin * 4;
    }
  };

  return {
    faces,
    query(what, reach) {
      const box = "radius" in what ? boxOfCapsule(what) : what;
      const low = box.min[2] - reach;
      const high = box.max[2] + reach;
      const hits: number[] = [];
      for (const i of near(box, reach)) {
        const { face, number } = usable[i]!;
        if (face.box.min[2] <= high && face.box.max[2] >= low) hits.push(number);
      }
      return hits.sort((a, b) => a - b);
    },
    nearestToSegment(p, q, accept) {
      let best: NearestFace | undefined;
      search(boxOfCapsule({ p, q, radius: inches(0) }), (i, bound) => {
        const { face, number } = usable[i]!;
        if (accept && !accept(number)) return bound;
        const [ox, oy, oz] = face.origin;
        const square = leastSquared(face, p[0] - ox, p[1] - oy, p[2] - oz, q[0] - ox, q[1] - oy, q[2] - oz, bound);
        if (square < bound) best = { face: number, ...readFound(square, p, q, face) };
        return square;
      });
      return best;
    },
    nearestToBox(box, accept) {
      let best: NearestFace | undefined;
      search(boxOfOrientedBox(box), (i, bound) => {
        const { face, number } = usable[i]!;
        if (accept && !accept(number)) return bound;
        const nearest = boxToFace(box, face);
        if (best && nearest.distance >= best.distance) return bound;
        best = { face: number, ...nearest };
        return nearest.distance ** 2;
      });
      return best;
    },
  };
}

/** Squared distance between two boxes along the axes, 0 when they meet. */
function boxGap2(a: Box3, b: Box3): number {
  const x = Math.max(0, a.min[0] - b.max[0], b.min[0] - a.max[0]);
  const y = Math.max(0, a.min[1] - b.max[1], b.min[1] - a.max[1]);
  const z = Math.max(0, a.min[2] - b.max[2], b.min[2] - a.max[2]);
  return x * x + y * y + z * z;
}

/** Plan distance from a box to all that the tree holds. */
function distanceInPlan(box: Box3, tree: Flatbush): number {
  const x = Math.max(0, box.min[0] - tree.maxX, tree.minX - box.max[0]);
  const y = Math.max(0, box.min[1] - tree.maxY, tree.minY - box.max[1]);
  return Math.hypot(x, y);
}
