import type { Box3 } from "./solid.ts";

/** Numbers a tree keeps for each node's box: least x y z, greatest x y z. */
export const BOX_STRIDE = 6;

/**
 * A static tree of boxes in space, laid out in the order in which it is walked: after node n comes its first child, and
 * `skip[n]` is the next node when n and all below it are left out. So a walk is one loop without a stack or memory:
 *
 * `for (let n = 0; n < skip.length; ) n = wanted(n) ? n + 1 : skip[n]`, where `item[n] >= 0` marks a leaf.
 */
export interface BoxTree {
  /** `BOX_STRIDE` numbers a node. */
  readonly boxes: Float64Array;
  readonly skip: Int32Array;
  /** The position of a leaf's box in the list the tree was made from; -1 for inner nodes. */
  readonly item: Int32Array;
}

/** Children of an inner node at most; measured on a plan of 1,000 faces, 2 to 16 differ little. */
const FAN_OUT = 4;

/** A tree over boxes; each leaf holds one. Nodes are parted at medians, each time along the longer side in plan. */
export function makeBoxTree(list: readonly Box3[]): BoxTree {
  // A tree whose inner nodes have two children or more has fewer than twice as many nodes as leaves.
  const room = 2 * list.length;
  const boxes = new Float64Array(room * BOX_STRIDE);
  const skip = new Int32Array(room);
  const item = new Int32Array(room).fill(-1);
  const middles = [0, 1].map((axis) =>
    Float64Array.from(list, ({ min, max }) => min[axis as 0 | 1] + max[axis as 0 | 1]),
  ) as [Float64Array, Float64Array];
  let next = 0;
  const build = (members: Int32Array): void => {
    const node = next++;
    const at = node * BOX_STRIDE;
    boxes.fill(Number.POSITIVE_INFINITY, at, at + 3);
    boxes.fill(Number.NEGATIVE_INFINITY, at + 3, at + BOX_STRIDE);
    for (const i of members) {
      const { min, max } = list[i]!;
      for (let k = 0; k < 3; k++) {
        boxes[at + k] = Math.min(boxes[at + k]!, min[k]!);
        boxes[at + 3 + k] = Math.max(boxes[at + 3 + k]!, max[k]!);
      }
    }
    if (members.length === 1) item[node] = members[0]!;
    else for (const part of parted(members, middles, FAN_OUT)) build(part);
    skip[node] = next;
  };
  if (list.length > 0) build(Int32Array.from(list, (_, i) => i));
  return {
    boxes: boxes.slice(0, next * BOX_STRIDE),
    skip: skip.slice(0, next),
    item: item.slice(0, next),
  };
}

/** Members in up to `parts` groups of nearly equal size, near each other in plan. The members are put in another order. */
function parted(
  members: Int32Array,
  middles: readonly [Float64Array, Float64Array],
  parts: number,
): readonly Int32Array[] {
  if (parts < 2 || members.length < 2) return [members];
  const along = middles[extent(members, middles[0]) >= extent(members, middles[1]) ? 0 : 1];
  members.sort((i, j) => along[i]! - along[j]! || i - j);
  const half = members.length >> 1;
  const [low, high] = [members.subarray(0, half), members.subarray(half)];
  return [...parted(low, middles, parts / 2), ...parted(high, middles, parts / 2)];
}

/** How far the middles of members lie apart along one axis. */
function extent(members: Int32Array, middles: Float64Array): number {
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (const i of members) {
    low = Math.min(low, middles[i]!);
    high = Math.max(high, middles[i]!);
  }
  return high - low;
}

/** Whether a node's box and the box `around` (least x y z, greatest x y z) have a point in common in plan. */
export function meetsInPlan(boxes: Float64Array, node: number, around: Float64Array): boolean {
  const at = node * BOX_STRIDE;
  return (
    boxes[at]! <= around[3]! &&
    boxes[at + 3]! >= around[0]! &&
    boxes[at + 1]! <= around[4]! &&
    boxes[at + 4]! >= around[1]!
  );
}

/**
 * 1 for every node inside whose box, seen in plan, no leaf of another part of the tree has a point: a bay side by side with others, or a block of such
 * bays, with nothing but its own over or under it. What lies well inside such a box is near to nothing outside it. The whole tree is always one.
 */
export function nodesAlone({ boxes, skip, item }: BoxTree): Uint8Array {
  const alone = new Uint8Array(item.length);
  for (let own = 0; own < item.length; own++) {
    const o = own * BOX_STRIDE;
    alone[own] = 1;
    for (let node = 0; node < skip.length; ) {
      const at = node * BOX_STRIDE;
      const meets =
        boxes[at]! < boxes[o + 3]! &&
        boxes[at + 3]! > boxes[o]! &&
        boxes[at + 1]! < boxes[o + 4]! &&
        boxes[at + 4]! > boxes[o + 1]!;
      if (!meets || node === own) {
        node = skip[node]!;
        continue;
      }
      if (item[node]! >= 0) {
        alone[own] = 0;
        break;
      }
      node++;
    }
  }
  return alone;
}

/** For every node the one it is a child of; -1 for the first. */
export function parentsOf({ skip, item }: BoxTree): Int32Array {
  const parents = new Int32Array(item.length).fill(-1);
  for (let node = 0; node < item.length; node++) {
    if (item[node]! >= 0) continue;
    for (let child = node + 1; child < skip[node]!; child = skip[child]!) parents[child] = node;
  }
  return parents;
}

/** The leaf of a part of the tree that is reached by always going on to the child nearest in plan: a good first guess at what is nearest to a box. */
export function likelyLeaf({ boxes, skip, item }: BoxTree, from: number, around: Float64Array): number {
  const x0 = around[0]!;
  const y0 = around[1]!;
  const x1 = around[3]!;
  const y1 = around[4]!;
  let node = from;
  while (item[node]! < 0) {
    let nearest = node + 1;
    let least = Number.POSITIVE_INFINITY;
    for (let child = node + 1; child < skip[node]!; child = skip[child]!) {
      const at = child * BOX_STRIDE;
      const gapX = Math.max(0, Math.max(boxes[at]! - x1, x0 - boxes[at + 3]!));
      const gapY = Math.max(0, Math.max(boxes[at + 1]! - y1, y0 - boxes[at + 4]!));
      const gap = gapX + gapY;
      if (gap >= least) continue;
      least = gap;
      nearest = child;
      if (gap === 0) break;
    }
    node = nearest;
  }
  return node;
}
