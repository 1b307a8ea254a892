/*
 * Distances worked out as plainly as possible, as a twin of the program's own: nothing of the program is imported here. A deck is cut
 * into convex strips along level lines of its plan, and the distance to a convex piece, which has one lowest place along a
 * straight line, is searched by halving that line by the golden ratio. No index, no closed form, no shortcut but "too far to matter".
 * All numbers are inches in a frame near the scene.
 */
export type Spot = readonly [x: number, y: number];
export type Place = readonly [x: number, y: number, z: number];
export type Rings = readonly (readonly Spot[])[];

/** A deck's lowest surface: the plan inside an odd number of rings, on z = gx x + gy y + c. */
export interface PlainSurface {
  readonly rings: Rings;
  readonly gx: number;
  readonly gy: number;
  readonly c: number;
}

/** A round straight piece, or an upright box turned about the vertical. */
export interface PlainStick {
  readonly p: Place;
  readonly q: Place;
}
export interface PlainBlock {
  readonly centre: Place;
  readonly half: Place;
  readonly turn: number;
}

export const heightOf = ({ gx, gy, c }: PlainSurface, [x, y]: Spot): number => gx * x + gy * y + c;
export const between = (p: Place, q: Place, t: number): Place => [
  p[0] + (q[0] - p[0]) * t,
  p[1] + (q[1] - p[1]) * t,
  p[2] + (q[2] - p[2]) * t,
];
const dot = (a: Place, b: Place): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const less = (a: Place, b: Place): Place => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const cross = (a: Place, b: Place): Place => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
export const far = (a: Place, b: Place): number =>
  Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2);

/** Inside by the turns of the rings about the point: odd is inside. On an edge it may be either. */
export function isInside(rings: Rings, [x, y]: Spot): boolean {
  let odd = false;
  for (const ring of rings) {
    let turn = 0;
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      turn += Math.atan2(
        (a[0] - x) * (b[1] - y) - (a[1] - y) * (b[0] - x),
        (a[0] - x) * (b[0] - x) + (a[1] - y) * (b[1] - y),
      );
    });
    if (Math.round(turn / (2 * Math.PI)) % 2 !== 0) odd = !odd;
  }
  return odd;
}

/** Distance in plan to the nearest edge of any ring. */
export function toRim(rings: Rings, spot: Spot): number {
  let least = Number.POSITIVE_INFINITY;
  for (const ring of rings)
    ring.forEach((a, i) => {
      least = Math.min(least, toLine([...spot, 0], [...a, 0], [...ring[(i + 1) % ring.length]!, 0]));
    });
  return least;
}

export function toLine(s: Place, a: Place, b: Place): number {
  const u = less(b, a);
  const uu = dot(u, u);
  const t = uu > 0 ? Math.min(1, Math.max(0, dot(less(s, a), u) / uu)) : 0;
  return far(s, between(a, b, t));
}

/** A convex strip of a deck between two levels of y, by its ends at both. */
interface Strip {
  readonly y: readonly [number, number];
  /** Least and greatest x at the lower and at the upper y. */
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
  readonly corners: readonly Place[];
  readonly normal: Place;
  readonly middle: Place;
  readonly reach: number;
}
const cut = new WeakMap<PlainSurface, readonly Strip[]>();

/** The plan in strips: between two neighbouring levels of corners the sorted edges are sides, two by two. */
function stripsOf(surface: PlainSurface): readonly Strip[] {
  const known = cut.get(surface);
  if (known) return known;
  const { rings, gx, gy } = surface;
  const sides = rings.flatMap((ring) => ring.map((a, i) => [a, ring[(i + 1) % ring.length]!] as const));
  const levels = [...new Set(rings.flat().map(([, y]) => y))].sort((a, b) => a - b);
  const strips: Strip[] = [];
  const lift = ([x, y]: Spot): Place => [x, y, heightOf(surface, [x, y])];
  for (let i = 0; i + 1 < levels.length; i++) {
    const [y0, y1] = [levels[i]!, levels[i + 1]!];
    const middle = (y0 + y1) / 2;
    const across = (a: Spot, b: Spot, y: number): number =>
      y === a[1] ? a[0] : y === b[1] ? b[0] : a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0]);
    const crossed = sides
      .filter(([a, b]) => a[1] > middle !== b[1] > middle)
      .sort(([a, b], [c, d]) => across(a, b, middle) - across(c, d, middle));
    for (let j = 0; j + 1 < crossed.length; j += 2) {
      const [[a, b], [c, d]] = [crossed[j]!, crossed[j + 1]!];
      const low = [across(a, b, y0), across(c, d, y0)] as const;
      const high = [across(a, b, y1), across(c, d, y1)] as const;
      const corners = (
        [
          [low[0], y0],
          [low[1], y0],
          [high[1], y1],
          [high[0], y1],
        ] as const
      ).map(lift);
      const size = Math.hypot(gx, gy, 1);
      const [k, l, m, n] = corners as [Place, Place, Place, Place];
      const centre: Place = [0, 1, 2].map((e) => (k[e]! + l[e]! + m[e]! + n[e]!) / 4) as unknown as Place;
      strips.push({
        y: [y0, y1],
        low,
        high,
        corners,
        normal: [-gx / size, -gy / size, 1 / size],
        middle: centre,
        reach: Math.max(...corners.map((corner) => far(corner, centre))),
      });
    }
  }
  cut.set(surface, strips);
  return strips;
}

function placeToStrip(s: Place, { corners, normal }: Strip): number {
  const up = dot(less(s, corners[0]!), normal);
  const foot: Place = [s[0] - up * normal[0], s[1] - up * normal[1], s[2] - up * normal[2]];
  let inside = true;
  for (let i = 0; i < 4 && inside; i++) {
    const a = corners[i]!;
    inside = dot(cross(less(corners[(i + 1) % 4]!, a), less(foot, a)), normal) >= 0;
  }
  if (inside) return Math.abs(up);
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < 4; i++) least = Math.min(least, toLine(s, corners[i]!, corners[(i + 1) % 4]!));
  return least;
}

/** The strips of a surface and how near each may be, the likeliest first; the last of them cannot matter once one is nearer. */
function likeliest(surface: PlainSurface, mayBe: (strip: Strip) => number): { strip: Strip; bound: number }[] {
  return stripsOf(surface)
    .map((strip) => ({ strip, bound: mayBe(strip) - strip.reach }))
    .sort((a, b) => a.bound - b.bound);
}

/** How far a place is from the bounded surface. */
export function placeToSurface(s: Place, surface: PlainSurface): number {
  let least = Number.POSITIVE_INFINITY;
  for (const strip of stripsOf(surface))
    if (far(strip.middle, s) - strip.reach < least) least = Math.min(least, placeToStrip(s, strip));
  return least;
}

const GOLD = (Math.sqrt(5) - 1) / 2;

/** The least value of a function with one lowest place on [from, to]. */
function lowest(f: (t: number) => number, from: number, to: number, rounds: number): number {
  let [a, b] = [from, to];
  let [c, d] = [b - GOLD * (b - a), a + GOLD * (b - a)];
  let [fc, fd] = [f(c), f(d)];
  let least = Math.min(f(a), f(b), fc, fd);
  for (let i = 0; i < rounds && b > a; i++) {
    if (fc < fd) {
      [b, d, fd] = [d, c, fc];
      c = b - GOLD * (b - a);
      fc = f(c);
    } else {
      [a, c, fc] = [c, d, fd];
      d = a + GOLD * (b - a);
      fd = f(d);
    }
    least = Math.min(least, fc, fd);
  }
  return least;
}

/** Least distance from the line between two places to the bounded surface. */
export function stickToSurface({ p, q }: PlainStick, surface: PlainSurface): number {
  let least = Number.POSITIVE_INFINITY;
  for (const { strip, bound } of likeliest(surface, ({ middle }) => toLine(middle, p, q))) {
    if (bound > least) break;
    least = Math.min(
      least,
      lowest((t) => placeToStrip(between(p, q, t), strip), 0, 1, 68),
    );
  }
  return least;
}

/** Least distance from a solid box to the bounded surface: the lowest over each strip, line by line. */
export function blockToSurface({ centre, half, turn }: PlainBlock, surface: PlainSurface): number {
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const toBlock = (x: number, y: number): number => {
    const [dx, dy, dz] = [x - centre[0], y - centre[1], heightOf(surface, [x, y]) - centre[2]];
    const out = Math.max(0, Math.abs(c * dx + s * dy) - half[0]);
    const aside = Math.max(0, Math.abs(c * dy - s * dx) - half[1]);
    const up = Math.max(0, Math.abs(dz) - half[2]);
    return Math.sqrt(out * out + aside * aside + up * up);
  };
  let least = Number.POSITIVE_INFINITY;
  for (const { strip, bound } of likeliest(surface, ({ middle }) => far(middle, centre) - Math.hypot(...half))) {
    if (bound > least) break;
    const [y0, y1] = strip.y;
    const onLine = (t: number): number => {
      const y = y0 + (y1 - y0) * t;
      const from = strip.low[0] + (strip.high[0] - strip.low[0]) * t;
      const to = strip.low[1] + (strip.high[1] - strip.low[1]) * t;
      return lowest((u) => toBlock(from + (to - from) * u, y), 0, 1, 52);
    };
    least = Math.min(least, lowest(onLine, 0, 1, 52));
  }
  return least;
}
