import { describe, expect, test } from "vitest";
import type { Finding } from "../../src/check/finding.ts";
import { segmentToFace } from "../../src/geometry/clearance.ts";
import { makeFace } from "../../src/geometry/face.ts";
import { makeFaceIndex } from "../../src/geometry/face-index.ts";
import { planeLevel } from "../../src/geometry/plane.ts";
import type { Point3 } from "../../src/geometry/point.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Area } from "../../src/job/schema.ts";
import { inches } from "../../src/units/quantity.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { check, findingOf, inch, inchJob, rectangle, roof, run } from "./inch-job.ts";

/* What goes wrong in clearance checks, each held down by a test of its own, from the job to the finding. */
const R: number = 0.922 / 2;
const LIMIT: number = 1.5;

/** A roof over 0..600 whose lowest surface is at z at x = 0 and falls along x by `rise` an inch. */
const sloped = (z: number, rise: number, more: Partial<Area> = {}): Area => {
  const base = roof(z, more);
  const shape = { is: "slope", at: inch(z), point: [0, 300], towards: [100, 300], rise, text: "" } as const;
  return { ...base, elevation: { ...base.elevation, shape } };
};
const levelRun = (x0: number, y0: number, x1: number, y1: number, z: number): Element =>
  run([
    [x0, y0, z],
    [x1, y1, z],
  ]);
const held = (finding: Finding, station: number): boolean =>
  finding.stretches.some(({ fromIn, toIn }) => fromIn <= station && station <= toIn);

describe("1. squares of distances compare with slack", () => {
  test("the search for the nearest ends and misses nothing where the square of a root is one bit less", () => {
    const square = (x: number, z: number) =>
      makeFace({ outline: rectangle(x, 0, x + 10, 10), holes: [] }, planeLevel(inches(z)));
    const random = seeded(11);
    let less = 0;
    for (let i = 0; i < 3000; i++) {
      const [dx, dz] = [random() * 9, random() * 9];
      const q = dx * dx + dz * dz;
      if (Math.sqrt(q) ** 2 < q) less++;
      // Two faces equally near on either side, and one on the far side that is not.
      const faces = [square(20 + dx, 100 + dz), square(20 - dx - 10, 100 + dz), square(60, 100)];
      const at: Point3 = [20, 5, 100];
      const nearest = makeFaceIndex(faces).nearestToSegment(at, at)!;
      const each: number[] = faces.map((face) => segmentToFace(at, at, face).distance);
      expect(nearest.distance).toBe(Math.min(...each));
      expect(nearest.face).toBe(each.indexOf(Math.min(...each)));
    }
    expect(less).toBeGreaterThan(500);
  });
});

describe("2. exactly at the limit passes, and verdict and stretches have one tolerance", () => {
  test("under 1,000 slopes and levels", () => {
    const random = seeded(12);
    for (let i = 0; i < 1000; i++) {
      const rise = [0, 1 / 48, 0.02, 0.25][i % 4]!;
      const [z, x, length] = [140 + 8 * random(), 50 + 200 * random(), 250 * random()];
      const steep = Math.hypot(1, rise);
      const at = (away: number, along: number) => z - rise * along - (away + R) * steep;
      const finding = (away: number) =>
        findingOf(
          { a: sloped(z, rise) },
          run([
            [x, 100, at(away, x)],
            [x + length, 180, at(away, x + length)],
          ]),
        );
      for (const hair of [0, 1e-9, -1e-9, -5e-8]) {
        const found = finding(LIMIT + hair);
        expect([found.verdict, found.stretches], `${i}, ${hair}`).toEqual(["clear", []]);
      }
      const found = finding(LIMIT - 2e-7);
      expect([found.verdict, found.stretches.length > 0], `${i}`).toEqual(["too-close", true]);
    }
  });
});

describe("3. ends of stretches are told apart as sets where run and deck are nearly parallel", () => {
  test("what is surely near is in, what surely is not is out, whatever a billionth of an inch does to the ends", () => {
    const [low, rise] = [144 - R - LIMIT - 5e-6, 1e-5];
    let [first, last] = [Number.POSITIVE_INFINITY, 0];
    for (const off of [-1e-9, 0, 1e-9]) {
      const found = findingOf(
        { a: roof(144) },
        run([
          [10, 100, low + off],
          [510, 100, low + off + rise],
        ]),
      );
      expect(found.verdict).toBe("too-close");
      const end = found.stretches[0]!.fromIn;
      [first, last] = [Math.min(first, end), Math.max(last, end)];
      for (let s = 0; s <= 500; s += 2) {
        const distance = 144 - R - (low + off + (rise * s) / 500);
        if (distance < LIMIT - 1e-6) expect(held(found, s), `${off}, ${s}`).toBe(true);
        if (distance > LIMIT + 1e-6) expect(held(found, s), `${off}, ${s}`).toBe(false);
      }
    }
    // The end itself moves by much more than the reading did.
    expect(last - first).toBeGreaterThan(1e-9 * 1e6);
  });
});

describe("4. the least distance is over all roofs, not over those a verdict needs", () => {
  test.each([15, 30, 100, 400])("a lower roof %d in. beside counts, far beyond the clearance", (beside) => {
    // 35 ft below its own roof, level with the other one.
    const areas = {
      own: roof(540),
      other: roof(120, { label: "A-2", outline: rectangle(590 + beside, 0, 1200, 600) }),
    };
    const found = findingOf(areas, levelRun(500, 50, 590, 300, 120));
    expect(found.verdict).toBe("clear");
    expect(found.leastIn).toBeCloseTo(beside - R, 9);
    expect(found.areas[0]).toBe("other");
  });
});

describe("5. distance has no sign", () => {
  test("a run wholly above the deck is never clear, however far above", () => {
    for (const above of [1, 3, 10, 100, 1000]) {
      const found = findingOf({ a: roof(144) }, levelRun(50, 50, 300, 300, 144 + above + R));
      expect(found.verdict, `${above} in. above`).toBe(above + R <= 1.5 ? "concealed" : "cannot-tell");
      expect(found.leastIn, `${above} in. above`).toBeLessThan(0);
    }
  });
});

describe("6. least distance differs from the vertical gap", () => {
  test("on a slope it is square to it: 1/4 in. per foot, 3 in 12", () => {
    for (const rise of [1 / 48, 0.25]) {
      // Level along the slope's contour, 10 in. below the deck.
      const z = 144 - 200 * rise - 10;
      const found = findingOf({ a: sloped(144, rise) }, levelRun(200, 100, 200, 500, z));
      expect(found.leastIn).toBeCloseTo(10 * Math.cos(Math.atan(rise)) - R, 9);
      expect(found.verticalIn).toBeCloseTo(10 - R, 9);
    }
  });
  test("at a step it is to the edge of the lower deck", () => {
    const areas = { low: roof(120), high: roof(180, { label: "A-2", outline: rectangle(600, 0, 1000, 600) }) };
    const found = findingOf(areas, levelRun(601.2, 100, 601.2, 400, 119.1));
    expect(found.leastIn).toBeCloseTo(Math.hypot(1.2, 0.9) - R, 9);
    expect(found.verticalIn).toBeNull();
  });
  test("in a hole the rim is what is near, and nothing is straight above", () => {
    const holed = roof(144, { holes: [rectangle(200, 200, 240, 240)] });
    const found = check({ a: holed }, { e: levelRun(210, 201, 230, 201, 143.5) }).findings;
    const near = found.find(({ verdict }) => verdict === "too-close")!;
    expect(near.leastIn).toBeCloseTo(Math.hypot(1, 0.5) - R, 9);
    expect(near.verticalIn).toBeNull();
    expect(found.some(({ verdict }) => verdict === "cannot-tell")).toBe(true);
  });
});

describe("7. a stretch is what lies under the face, round its edges and round its corners", () => {
  const reach = LIMIT + R;
  const tooClose = (element: Element): Finding =>
    check({ a: roof(144) }, { e: element }).findings.find(({ verdict }) => verdict === "too-close")!;
  test("under the face and past its edge", () => {
    const found = tooClose(levelRun(500, 300, 700, 300, 143));
    expect(found.stretches[0]!.fromIn).toBe(0);
    expect(found.stretches[0]!.toIn).toBeCloseTo(100 + Math.sqrt(reach ** 2 - 1), 6);
  });
  test("round an edge alone, beside it", () => {
    const found = tooClose(
      run([
        [601, 100, 100],
        [601, 100, 200],
      ]),
    );
    const half = Math.sqrt(reach ** 2 - 1);
    expect(found.stretches[0]!.fromIn).toBeCloseTo(44 - half, 6);
    expect(found.stretches[0]!.toIn).toBeCloseTo(44 + half, 6);
  });
  test("round a corner alone", () => {
    const d = 600 + Math.SQRT1_2;
    const found = tooClose(
      run([
        [d, d, 114],
        [d, d, 174],
      ]),
    );
    const half = Math.sqrt(reach ** 2 - 1);
    expect(found.stretches).toHaveLength(1);
    expect(found.stretches[0]!.fromIn).toBeCloseTo(30 - half, 6);
    expect(found.stretches[0]!.toIn).toBeCloseTo(30 + half, 6);
  });
});

describe("8. a run nearly parallel to an edge", () => {
  test.each([0, 1e-15, 1e-12, 1e-9, 1e-7])("turned by %d", (tilt) => {
    const found = check({ a: roof(144) }, { e: levelRun(50, -3, 550, -3 - 500 * tilt, 140) }).findings[0]!;
    // Nothing but what cannot be told: 5 in. away from the edge.
    expect(found.verdict).toBe("cannot-tell");
    const near = check({ a: roof(144) }, { e: levelRun(50, -1, 550, -1 - 500 * tilt, 143.5) }).findings;
    const least = near.find(({ verdict }) => verdict === "too-close")!;
    expect(least.leastIn).toBeCloseTo(Math.hypot(1, 0.5) - R, 9);
    expect(least.stretches[0]!.toIn - least.stretches[0]!.fromIn).toBeCloseTo(500, tilt > 1e-8 ? 4 : 6);
  });
});

describe("9. nothing is lost on points, collapsed outlines and plans far from the origin", () => {
  test("a run of no length is checked like any other", () => {
    const at = (z: number) => findingOf({ a: roof(144) }, levelRun(100, 100, 100, 100, z));
    expect(at(140).verdict).toBe("clear");
    expect(at(140).leastIn).toBeCloseTo(4 - R, 9);
    expect(at(143).verdict).toBe("too-close");
  });
  test("an area collapsed to a line or a point gives no verdict, and never a pass", () => {
    const collapsed: Area["outline"][] = [
      [
        [0, 0],
        [300, 0],
        [600, 0],
      ],
      [
        [5, 5],
        [5, 5],
        [5, 5],
      ],
    ];
    for (const outline of collapsed) {
      const { findings, notices } = check({ a: roof(144, { outline }) }, { e: levelRun(4, 0, 6, 0, 100) });
      expect(findings.map(({ verdict }) => verdict)).toEqual(["cannot-tell"]);
      expect(notices.map(({ code }) => code)).toContain("area.outline");
    }
  });
  test.each([1e5, 1e6, 1e7])("%d in. away the distance is the same within 1e-7 in.", (away) => {
    const moved = (x: number, y: number): readonly [number, number] => [x + away, y - away];
    const area = (shift: typeof moved) => {
      const outline = rectangle(0, 0, 600, 600).map(([x, y]) => shift(x, y));
      const base = roof(144, { outline });
      const shape = {
        is: "slope",
        at: inch(144),
        point: shift(0, 300),
        towards: shift(80, 360),
        rise: 1 / 48,
        text: "",
      } as const;
      return { ...base, elevation: { ...base.elevation, shape } };
    };
    const element = (shift: typeof moved) =>
      run([
        [...shift(31.7, 77.3), 138.25],
        [...shift(411.1, 502.9), 131.125],
      ]);
    const here = findingOf(
      { a: area((x, y) => [x, y]) },
      element((x, y) => [x, y]),
    );
    const there = findingOf({ a: area(moved) }, element(moved));
    expect(there.verdict).toBe(here.verdict);
    expect(Math.abs(there.leastIn! - here.leastIn!)).toBeLessThan(1e-7);
  });
  test("exactly at the limit passes there too", () => {
    const far = 2e6;
    const outline = rectangle(far, far, far + 600, far + 600);
    const finding = (z: number) =>
      findingOf({ a: roof(144, { outline }) }, levelRun(far + 10, far + 10, far + 200, far + 77, z), inchJob());
    expect(finding(144 - LIMIT - R).verdict).toBe("clear");
    expect(finding(144 - LIMIT - R + 1e-6).verdict).toBe("too-close");
  });
});
