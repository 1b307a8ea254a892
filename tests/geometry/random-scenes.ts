import { type Face, makeFace } from "../../src/geometry/face.ts";
import { planeFromSlope } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import type { Polygon } from "../../src/geometry/polygon.ts";
import type { OrientedBox } from "../../src/geometry/solid.ts";
import { inches, radians } from "../../src/units/quantity.ts";

/** Numbers in [0, 1) that depend on the seed alone: a linear congruence of 48 bits in two halves, high bits used. */
export function seeded(seed: number): () => number {
  let high = (seed ^ 0x5deece) & 0xffffff;
  let low = (seed * 2654435761) & 0xffffff;
  const next = () => {
    const product = low * 0x5b795;
    const carry = Math.floor(product / 0x1000000);
    high = (high * 0x5b795 + low * 0x2f1 + carry) % 0x1000000;
    low = (product + 11) % 0x1000000;
    return (high * 8 + (low >>> 21)) / 0x8000000;
  };
  for (let i = 0; i < 8; i++) next();
  return next;
}

/** A deck polygon round (x, y), concave as a rule, sometimes with a hole; may run either way. */
export function randomPolygon(random: () => number, x: number, y: number): Polygon {
  const corners = 3 + Math.floor(random() * 7);
  const outline = star(random, x, y, corners, 40, 160);
  // With five corners or more the outline stays 25 in. from its middle, so a hole lies well inside.
  const holes = corners >= 5 && random() < 0.6 ? [star(random, x, y, 3 + Math.floor(random() * 4), 5, 12)] : [];
  return { outline: random() < 0.5 ? outline : outline.reverse(), holes };
}

function star(random: () => number, x: number, y: number, corners: number, inner: number, outer: number): Point2[] {
  const turn = random() * 2 * Math.PI;
  return Array.from({ length: corners }, (_, i): Point2 => {
    // Neighbours are less than a half turn apart as seen from the middle, so no ring crosses itself.
    const angle = turn + ((i + 0.4 * random()) * 2 * Math.PI) / corners;
    const r = inner + random() * (outer - inner);
    return [x + r * Math.cos(angle), y + r * Math.sin(angle)];
  });
}

/** A deck face near (x, y) at about 144 in.: level, at a usual roof slope, or steep. */
export function randomFace(random: () => number, x = 0, y = 0): Face {
  const slope = [0, 0, 1 / 48, 1 / 24, 0.25, 1][Math.floor(random() * 6)]!;
  const downhill: Point2 = [random() - 0.5, random() - 0.5];
  return makeFace(randomPolygon(random, x, y), planeFromSlope([x, y], inches(140 + 8 * random()), slope, downhill));
}

/** The ends of a run segment near the face at (x, y): below, above, through or beside it; level, steep or vertical. */
export function randomSegment(random: () => number, x = 0, y = 0): [Point3, Point3] {
  const level = 144 + (random() < 0.7 ? -8 * random() : 40 * (random() - 0.5));
  const p: Point3 = [x + 400 * (random() - 0.5), y + 400 * (random() - 0.5), level];
  const kind = random();
  if (kind < 0.05) return [p, p];
  if (kind < 0.1) return [p, [p[0], p[1], level + 40 * (random() - 0.5)]];
  const rise = random() < 0.5 ? 0 : 30 * (random() - 0.5);
  return [p, [x + 400 * (random() - 0.5), y + 400 * (random() - 0.5), level + rise]];
}

/** A box of a hand's size to a cabinet's, near the face at (x, y). */
export function randomBox(random: () => number, x = 0, y = 0): OrientedBox {
  return {
    centre: [x + 300 * (random() - 0.5), y + 300 * (random() - 0.5), 144 + 30 * (random() - 0.7)],
    half: [1 + 12 * random(), 1 + 12 * random(), 0.5 + 4 * random()],
    rotation: radians(2 * Math.PI * random()),
  };
}
