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
  const middle = list.map(({ min, max }) => [min[0] + max[0], min[1] + max[1]] as const);
  let next = 0;
  const build = (members: readonly number[]): void => {
    const node = next++;
    const at = node * BOX_STRIDE;
    for (let k = 0; k < 3; k++) {
      boxes[at + k] = members.reduce((least, i) => Math.min(least, list[i]!.min[k]!), Number.POSITIVE_INFINITY);
      boxes[at + 3 + k] = members.reduce((most, i) => Math.max(most, list[i]!.max[k]!), Number.NEGATIVE_INFINITY);
    }
    if (members.length === 1) item[node] = members[0]!;
    else for (const part of parted(members, middle, FAN_OUT)) build(part);
    skip[node] = next;
  };
  if (list.length > 0) build(list.map((_, i) => i));
  return {
    boxes: boxes.slice(0, next * BOX_STRIDE),
    skip: skip.slice(0, next),
    item: item.slice(0, next),
  };
}

/** Members in up to `parts` groups of nearly equal size, near each other in plan. */
function parted(
  members: readonly number[],
  middle: readonly (readonly [number, number])[],
  parts: number,
): readonly (readonly number[])[] {
  if (parts < 2 || members.length < 2) return [members];
  const extent = [0, 1].map((axis) => {
    const values = members.map((i) => middle[i]![axis as 0 | 1]);
    return values.reduce((a, b) => Math.max(a, b)) - values.reduce((a, b) => Math.min(a, b));
  });
  const axis = extent[0]! >= extent[1]! ? 0 : 1;
  const sorted = [...members].sort((i, j) => middle[i]![axis] - middle[j]![axis] || i - j);
  const half = sorted.length >> 1;
  return [...parted(sorted.slice(0, half), middle, parts / 2), ...parted(sorted.slice(half), middle, parts / 2)];
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

/** 1 for every leaf inside whose box, seen in plan, no other leaf's box has a point: bays side by side, with nothing over or under them. */
export function leavesAlone({ boxes, skip, item }: BoxTree): Uint8Array {
  const alone = new Uint8Array(item.length);
  for (let leaf = 0; leaf < item.length; leaf++) {
    if (item[leaf]! < 0) continue;
    const own = leaf * BOX_STRIDE;
    alone[leaf] = 1;
    for (let node = 0; node < skip.length; ) {
      const at = node * BOX_STRIDE;
      const meets =
        boxes[at]! < boxes[own + 3]! &&
        boxes[at + 3]! > boxes[own]! &&
        boxes[at + 1]! < boxes[own + 4]! &&
        boxes[at + 4]! > boxes[own + 1]!;
      if (!meets) {
        node = skip[node]!;
        continue;
      }
      if (item[node]! >= 0 && node !== leaf) {
        alone[leaf] = 0;
        break;
      }
      node++;
    }
  }
  return alone;
}

/** The leaf reached by always going on to the nearest child: a good first guess at what is nearest to a box; -1 when empty. */
export function likelyLeaf({ boxes, skip, item }: BoxTree, around: Float64Array): number {
  if (item.length === 0) return -1;
  let node = 0;
  while (item[node]! < 0) {
    let nearest = node + 1;
    let least = Number.POSITIVE_INFINITY;
    for (let child = node + 1; child < skip[node]!; child = skip[child]!) {
      const at = child * BOX_STRIDE;
      let gap = 0;
      for (let k = 0; k < 3; k++) {
        const apart = Math.max(0, boxes[at + k]! - around[k + 3]!, around[k]! - boxes[at + k + 3]!);
        gap += apart * apart;
      }
      if (gap >= least) continue;
      least = gap;
      nearest = child;
    }
    node = nearest;
  }
  return node;
}
