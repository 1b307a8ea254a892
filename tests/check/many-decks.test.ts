import { describe, expect, it } from "vitest";
import type { Area } from "../../src/job/schema.ts";
import { findingOf, findingsOf, inch, inchJob, rectangle, roof, run } from "./inch-job.ts";

/** Half of 3/4 EMT, 0.922 in. across (ANSI C80.3). */
const R = 0.461;

describe("a run under more decks than are gone through one by one", () => {
  const BAYS = 60;
  /** Bays 10 in. wide side by side along x, all at 144 in. but those named. */
  const bays = (other: Record<number, Partial<Area> & { z?: number | null }> = {}): Record<string, Area> =>
    Object.fromEntries(
      Array.from({ length: BAYS }, (_, i) => {
        const { z = 144, ...more } = other[i] ?? {};
        return [`b${i}`, roof(z, { label: `B-${i}`, outline: rectangle(10 * i, 0, 10 * i + 10, 600), ...more })];
      }),
    );
  const along = run([
    [1, 50, 140],
    [599, 50, 140],
  ]);

  it("is clear of them all, and speaks of all it lies under", () => {
    const found = findingOf(bays(), along);
    expect(found.verdict).toBe("clear");
    expect(found.leastIn).toBeCloseTo(4 - R, 9);
    expect(new Set(found.areas).size).toBe(BAYS);
  });

  it("is too close to the one that is lower, where it is, wherever that one lies", () => {
    for (const n of [0, 7, 31, 32, 33, 48, 58]) {
      const found = findingOf(bays({ [n]: { z: 141 } }), along);
      // 1 in. below that bay, and as near to its edges for sqrt((1.5 + R)^2 - 1) beyond them.
      const past = Math.sqrt((1.5 + R) ** 2 - 1);
      expect(found).toMatchObject({ verdict: "too-close", areas: [`b${n}`] });
      expect(found.leastIn).toBeCloseTo(1 - R, 9);
      expect(found.stretches).toHaveLength(1);
      expect(found.stretches[0]!.fromIn).toBeCloseTo(Math.max(0, 10 * n - past - 1), 6);
      expect(found.stretches[0]!.toIn).toBeCloseTo(10 * n + 10 + past - 1, 6);
    }
  });

  it("cannot be told under one of unknown elevation, and has nothing said of it under a floor", () => {
    const unknown = findingOf(bays({ 40: { z: null } }), along);
    expect(unknown).toMatchObject({ verdict: "cannot-tell", areas: ["b40"] });
    expect(unknown.stretches[0]!.fromIn).toBeCloseTo(399, 6);
    expect(unknown.stretches[0]!.toIn).toBeCloseTo(409, 6);
    const floor = { classification: { is: "floor-above", reason: "", by: "" } } as const;
    expect(findingOf(bays({ 40: { z: 140.2, ...floor } }), along).verdict).toBe("clear");
  });
});

describe("a plan that may be off by more than is looked for at first", () => {
  // Level with the lowest surface of a deck whose edge is 28 in. from its surface, under another deck 60 in. up.
  it.each([
    [0, "clear"],
    [26.4, "clear"],
    [26.6, "borderline"],
    [40, "borderline"],
  ])("off by %d in.: %s", (plan, verdict) => {
    const base = inchJob();
    const { job } = base.settings;
    const tolerances = { tags: inch(0), decks: inch(0), plan: inch(plan) };
    const areas = {
      a: roof(200, { label: "High", outline: rectangle(0, 0, 300, 600) }),
      b: roof(140, { label: "Beside", outline: rectangle(300, 0, 600, 600) }),
    };
    const element = run([
      [300 - 28 - R, 50, 140],
      [300 - 28 - R, 250, 140],
    ]);
    const verdicts = findingsOf(areas, element, { ...base, settings: { job: { ...job, tolerances } } });
    expect(verdicts.map((found) => found.verdict)).toEqual([verdict]);
  });
});
