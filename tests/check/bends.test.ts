import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/check/finding.ts";
import type { Area } from "../../src/job/schema.ts";
import { findingsOf, inch, rectangle, roof, run, tag } from "./inch-job.ts";

/* The curve of a bend stands inside its corner by radius x (sqrt 2 - 1) where that is square. Half of 3/4 EMT is 0.461 in. (ANSI C80.3). */
const R = 0.461;
const INSIDE = Math.SQRT2 - 1;
/** Bends are straight pieces that stand off the curve by a thousandth of an inch at most. */
const CURVE = 2;
type Vertex = Parameters<typeof run>[0][number];
const high = roof(300, { label: "High" });
/** A roof whose corner, at (293, 307), points into the bend of a run that comes along y = 300 and turns up along x = 300. */
const corner = (z: number): Area => roof(z, { label: "Corner", outline: rectangle(200, 307, 293, 400) });
const bent = (vertices: readonly Vertex[], radius: number, z = 140): Finding[] =>
  findingsOf({ h: high, c: corner(z) }, run(vertices, { bends: { is: "own", length: inch(radius) } })).filter(
    ({ areas }) => areas.includes("c"),
  );
const both = (vertices: readonly Vertex[]) => [vertices, [...vertices].reverse()] as const;

describe("the curve of a bend", () => {
  it("is as long as the shorter leg leaves it room for", () => {
    // The leg along x = 300 is 8 in. long, and so is the radius that fits: what goes on after it in the same line bends nowhere.
    const short = [
      [100, 300, 140],
      [300, 300, 140],
      [300, 308, 140],
      [300, 358, 140],
    ] as const;
    for (const way of both(short)) {
      const [found] = bent(way, 20);
      expect(found!.leastIn).toBeCloseTo(Math.hypot(7, 7) - 8 * INSIDE - R, CURVE);
    }
  });

  it("lies about its corner, station by station", () => {
    // 20 in. about (280, 320): the roof's corner is 13 sqrt 2 from there. The curve takes the stations of 20 in. of either leg.
    const from = 13 * Math.SQRT2;
    const turn = Math.acos((20 ** 2 + from ** 2 - (1.5 + R) ** 2) / (2 * 20 * from));
    const half = (turn / (Math.PI / 4)) * 20;
    const level = [
      [100, 300, 140],
      [300, 300, 140],
      [300, 500, 140],
    ] as const;
    for (const way of both(level)) {
      const [found] = bent(way, 20);
      expect(found).toMatchObject({ verdict: "too-close", stretches: [{}] });
      expect(found!.stretches[0]!.fromIn).toBeCloseTo(200 - half, 1);
      expect(found!.stretches[0]!.toIn).toBeCloseTo(200 + half, 1);
    }
  });

  // The roof's corner at (290, 306) is 10 across and 14 down from the middle of the curve, at (280, 320): marked at the station of that angle.
  it("is marked at the station of what is nearest", () => {
    const off = roof(140, { label: "Off", outline: rectangle(200, 306, 290, 400) });
    const station = 180 + (Math.atan2(10, 14) / (Math.PI / 2)) * 40;
    const level = [
      [100, 300, 140],
      [300, 300, 140],
      [300, 500, 140],
    ] as const;
    for (const way of both(level)) {
      const found = findingsOf({ h: high, c: off }, run(way, { bends: { is: "own", length: inch(20) } }));
      const [first] = found.filter(({ areas }) => areas[0] === "c");
      expect(first!.at[0]).toBeCloseTo(100 + station, 1);
      expect(first!.at[1]).toBeCloseTo(300, 9);
    }
  });

  it.each([0, 1, 2])("is in doubt as the tags about it are: the one at vertex %d may be off by an inch", (off) => {
    const vertices = (
      [
        [100, 300],
        [300, 300],
        [300, 500],
      ] as const
    ).map(([x, y], i) => [x, y, tag(140, "centre", { plusMinus: inch(i === off ? 1 : 0) })] as const);
    const [found] = bent(vertices, 20, 141);
    const away = Math.hypot(7, 7) - 20 * INSIDE;
    const least = Math.hypot(away, 1) - R;
    expect(found!.leastIn).toBeCloseTo(least, CURVE);
    // Up and down counts by how much of the way to the roof goes up.
    expect(found!.leastIn! - found!.intervalIn![0]).toBeCloseTo(1 / Math.hypot(away, 1), CURVE);
  });

  it("is left out where the elevation of a leg is not known", () => {
    for (const missing of [0, 1, 2]) {
      const vertices = (
        [
          [100, 300],
          [300, 300],
          [300, 500],
        ] as const
      ).map(([x, y], i) => [x, y, i === missing && missing !== 1 ? null : tag(140)] as const);
      const verdicts = bent(vertices, 20).map(({ verdict }) => verdict);
      expect(verdicts, `${missing}`).toEqual(missing === 1 ? ["too-close"] : []);
    }
  });

  // Not settled whether it is a roof: higher than the one above the bend, and lower than that far ahead of it.
  it("has above it what lies above the bend", () => {
    const shape = {
      is: "slope",
      at: inch(220),
      point: [300, 300],
      towards: [400, 400],
      rise: 1 / 4,
      text: "",
    } as const;
    const slope = roof(null, {
      label: "Slope",
      classification: { is: "not-settled", reason: "", by: "" },
      elevation: { ...roof(null).elevation, shape: { ...shape, point: [300, 300], towards: [400, 400] } },
    });
    const around = run(
      [
        [250, 300, 100],
        [300, 300, 100],
        [300, 350, 100],
      ],
      { bends: { is: "own", length: inch(20) } },
    );
    for (const found of [findingsOf({ a: roof(200), b: slope }, around)])
      expect(found.map(({ verdict }) => verdict)).toEqual(["clear"]);
  });
});
