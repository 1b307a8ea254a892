import { describe, expect, it } from "vitest";
import { distance2, type Point2 } from "../../../src/geometry/point.ts";
import { SEGMENT } from "../../../src/pdf/read/linework.ts";
import { SNAP_KINDS, type Snap, type SnapKind, snapTo } from "../../../src/pdf/read/snap-to.ts";
import { sheetUnits } from "../../../src/units/quantity.ts";
import { seeded } from "../../geometry/random-scenes.ts";
import { INK, madeLinework } from "./made-linework.ts";

const reach = sheetUnits(5);
const cross = madeLinework([
  {
    points: [
      [100, 100],
      [300, 100],
    ],
  },
  {
    points: [
      [200, 50],
      [200, 180],
    ],
  },
]);
const told = (snap: Snap | null) => snap && [snap.kind, ...snap.at];

describe("a snap", () => {
  it("says why: end, crossing, middle, foot of the perpendicular, or merely along", () => {
    expect(told(snapTo(cross, [101, 102], reach))).toEqual(["end", 100, 100]);
    expect(told(snapTo(cross, [202, 103], reach))).toEqual(["intersection", 200, 100]);
    expect(told(snapTo(cross, [201, 117], reach))).toEqual(["mid", 200, 115]);
    expect(told(snapTo(cross, [150, 103], reach, SNAP_KINDS, { from: [152, 300] }))).toEqual([
      "perpendicular",
      152,
      100,
    ]);
    expect(told(snapTo(cross, [260, 103], reach))).toEqual(["along", 260, 100]);
    expect(snapTo(cross, [260, 106], reach)).toBeNull();
  });

  it("gives only the kinds asked for", () => {
    expect(told(snapTo(cross, [101, 102], reach, ["along", "mid"]))).toEqual(["along", 101, 100]);
    expect(told(snapTo(cross, [260, 103], reach, ["mid"]))).toBeNull();
  });

  it("passes by hatching, letters, hidden layers, white fills, cut ends and joints of curves", () => {
    const linework = madeLinework([
      {
        points: [
          [10, 10],
          [50, 10],
        ],
        flags: SEGMENT.hatch,
      },
      {
        points: [
          [10, 20],
          [50, 20],
        ],
        flags: SEGMENT.glyph,
      },
      {
        points: [
          [10, 30],
          [50, 30],
        ],
        style: { ...INK, shown: false },
      },
      {
        points: [
          [10, 40],
          [50, 40],
        ],
        style: { ...INK, stroke: null, fill: "#ffffff" },
      },
      {
        points: [
          [0, 60],
          [60, 60],
        ],
        flags: SEGMENT.cutStart,
      },
      {
        points: [
          [10, 80],
          [20, 81],
          [30, 84],
        ],
        flags: SEGMENT.curved,
      },
    ]);
    for (const y of [10, 20, 30, 40]) expect(snapTo(linework, [10, y], sheetUnits(2))).toBeNull();
    expect(snapTo(linework, [10, 10], sheetUnits(2), SNAP_KINDS, { without: 0 })?.kind).toBe("end");
    expect(snapTo(linework, [10, 30], sheetUnits(2), SNAP_KINDS, { hidden: true })?.kind).toBe("end");
    expect(snapTo(linework, [1, 60], sheetUnits(2))?.kind).toBe("along");
    expect(snapTo(linework, [20, 81], sheetUnits(2))?.kind).toBe("along");
    expect(told(snapTo(linework, [30, 85], sheetUnits(2)))).toEqual(["end", 30, 84]);
  });
});

/** All segments tried one by one, without an index, in plain coordinate geometry. */
function slowSnap(lines: readonly (readonly [Point2, Point2])[], at: Point2, kind: SnapKind): number {
  const places = lines.flatMap(([a, b], i): Point2[] => {
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
    const t = Math.min(1, Math.max(0, ((at[0] - a[0]) * dx + (at[1] - a[1]) * dy) / (dx * dx + dy * dy)));
    if (kind === "end") return [a, b];
    if (kind === "mid") return [[(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]];
    if (kind === "along") return [[a[0] + dx * t, a[1] + dy * t]];
    return lines.slice(i + 1).flatMap(([c, d]): Point2[] => {
      const [ex, ey] = [d[0] - c[0], d[1] - c[1]];
      const det = dx * ey - dy * ex;
      const s = ((c[0] - a[0]) * ey - (c[1] - a[1]) * ex) / det;
      const u = ((c[0] - a[0]) * dy - (c[1] - a[1]) * dx) / det;
      return s >= 0 && s <= 1 && u >= 0 && u <= 1 ? [[a[0] + dx * s, a[1] + dy * s]] : [];
    });
  });
  return Math.min(...places.map((place) => distance2(place, at)));
}

it("finds what a search through all segments finds", () => {
  for (let seed = 1; seed <= 40; seed++) {
    const random = seeded(seed);
    const some = (): Point2 => [Math.fround(1000 * random()), Math.fround(1000 * random())];
    const lines = Array.from({ length: 60 }, () => [some(), some()] as const);
    const linework = madeLinework(lines.map((points) => ({ points })));
    for (let n = 0; n < 10; n++) {
      const at = some();
      for (const kind of ["end", "intersection", "mid", "along"] as const) {
        const least = slowSnap(lines, at, kind);
        const snap = snapTo(linework, at, sheetUnits(30), [kind]);
        if (least > 30) expect(snap, `seed ${seed}`).toBeNull();
        else expect(snap?.distance, `seed ${seed}, ${kind}`).toBeCloseTo(least, 2);
      }
    }
  }
});
