import { expect, it } from "vitest";
import type { Point2 } from "../../../src/geometry/point.ts";
import { withoutStraightCorners } from "../../../src/pdf/read/straight-corners.ts";
import { seeded } from "../../geometry/random-scenes.ts";

const seed = 5;
const slack = 0.05;

/** The plain way, for an open line: each corner goes where all between the last kept one and the next lie within the slack of the way past them. */
function plainly(points: readonly Point2[]): Point2[] {
  const apart = points.filter(
    (p, i) => i === 0 || Math.hypot(p[0] - points[i - 1]![0], p[1] - points[i - 1]![1]) > slack,
  );
  if (apart.length < 3) return apart;
  const aside = (a: Point2, b: Point2, p: Point2): number => {
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const square = dx * dx + dy * dy;
    const t = square > 0 ? Math.min(1, Math.max(0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square)) : 0;
    return Math.hypot(p[0] - a[0] - dx * t, p[1] - a[1] - dy * t);
  };
  const kept = [apart[0]!];
  let anchor = 0;
  for (let i = 2; i < apart.length; i++) {
    if (apart.slice(anchor + 1, i).every((p) => aside(apart[anchor]!, apart[i]!, p) <= slack)) continue;
    anchor = i - 1;
    kept.push(apart[anchor]!);
  }
  return [...kept, apart.at(-1)!];
}

it(`keeps the corners that asking every corner keeps, on 2,000 random lines that also turn back (seed ${seed})`, () => {
  const random = seeded(seed);
  let [all, kept] = [0, 0];
  for (let line = 0; line < 2000; line++) {
    const points: Point2[] = [[0, 0]];
    let direction = 6.28 * random();
    for (let i = 0; i < 2 + 40 * random(); i++) {
      if (random() < 0.15) direction += (random() - 0.5) * (random() < 0.3 ? 6.2 : 0.3);
      const step = (random() < 0.05 ? -1 : 1) * (random() < 0.2 ? 0.02 : 5) * random();
      const [x, y] = points.at(-1)!;
      const noise = (): number => 0.03 * (random() - 0.5);
      points.push([x + step * Math.cos(direction) + noise(), y + step * Math.sin(direction) + noise()]);
    }
    const corners = withoutStraightCorners(points, slack, false);
    expect(corners).toEqual(plainly(points));
    all += points.length;
    kept += corners.length;
  }
  expect(kept / all).toBeGreaterThan(0.1);
  expect(kept / all).toBeLessThan(0.9);
});

it("of a closed line asks the first corner and the last one too", () => {
  const square: Point2[] = [
    [5, 0],
    [10, 0],
    [10, 10],
    [0, 10],
    [0, 0],
    [5, 0],
  ];
  expect(withoutStraightCorners(square, slack, true)).toHaveLength(4);
  expect(withoutStraightCorners(square, slack, false)).toHaveLength(6);
});
