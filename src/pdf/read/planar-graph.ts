import type { Point2 } from "../../geometry/point.ts";
import type { Linework } from "./linework.ts";

/**
 * Lines parted where they meet, as nodes and the edges between them; every pair of nodes is joined once. A segment is parted when it is
 * first come upon, so that walking round one face of a page looks at what bounds that face and at nothing else. Sheet space.
 */
export interface PlanarGraph {
  /** The edge of a segment at a part of its length, from one node to the next in the segment's own direction; undefined where touching ends leave none. */
  edgeAt(segment: number, part: number): readonly [number, number] | undefined;
  /** The nodes a segment comes by in turn. */
  nodesOf(segment: number): readonly number[];
  /** Whether an edge has been walked in this direction. */
  walked(from: number, to: number): boolean;
  /** The nodes round the face at the left of an edge, from the first on; dangling ends are walked forth and back. Undefined when the work has become too much. */
  walk(from: number, to: number): readonly number[] | undefined;
  placeOf(node: number): Point2;
  /** The segment an edge comes from. */
  sourceOf(from: number, to: number): number;
  /** Whether so much has been looked at that no further answer is given. */
  spent(): boolean;
}

/** A search of the page counts as much as meeting so many lines. */
const SEARCH = 15;
/** Up to so many cuts are sorted by putting each in its place. */
const MOST_INSERTED = 24;

/**
 * The graph of the segments that are `wanted`; ends within `touch` of each other or of a line are taken to touch. Every search,
 * every segment met and every step counts; after `most` the graph is spent.
 */
export function planarGraph(
  linework: Linework,
  wanted: (segment: number) => boolean,
  touch: number,
  most: number,
): PlanarGraph {
  const { coords, index, count } = linework;
  const nodes = nodeTable(touch);
  const rows = new Map<number, readonly number[]>();
  // By node the segments that come by and where in their row of nodes it stands: as a chain of links, the last one first.
  const lastLink: number[] = [];
  const links = { segment: [] as number[], place: [] as number[], before: [] as number[] };
  const whole: boolean[] = [];
  // By node the nodes that have been walked to from it, as such a chain too.
  const lastWay: number[] = [];
  const ways = { to: [] as number[], before: [] as number[] };
  let looked = 0;

  // The cuts of the segment in hand: the parts of its length, and the nodes there.
  const cutAt: number[] = [];
  const cutNode: number[] = [];
  let cuts = 0;
  const cut = (t: number, node: number): void => {
    cutAt[cuts] = t;
    cutNode[cuts++] = node;
  };
  const sortCuts = (): void => {
    if (cuts > MOST_INSERTED) {
      const order = Uint32Array.from({ length: cuts }, (_, i) => i).sort((a, b) => cutAt[a]! - cutAt[b]! || a - b);
      const [parts, nodesThere] = [cutAt.slice(0, cuts), cutNode.slice(0, cuts)];
      for (let i = 0; i < cuts; i++) {
        cutAt[i] = parts[order[i]!]!;
        cutNode[i] = nodesThere[order[i]!]!;
      }
      return;
    }
    for (let i = 1; i < cuts; i++) {
      const [t, node] = [cutAt[i]!, cutNode[i]!];
      let to = i;
      for (; to > 0 && cutAt[to - 1]! > t; to--) {
        cutAt[to] = cutAt[to - 1]!;
        cutNode[to] = cutNode[to - 1]!;
      }
      cutAt[to] = t;
      cutNode[to] = node;
    }
  };
  const rowOf = (segment: number): readonly number[] => {
    const known = rows.get(segment);
    if (known) return known;
    const at = 4 * segment;
    const ax = coords[at]!;
    const ay = coords[at + 1]!;
    const bx = coords[at + 2]!;
    const by = coords[at + 3]!;
    const dx = bx - ax;
    const dy = by - ay;
    const square = dx * dx + dy * dy;
    const reach = touch * Math.sqrt(square);
    cuts = 0;
    looked += SEARCH;
    cut(0, nodes.at(ax, ay));
    cut(1, nodes.at(bx, by));
    /** The end of another line, where it lies on this one. */
    const touching = (x: number, y: number): void => {
      const along = (x - ax) * dx + (y - ay) * dy;
      if (along > 0 && along < square && Math.abs((x - ax) * dy - (y - ay) * dx) <= reach)
        cut(along / square, nodes.at(x, y));
    };
    const look = (other: number): boolean => {
      if (other >= count || other === segment || !wanted(other)) return false;
      looked++;
      const to = 4 * other;
      const px = coords[to]!;
      const py = coords[to + 1]!;
      const qx = coords[to + 2]!;
      const qy = coords[to + 3]!;
      touching(px, py);
      touching(qx, qy);
      const ex = qx - px;
      const ey = qy - py;
      const cross = dx * ey - dy * ex;
      // A sine of less than a thousandth: they run along each other.
      if (cross * cross <= 1e-6 * square * (ex * ex + ey * ey)) return false;
      const here = ((px - ax) * ey - (py - ay) * ex) / cross;
      const there = ((px - ax) * dy - (py - ay) * dx) / cross;
      if (here < 0 || here > 1 || there < 0 || there > 1) return false;
      // Asked from the lower number, so that both get the same place.
      cut(
        here,
        segment < other ? nodes.at(ax + dx * here, ay + dy * here) : nodes.at(px + ex * there, py + ey * there),
      );
      return false;
    };
    index.search(
      Math.min(ax, bx) - touch,
      Math.min(ay, by) - touch,
      Math.max(ax, bx) + touch,
      Math.max(ay, by) + touch,
      look,
    );
    sortCuts();
    const row: number[] = [];
    for (let i = 0; i < cuts; i++) {
      const node = cutNode[i]!;
      if (row[row.length - 1] === node) continue;
      const link = links.segment.length;
      links.segment[link] = segment;
      links.place[link] = row.length;
      links.before[link] = lastLink[node] ?? -1;
      lastLink[node] = link;
      row[row.length] = node;
    }
    rows.set(segment, row);
    return row;
  };

  /** Parts whatever comes by a node, so that all edges that leave it are known. */
  const makeWhole = (node: number): void => {
    if (whole[node]) return;
    whole[node] = true;
    looked += SEARCH;
    const x = nodes.x[node]!;
    const y = nodes.y[node]!;
    // Whatever comes by lies within reach, but for rounding.
    const reach = 1.001 * touch;
    index.search(x - reach, y - reach, x + reach, y + reach, (segment) => {
      if (segment < count && wanted(segment)) rowOf(segment);
      return false;
    });
  };

  /** With the face at the left: at a node come to from another, the node that lies next clockwise from the way back. */
  const nextFrom = (from: number, node: number): number => {
    makeWhole(node);
    const x = nodes.x[node]!;
    const y = nodes.y[node]!;
    const backX = nodes.x[from]! - x;
    const backY = nodes.y[from]! - y;
    let best = from;
    let least = Number.POSITIVE_INFINITY;
    for (let link = lastLink[node] ?? -1; link >= 0; link = links.before[link]!) {
      const row = rows.get(links.segment[link]!)!;
      for (let side = -1; side <= 1; side += 2) {
        const to = row[links.place[link]! + side];
        if (to === undefined || to === from || to === best) continue;
        const turn = clockwise(backX, backY, nodes.x[to]! - x, nodes.y[to]! - y);
        if (turn >= least) continue;
        best = to;
        least = turn;
      }
    }
    return best;
  };

  return {
    edgeAt(segment, part) {
      const row = rowOf(segment);
      const at = 4 * segment;
      const dx = coords[at + 2]! - coords[at]!;
      const dy = coords[at + 3]! - coords[at + 1]!;
      const along = part * (dx * dx + dy * dy);
      const before = (node: number): boolean =>
        (nodes.x[node]! - coords[at]!) * dx + (nodes.y[node]! - coords[at + 1]!) * dy <= along;
      let i = 1;
      while (i < row.length - 1 && before(row[i]!)) i++;
      return row.length < 2 ? undefined : [row[i - 1]!, row[i]!];
    },
    nodesOf: rowOf,
    walked(from, to) {
      let way = lastWay[from] ?? -1;
      while (way >= 0 && ways.to[way] !== to) way = ways.before[way]!;
      return way >= 0;
    },
    walk(from, to) {
      const loop: number[] = [];
      let here = from;
      let next = to;
      do {
        if (looked > most) return undefined;
        looked++;
        const way = ways.to.length;
        ways.to[way] = next;
        ways.before[way] = lastWay[here] ?? -1;
        lastWay[here] = way;
        loop[loop.length] = here;
        const onward = nextFrom(here, next);
        here = next;
        next = onward;
      } while (here !== from || next !== to);
      return loop;
    },
    placeOf: (node) => [nodes.x[node]!, nodes.y[node]!],
    sourceOf(from, to) {
      for (let link = lastLink[from]!; ; link = links.before[link]!) {
        const row = rows.get(links.segment[link]!)!;
        const place = links.place[link]!;
        if (row[place - 1] === to || row[place + 1] === to) return links.segment[link]!;
      }
    },
    spent: () => looked > most,
  };
}

/** How far one direction lies clockwise from another, as a number from 0 (the same) to 4 that grows with the angle; the same one counts as 4. */
function clockwise(ax: number, ay: number, bx: number, by: number): number {
  const cross = ax * by - ay * bx;
  const dot = ax * bx + ay * by;
  const share = Math.abs(dot) / (Math.abs(dot) + Math.abs(cross));
  if (cross < 0) return dot >= 0 ? 1 - share : 1 + share;
  if (cross > 0 || dot < 0) return dot < 0 ? 3 - share : 3 + share;
  return 4;
}

/** Parts a row of nodes at those it comes by twice; what it only runs forth and back along has no area and is dropped. */
export function simpleLoops(loop: readonly number[]): number[][] {
  const done: number[][] = [];
  const open: number[] = [];
  const place = new Map<number, number>();
  for (const node of loop) {
    const before = place.get(node);
    if (before !== undefined) {
      const part = open.splice(before);
      for (const each of part) place.delete(each);
      if (part.length > 2) done.push(part);
    }
    place.set(node, open.length);
    open.push(node);
  }
  if (open.length > 2) done.push(open);
  return done;
}

interface Nodes {
  readonly x: number[];
  readonly y: number[];
  /** The node at a place, a known one within reach or a new one. */
  at(x: number, y: number): number;
}

/** Chains of nodes that cells of the plan share. */
const CHAINS = 2 ** 14;

function nodeTable(touch: number): Nodes {
  const nodes = { x: [] as number[], y: [] as number[] };
  // The nodes of a chain: the last one, and before each the one before it.
  const last = new Int32Array(CHAINS).fill(-1);
  const before: number[] = [];
  // Cells wider than the reach: mostly all that lies within reach of a place is in its own.
  const cell = 8 * touch;
  const chainOf = (column: number, row: number): number =>
    (Math.imul(column, 0x9e3779b1) ^ Math.imul(row, 0x85ebca6b)) >>> 18;
  return {
    ...nodes,
    at(x, y) {
      let best = -1;
      let least = touch * touch;
      const right = Math.floor((x + touch) / cell);
      const top = Math.floor((y + touch) / cell);
      for (let column = Math.floor((x - touch) / cell); column <= right; column++) {
        for (let row = Math.floor((y - touch) / cell); row <= top; row++) {
          for (let node = last[chainOf(column, row)]!; node >= 0; node = before[node]!) {
            const dx = nodes.x[node]! - x;
            const dy = nodes.y[node]! - y;
            const apart = dx * dx + dy * dy;
            if (apart > least) continue;
            best = node;
            least = apart;
          }
        }
      }
      if (best >= 0) return best;
      const own = chainOf(Math.floor(x / cell), Math.floor(y / cell));
      const node = nodes.x.length;
      before[node] = last[own]!;
      last[own] = node;
      nodes.x[node] = x;
      nodes.y[node] = y;
      return node;
    },
  };
}
