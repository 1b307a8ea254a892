import { describe, expect, it } from "vitest";
import type { Area, Job } from "../../src/job/schema.ts";
import { box, findingOf, inch, inchJob, rectangle, roof, run, tag } from "./inch-job.ts";

/*
 * A deck folded at x = 300: level at 144 in. on one side, falling away at 45 degrees on the other. Half of 3/4 EMT is 0.461 in. (ANSI C80.3).
 * A run along the fold, d to the level side of it and h below the level, is h from the level face, and (d + h) / sqrt 2 from the other.
 */
const R = 0.461;
/** `sign`: 1 where the level side is that of greater x, -1 where it is the other. */
function folded(sign: 1 | -1): Area {
  const x = (off: number) => 300 + sign * off;
  const spot = (off: number, y: number, z: number) => ({ at: [x(off), y] as [number, number], elevation: inch(z) });
  const spots = [
    spot(-100, 0, 44),
    spot(250, 0, 144),
    spot(250, 600, 144),
    spot(-100, 600, 44),
    spot(0, 0, 144),
    spot(0, 600, 144),
  ];
  const outline = rectangle(Math.min(x(-100), x(250)), 0, Math.max(x(-100), x(250)), 600);
  const { elevation } = roof(144);
  const shape = {
    is: "spots" as const,
    spots,
    lines: [{ between: [5, 6] as [number, number], kind: "ridge" as const }],
  };
  return roof(144, { outline, elevation: { ...elevation, shape } });
}
const jobOf = (decks: number, plan: number): Job => {
  const job = inchJob();
  return {
    ...job,
    settings: { job: { ...job.settings.job, tolerances: { tags: inch(0), decks: inch(decks), plan: inch(plan) } } },
  };
};

describe.each([1, -1] as const)("under a fold, its level side to %d", (sign) => {
  const along = (d: number, h: number) =>
    run([
      [300 + sign * d, 100, 144 - h],
      [300 + sign * d, 500, 144 - h],
    ]);

  // Off by so much in plan towards the fold, or in height, it is as near to the other face as this says.
  it.each([
    [0, 0, 1.5, 3],
    [0, 1, 1.5, 3],
    [0, 0.5, 1.03, 2.061],
    [0.5, 0, 1.3, 3],
    [0.25, 0.75, 1.4, 3],
    [0.5, 1, 0.5, 3],
  ])(
    "decks off by %d and the plan by %d in.: a run %d beside and %d below may be as near to either face",
    (u, p, d, h) => {
      const found = findingOf({ a: folded(sign) }, along(d, h), jobOf(u, p));
      const [level, steep] = [h - R, (d + h) / Math.SQRT2 - R];
      const off = (u + p) / Math.SQRT2;
      expect(found.leastIn).toBeCloseTo(Math.min(level, steep), 9);
      expect(found.intervalIn![0]).toBeCloseTo(Math.min(level - u, steep - off), 9);
      expect(found.intervalIn![1]).toBeCloseTo(Math.min(level + u, steep + off), 9);
    },
  );

  it("a verdict hangs on it: 1.6 in. from the level face is not clear where 1 in. of plan takes it to 1.02 in. from the other", () => {
    expect(findingOf({ a: folded(sign) }, along(1.03, 1.6 + R), jobOf(0, 0)).verdict).toBe("clear");
    const found = findingOf({ a: folded(sign) }, along(1.03, 1.6 + R), jobOf(0, 1));
    expect(found).toMatchObject({ verdict: "borderline", stretches: [{ fromIn: 0, toIn: 400 }] });
  });

  // 6 in. square, its top 1 in. above the level face; 5 in. down the slope its top is 6 in. above the other: square to that, 6 / sqrt 2.
  it("a box through both faces is told by the one it reaches farthest above", () => {
    const through = box(300 - sign * 2, 300, tag(145, "top"), {
      item: "other",
      size: { width: inch(6), length: inch(6), depth: inch(15) },
    });
    const found = findingOf({ a: folded(sign) }, through, jobOf(0, 0));
    expect(found.leastIn).toBeCloseTo(-6 / Math.SQRT2, 9);
  });

  // 3 in. above the level face; 1 in. down the slope its top is 4 in. above the other, and square to that 4 / sqrt 2, which is less.
  it("a box through both faces is told by the level one where it reaches farther above that", () => {
    const size = { width: inch(6), length: inch(6), depth: inch(15) };
    const through = box(300 + sign * 2, 300, tag(147, "top"), { item: "other", size });
    expect(findingOf({ a: folded(sign) }, through, jobOf(0, 0)).leastIn).toBeCloseTo(-3, 9);
  });

  // Half an inch farther than the tube, wherever they sit.
  it("couplings may be as near to either face", () => {
    const [d, h, plan] = [1.5, 3, 1];
    const element = { ...along(d, h), couplings: { is: "own" as const, length: inch(2 * R + 1) } };
    const found = findingOf({ a: folded(sign) }, element as Parameters<typeof findingOf>[1], jobOf(0, plan));
    const [level, steep] = [h - R, (d + h) / Math.SQRT2 - R];
    expect(found.leastIn).toBeCloseTo(level, 9);
    expect(found.intervalIn![0]).toBeCloseTo(Math.min(level, steep - plan / Math.SQRT2) - 0.5, 9);
    expect(found.intervalIn![1]).toBeCloseTo(Math.min(level, steep + plan / Math.SQRT2), 9);
  });

  // What hangs from a deck is off as the deck is, at a tag; between two tags a run is straight, and a folded deck is not.
  it("a box hung from the deck is not in doubt for it, a run is", () => {
    const hung = tag(3, "top", { datum: { from: "below-deck" } });
    const job = jobOf(0.25, 0);
    const half = (element: Parameters<typeof findingOf>[1]): number => {
      const { leastIn, intervalIn } = findingOf({ a: folded(sign) }, element, job);
      return intervalIn![1] - leastIn!;
    };
    expect(half(box(300 + sign * 100, 300, hung))).toBeCloseTo(0, 9);
    const x = 300 + sign * 100;
    expect(
      half(
        run([
          [x, 100, hung],
          [x, 500, hung],
        ]),
      ),
    ).toBeCloseTo(0.25, 9);
  });
});
