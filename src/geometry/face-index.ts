import type { Inches } from "../units/quantity.ts";
import { boxToFace } from "./box-clearance.ts";
import { BOX_STRIDE, likelyLeaf, makeBoxTree, meetsInPlan, nodesAlone, parentsOf } from "./box-tree.ts";
import { segmentToFace } from "./clearance.ts";
import { FACE_NUMBERS, type Face, faceTable } from "./face.ts";
import { sortFew } from "./interval-set.ts";
import type { Point3 } from "./point.ts";
import { assertFinite, ENDS_STRIDE, leastSquaredIn, type Nearest, readFound, setEnds } from "./segment-face.ts";
import { type Box3, boxOfCapsule, boxOfOrientedBox, type Capsule, type OrientedBox } from "./solid.ts";

/** The nearest of many faces: its number in the list the index was made from, and the distance to it. */
export interface NearestFace extends Nearest {
  readonly face: number;
}

/** Finds faces by place. The number of a face is its position in `faces`. */
export interface FaceIndex {
  readonly faces: readonly Face[];
  /**
   * Numbers, in rising order, of all faces whose box comes within `reach` of the box along the axes that is given or
   * that holds the capsule: every face that is within reach, and some that are not.
   */
  query(what: Box3 | Capsule, reach: Inches): number[];
  /**
   * The nearest of all faces that `accept` admits to the axis p-q, however far; undefined when there is none. Of
   * several equally near, the one with the lowest number.
   */
  nearestToSegment(p: Point3, q: Point3, accept?: (face: number) => boolean): NearestFace | undefined;
  /** The same for a box. */
  nearestToBox(box: OrientedBox, accept?: (face: number) => boolean): NearestFace | undefined;
  /** The number of the nearest face to anything else, by the box along the axes that holds it and its distance to a face. */
  nearestBy(held: Box3, distance: (face: Face) => number, accept?: (face: number) => boolean): number | undefined;
}

/** Boxes and distances are rounded apart: the search goes this much farther than the best distance so far. */
const SLACK = 1 + 1e-9;
const MARGIN = 1e-9;

/** So many hits are no longer few to sort. */
const MANY_HITS = 32;

/** An index over faces that do not change; faces without corners are never found. */
export function makeFaceIndex(faces: readonly Face[]): FaceIndex {
  const usable = faces.map((_, number) => number).filter((number) => faces[number]!.edges.length > 0);
  const tree = makeBoxTree(usable.map((number) => faces[number]!.box));
  const { boxes, skip, item } = tree;
  const alone = nodesAlone(tree);
  const parents = parentsOf(tree);
  const table = faceTable(faces);
  // Where the last search ended is where the next is likely to: only a start for it, never a part of its answer.
  let last = -1;
  // The box round what the search is for: numbers in an array are passed on without being stored one by one.
  const around = new Float64Array(BOX_STRIDE);
  // The segment a search is for, and whose answer with which square `leastSquared` last left to be read, so that it need not be asked again.
  const ends = new Float64Array(ENDS_STRIDE);
  let holder = -1;
  let held = 0;
  const toSegment = (number: number, bound: number): number => {
    const square = leastSquaredIn(table, number * FACE_NUMBERS, faces[number]!, ends, 0, bound);
    if (square < bound) {
      holder = number;
      held = square;
    }
    return square;
  };

  return {
    faces,
    query(what, reach) {
      const { min, max } = "radius" in what ? boxOfCapsule(what) : what;
      const [x0, y0, z0] = min;
      const [x1, y1, z1] = max;
      around.set(min);
      around.set(max, 3);
      const top = blockAround(reach);
      const end = skip.length === 0 ? 0 : skip[top]!;
      const hits: number[] = [];
      for (let node = top; node < end; ) {
        const at = node * BOX_STRIDE;
        if (
          boxes[at]! - reach > x1 ||
          boxes[at + 3]! + reach < x0 ||
          boxes[at + 1]! - reach > y1 ||
          boxes[at + 4]! + reach < y0 ||
          boxes[at + 2]! - reach > z1 ||
          boxes[at + 5]! + reach < z0
        ) {
          node = skip[node]!;
          continue;
        }
        const position = item[node++]!;
        if (position < 0) continue;
        hits.push(usable[position]!);
        last = node - 1;
      }
      if (hits.length < MANY_HITS) sortFew(hits);
      else hits.sort((a, b) => a - b);
      return hits;
    },

    nearestToSegment(p, q, accept) {
      assertFinite(p, q);
      around[0] = Math.min(p[0], q[0]);
      around[1] = Math.min(p[1], q[1]);
      around[2] = Math.min(p[2], q[2]);
      around[3] = Math.max(p[0], q[0]);
      around[4] = Math.max(p[1], q[1]);
      around[5] = Math.max(p[2], q[2]);
      setEnds(ends, p, q);
      holder = -1;
      const face = nearest(accept, toSegment);
      if (face < 0) return undefined;
      const nearestOf = faces[face]!;
      const { distance, onElement, onFace, t } =
        holder === face ? readFound(held, p, q, nearestOf) : segmentToFace(p, q, nearestOf);
      return { face, distance, onElement, onFace, t };
    },

    nearestToBox(box, accept) {
      const { min, max } = boxOfOrientedBox(box);
      around.set(min);
      around.set(max, 3);
      const face = nearest(accept, (number) => boxToFace(box, faces[number]!).distance ** 2);
      return face < 0 ? undefined : { face, ...boxToFace(box, faces[face]!) };
    },

    nearestBy({ min, max }, distance, accept) {
      around.set(min);
      around.set(max, 3);
      const face = nearest(accept, (number) => distance(faces[number]!) ** 2);
      return face < 0 ? undefined : face;
    },
  };

  /**
   * The node of the smallest part of the tree, from the last answer up, outside of which nothing lies within `reach` of the box `around` in plan: most wiring
   * hangs well inside one bay, or a few of one block, and goes on where it was.
   */
  function blockAround(reach: number): number {
    if (last < 0) return 0;
    const x0 = around[0]! - reach;
    const y0 = around[1]! - reach;
    const x1 = around[3]! + reach;
    const y1 = around[4]! + reach;
    let node = last;
    while (node > 0) {
      const at = node * BOX_STRIDE;
      const inside = x0 > boxes[at]! && y0 > boxes[at + 1]! && x1 < boxes[at + 3]! && y1 < boxes[at + 4]!;
      if (inside && alone[node] === 1) break;
      node = parents[node]!;
    }
    return node;
  }

  /**
   * The number of the face with the least squared distance to what lies in the box `around`, the lowest of several; -1 when none is accepted. `measure`
   * may answer anything not below `bound` for a face that is not nearer than that.
   */
  function nearest(
    accept: ((face: number) => boolean) | undefined,
    measure: (number: number, bound: number) => number,
  ): number {
    const x0 = around[0]!;
    const y0 = around[1]!;
    const z0 = around[2]!;
    const x1 = around[3]!;
    const y1 = around[4]!;
    const z1 = around[5]!;
    let least = Number.POSITIVE_INFINITY;
    let best = -1;
    // A good first guess leaves out almost everything else: the last answer if it is at hand, else the likely leaf.
    if (skip.length === 0) return -1;
    const guess = last >= 0 && meetsInPlan(boxes, last, around) ? last : likelyLeaf(tree, blockAround(0), around);
    const guessed = usable[item[guess]!]!;
    if (!accept || accept(guessed)) {
      least = measure(guessed, least);
      best = guessed;
    }
    let reach = Math.sqrt(least) * SLACK + MARGIN;
    last = guess;
    const top = blockAround(reach);
    const end = skip[top]!;
    for (let node = top; node < end; ) {
      // Written out here, not called: a call would store each number on its way, which costs more than the comparison.
      const at = node * BOX_STRIDE;
      if (
        boxes[at]! - reach > x1 ||
        boxes[at + 3]! + reach < x0 ||
        boxes[at + 1]! - reach > y1 ||
        boxes[at + 4]! + reach < y0 ||
        boxes[at + 2]! - reach > z1 ||
        boxes[at + 5]! + reach < z0
      ) {
        node = skip[node]!;
        continue;
      }
      const position = item[node++]!;
      if (position < 0) continue;
      const number = usable[position]!;
      if (number === best || (accept && !accept(number))) continue;
      // A little above the best, so that an equally near face is measured too and the lowest number wins.
      const square = measure(number, least * SLACK + Number.MIN_VALUE);
      if (square > least || (square === least && number > best)) continue;
      least = square;
      best = number;
      last = node - 1;
      reach = Math.sqrt(square) * SLACK + MARGIN;
    }
    return best;
  }
}
