/**
 * The decks of the Fennick Lane Store in plain formulas, from the figures of its drawings alone: inches, grid 1 / A at the origin, elevations
 * above the project datum. Nothing of the program is used.
 */
export type P2 = readonly [number, number];
export type P3 = readonly [number, number, number];

/** One deck: its lowest surface as flat pieces, the same surface as a formula, where in plan it is, and the cosine of its slope. */
export interface Deck {
  readonly faces: readonly (readonly P3[])[];
  readonly holes: readonly (readonly P2[])[];
  readonly cos: number;
  z(at: P2): number;
  over(at: P2): boolean;
}

/** Finished floors above the project datum: Level 1 at 100'-0", the mezzanine level at 112'-5". */
export const STORE_FLOORS: Readonly<Record<string, number>> = { "level-1": 1200, mezzanine: 1349 };

const ft = 12;
const box = (x0: number, y0: number, x1: number, y1: number): readonly P2[] =>
  [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ].map(([x, y]): P2 => [x! * ft, y! * ft]);

function flat(ring: readonly P2[], z: (at: P2) => number, fall: number, holes: readonly (readonly P2[])[] = []): Deck {
  return {
    faces: [ring.map(([x, y]): P3 => [x, y, z([x, y])])],
    holes,
    cos: 1 / Math.hypot(1, fall),
    z,
    over: (at) => within(at, ring) && !holes.some((hole) => within(at, hole)),
  };
}

/** The valley: 8 in. from ridge to high point, 3 3/4 in. from high point to drain, over 32 ft and 30 ft. */
function valley(): Deck {
  const z = ([x, y]: P2): number => {
    const u = Math.abs((((x % 720) + 720) % 720) - 360) / 360;
    const v = Math.abs(y - 96 * ft) / (32 * ft);
    return 1408.25 + 8 * v + 3.75 * Math.max(u, v);
  };
  const faces: P3[][] = [];
  const at = (x: number, y: number): P3 => [x * ft, y * ft, z([x * ft, y * ft])];
  for (let bay = 0; bay < 3; bay++)
    for (const edge of [64, 128]) {
      const [west, drain, east] = [bay * 60, bay * 60 + 30, bay * 60 + 60];
      faces.push([at(west, 96), at(drain, 96), at(west, edge)]);
      faces.push([at(drain, 96), at(east, edge), at(west, edge)]);
      faces.push([at(drain, 96), at(east, 96), at(east, edge)]);
    }
  // 11 3/4 in. in 32 ft along the way of most of it; what reaches above the deck is nowhere under this one.
  return { faces, holes: [], cos: 1, z, over: (place) => within(place, box(0, 64, 180, 128)) };
}

export const decks: Readonly<Record<string, Deck>> = {
  "sales-south": flat(
    box(0, 0, 180, 64),
    ([, y]) => 1420 - (64 * ft - y) / 48,
    1 / 48,
    [20, 50, 80, 110, 140, 170].map((x) => box(x - 2, 36, x + 2, 44)),
  ),
  "sales-north": valley(),
  stock: flat(box(0, 128, 120, 160), () => 1374.25 - 0.5 - 4.25 - 1.5, 0, [box(64, 146, 67, 149)]),
  bakery: flat(box(120, 128, 180, 160), ([, y]) => 1393.5 - 1.5 - (y - 128 * ft) / 96, 1 / 96, [
    box(160, 142, 166, 150),
  ]),
  pharmacy: flat(box(180, 0, 240, 64), ([x]) => 1200 + 174 - (x - 180 * ft) / 48, 1 / 48),
  mezzanine: flat(box(180, 64, 240, 96), () => 1349 - 3 - 2, 0),
  penthouse: flat(box(180, 64, 240, 96), () => 1488, 0),
  receiving: flat(box(180, 96, 240, 160), () => 1395 - 3, 0),
  canopy: flat(box(75, -14, 105, 0), () => 1332, 0),
};

/** The point of a deck nearest to a point, as the way there, and how far it is. */
export function nearest(point: P3, deck: Deck): { readonly distance: number; readonly toward: P3 } {
  let best = { distance: Number.POSITIVE_INFINITY, toward: [0, 0, 0] as P3 };
  const offer = (to: P3): void => {
    const toward: P3 = [to[0] - point[0], to[1] - point[1], to[2] - point[2]];
    const distance = Math.hypot(...toward);
    if (distance < best.distance) best = { distance, toward };
  };
  for (const face of deck.faces) {
    const [a, b, c] = face as readonly [P3, P3, P3];
    const n = cross(minus(b, a), minus(c, a));
    const off = dot(minus(a, point), n) / dot(n, n);
    const foot: P3 = [point[0] + n[0] * off, point[1] + n[1] * off, point[2] + n[2] * off];
    const plan: P2 = [foot[0], foot[1]];
    const ring = face.map(([x, y]): P2 => [x, y]);
    if (within(plan, ring) && !deck.holes.some((hole) => within(plan, hole))) offer(foot);
    for (const [i, p] of face.entries()) offer(onSegment(point, p, face[(i + 1) % face.length]!));
  }
  for (const hole of deck.holes) {
    const rim = hole.map(([x, y]): P3 => [x, y, deck.z([x, y])]);
    for (const [i, p] of rim.entries()) offer(onSegment(point, p, rim[(i + 1) % rim.length]!));
  }
  return best;
}

const minus = (a: P3, b: P3): P3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const dot = (a: P3, b: P3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: P3, b: P3): P3 => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];

function onSegment(point: P3, a: P3, b: P3): P3 {
  const along = minus(b, a);
  const t = Math.max(0, Math.min(1, dot(minus(point, a), along) / dot(along, along)));
  return [a[0] + along[0] * t, a[1] + along[1] * t, a[2] + along[2] * t];
}

/** Inside a ring that is convex, either way round. */
function within([x, y]: P2, ring: readonly P2[]): boolean {
  const sides = ring.map(([ax, ay], i) => {
    const [bx, by] = ring[(i + 1) % ring.length]!;
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax);
  });
  return sides.every((side) => side >= -1e-9) || sides.every((side) => side <= 1e-9);
}
