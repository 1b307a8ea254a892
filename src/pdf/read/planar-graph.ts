import Flatbush from "flatbush";
import type { Point2 } from "../../geometry/point.ts";
import { type Ring, signedArea } from "../../geometry/polygon.ts";
import type { Linework } from "./linework.ts";
import { crossingOf, distanceTo, endOf, footOn, pointOn, startOf } from "./segment-geometry.ts";

/** Lines parted where they meet, as directed edges: edge 2 e runs one way, edge 2 e + 1 the other. Dangling ends are taken off. Sheet space. */
export interface PlanarGraph {
  /** From a place to the nearest line, dangling ones included; infinite without lines. */
  distanceTo(at: Point2): number;
  /** Edges that a ray to the right of a place meets, nearest first, each in the direction that has the place at its left. */
  edgesRightOf(at: Point2): readonly number[];
  /** The loop with an edge's left face at its left, the edges it consists of, the segments they come from, and its connected part. */
  loopFrom(edge: number): {
    readonly loop: Ring;
    readonly edges: readonly number[];
    readonly segments: readonly number[];
    readonly part: number;
  };
  /** A loop without the ways it runs forth and back: it may fall into several. */
  simpleLoops(loop: Ring): readonly Ring[];
  /** The loop round the outside of each connected part, clockwise. Where a part is held together at single places, its loop is several. */
  outerLoops(): readonly { readonly loop: Ring; readonly part: number }[];
}

/** The graph of some segments; ends within `touch` of each other or of a line are taken to touch. */
export function planarGraph(linework: Linework, lines: readonly number[], touch: number): PlanarGraph {
  const nodes = nodeTable(touch);
  const { from, to, source } = edgesOf(linework, lines, touch, nodes);
  const alive = withoutDangling(from, to, nodes.points.length);
  const { points } = nodes;

  // Round each node, the edges that leave it, by direction.
  const leaving: number[][] = points.map(() => []);
  const tailOf = (edge: number): number => (edge & 1 ? to[edge >> 1]! : from[edge >> 1]!);
  const headOf = (edge: number): number => (edge & 1 ? from[edge >> 1]! : to[edge >> 1]!);
  const directionOf = (edge: number): number => {
    const [a, b] = [points[tailOf(edge)]!, points[headOf(edge)]!];
    return Math.atan2(b[1] - a[1], b[0] - a[0]);
  };
  for (let e = 0; e < from.length; e++) {
    if (!alive[e]) continue;
    leaving[from[e]!]!.push(2 * e);
    leaving[to[e]!]!.push(2 * e + 1);
  }
  for (const list of leaving) {
    if (list.length < 2) continue;
    const directions = new Map(list.map((edge) => [edge, directionOf(edge)]));
    list.sort((a, b) => directions.get(a)! - directions.get(b)!);
  }
  /** With the face at the left: at the head, the edge next clockwise from the way back. */
  const next = (edge: number): number => {
    const list = leaving[headOf(edge)]!;
    const back = list.indexOf(edge ^ 1);
    return list[(back - 1 + list.length) % list.length]!;
  };
  const edgesFrom = (start: number): number[] => {
    const edges: number[] = [];
    for (let edge = start; edges.length <= 2 * from.length; ) {
      edges.push(edge);
      edge = next(edge);
      if (edge === start) break;
    }
    return edges;
  };
  const parts = connectedParts(from, to, alive, points.length);
  const partOf = (edge: number): number => parts(from[edge >> 1]!);
  const ringOf = (edges: readonly number[]): Ring => edges.map((edge) => points[tailOf(edge)]!);

  return {
    distanceTo: (at) => lines.reduce((least, segment) => Math.min(least, distanceTo(linework, segment, at)), Infinity),
    edgesRightOf([x, y]) {
      const met: { edge: number; x: number }[] = [];
      for (let e = 0; e < from.length; e++) {
        if (!alive[e]) continue;
        const [[ax, ay], [bx, by]] = [points[from[e]!]!, points[to[e]!]!];
        if (ay > y === by > y) continue;
        const at = ax + ((bx - ax) * (y - ay)) / (by - ay);
        // Going up, the place is at its left.
        if (at > x) met.push({ edge: by > ay ? 2 * e : 2 * e + 1, x: at });
      }
      return met.sort((a, b) => a.x - b.x).map(({ edge }) => edge);
    },
    loopFrom(edge) {
      const edges = edgesFrom(edge);
      return {
        edges,
        loop: ringOf(edges),
        part: partOf(edge),
        segments: [...new Set(edges.map((each) => source[each >> 1]!))],
      };
    },
    simpleLoops,
    outerLoops() {
      const seen = new Set<number>();
      const loops: { loop: Ring; part: number }[] = [];
      for (let edge = 0; edge < 2 * from.length; edge++) {
        if (!alive[edge >> 1] || seen.has(edge)) continue;
        const edges = edgesFrom(edge);
        for (const each of edges) seen.add(each);
        const whole = simpleLoops(ringOf(edges));
        // Of the loops of a part only the one round its outside runs clockwise in all.
        if (whole.reduce((sum, loop) => sum + signedArea(loop), 0) >= 0) continue;
        for (const loop of whole) if (signedArea(loop) < 0) loops.push({ loop, part: partOf(edge) });
      }
      return loops;
    },
  };
}

interface Nodes {
  readonly points: Point2[];
  /** The node at a place, a known one within reach or a new one. */
  at(x: number, y: number): number;
}

function nodeTable(touch: number): Nodes {
  const points: Point2[] = [];
  const cells = new Map<number, number[]>();
  // Cells wider than the reach: a known node lies in the cell or in one beside it.
  const cell = 2 * touch;
  const keyOf = (column: number, row: number): number => column * 67_108_864 + row;
  return {
    points,
    at(x, y) {
      const [column, row] = [Math.floor(x / cell), Math.floor(y / cell)];
      let best = -1;
      let least = touch;
      for (let c = column - 1; c <= column + 1; c++) {
        for (let r = row - 1; r <= row + 1; r++) {
          for (const node of cells.get(keyOf(c, r)) ?? []) {
            const apart = Math.hypot(points[node]![0] - x, points[node]![1] - y);
            if (apart <= least) [best, least] = [node, apart];
          }
        }
      }
      if (best >= 0) return best;
      const key = keyOf(column, row);
      const list = cells.get(key);
      if (list) list.push(points.length);
      else cells.set(key, [points.length]);
      return points.push([x, y]) - 1;
    },
  };
}

/** The segments parted at their ends and crossings; each pair of nodes is joined once. */
function edgesOf(linework: Linework, lines: readonly number[], touch: number, nodes: Nodes) {
  const from: number[] = [];
  const to: number[] = [];
  const source: number[] = [];
  if (lines.length === 0) return { from, to, source };
  const tree = new Flatbush(lines.length);
  const ends = lines.map((segment) => [startOf(linework, segment), endOf(linework, segment)] as const);
  for (const [[ax, ay], [bx, by]] of ends)
    tree.add(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by));
  tree.finish();
  const joined = new Set<number>();
  for (const [i, segment] of lines.entries()) {
    const [a, b] = ends[i]!;
    const cuts: { t: number; node: number }[] = [
      { t: 0, node: nodes.at(...a) },
      { t: 1, node: nodes.at(...b) },
    ];
    const near = tree.search(
      Math.min(a[0], b[0]) - touch,
      Math.min(a[1], b[1]) - touch,
      Math.max(a[0], b[0]) + touch,
      Math.max(a[1], b[1]) + touch,
    );
    for (const j of near) {
      if (j === i) continue;
      const other = lines[j]!;
      // Ends of the other on this one, also where they run along each other.
      for (const end of ends[j]!) {
        const t = footOn(linework, segment, end);
        if (t <= 0 || t >= 1) continue;
        const [x, y] = pointOn(linework, segment, t);
        if (Math.hypot(x - end[0], y - end[1]) <= touch) cuts.push({ t, node: nodes.at(...end) });
      }
      const crossing = crossingOf(linework, segment, other, 0);
      if (!crossing) continue;
      // Asked from the lower number, so that both get the same place.
      const at = i < j ? pointOn(linework, segment, crossing.onA) : pointOn(linework, other, crossing.onB);
      cuts.push({ t: crossing.onA, node: nodes.at(...at) });
    }
    cuts.sort((p, q) => p.t - q.t);
    for (let k = 1; k < cuts.length; k++) {
      const [p, q] = [cuts[k - 1]!.node, cuts[k]!.node];
      if (p === q) continue;
      const key = Math.min(p, q) * 16_777_216 + Math.max(p, q);
      if (joined.has(key)) continue;
      joined.add(key);
      from.push(p);
      to.push(q);
      source.push(segment);
    }
  }
  return { from, to, source };
}

/** 1 for every edge that is left when edges with a free end are taken off again and again. */
function withoutDangling(from: readonly number[], to: readonly number[], count: number): Uint8Array {
  const alive = new Uint8Array(from.length).fill(1);
  const at: number[][] = Array.from({ length: count }, () => []);
  for (let e = 0; e < from.length; e++) {
    at[from[e]!]!.push(e);
    at[to[e]!]!.push(e);
  }
  const degree = at.map((list) => list.length);
  const free = degree.flatMap((n, node) => (n === 1 ? [node] : []));
  for (let node = free.pop(); node !== undefined; node = free.pop()) {
    for (const e of at[node]!) {
      if (!alive[e]) continue;
      alive[e] = 0;
      for (const end of [from[e]!, to[e]!]) {
        degree[end]!--;
        if (degree[end] === 1) free.push(end);
      }
    }
  }
  return alive;
}

/** For each node a number that all nodes joined with it share. */
function connectedParts(
  from: readonly number[],
  to: readonly number[],
  alive: Uint8Array,
  count: number,
): (node: number) => number {
  const above = Uint32Array.from({ length: count }, (_, node) => node);
  const top = (node: number): number => {
    let at = node;
    while (above[at] !== at) {
      above[at] = above[above[at]!]!;
      at = above[at]!;
    }
    return at;
  };
  for (let e = 0; e < from.length; e++) if (alive[e]) above[top(from[e]!)] = top(to[e]!);
  return top;
}

/** Parts a loop at the places it comes by twice; what it only runs forth and back along has no area and is dropped. */
function simpleLoops(loop: Ring): Ring[] {
  const done: Ring[] = [];
  const open: Point2[] = [];
  const place = new Map<Point2, number>();
  for (const point of loop) {
    const before = place.get(point);
    if (before !== undefined) {
      const part = open.splice(before);
      for (const each of part) place.delete(each);
      if (part.length > 2) done.push(part);
    }
    place.set(point, open.length);
    open.push(point);
  }
  if (open.length > 2) done.push(open);
  return done;
}
