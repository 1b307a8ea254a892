import { expect, it } from "vitest";
import type { Tag } from "../../src/job/fields.ts";
import { findingOf, findingsOf, rectangle, roof, run, tag } from "./inch-job.ts";

/* What a run is told by where tags are missing or cannot be read, and where on the sheet that is marked. The run is 100, 300 and 200 in. long. */
const AT = [
  [100, 100],
  [200, 100],
  [200, 400],
  [400, 400],
] as const;
const traced = (tags: readonly (Tag | null)[], more: Parameters<typeof run>[1] = {}) =>
  run(
    AT.map(([x, y], i) => [x, y, tags[i]!] as const),
    more,
  );
const T = tag(100);
/** Counted from a deck where there is none. */
const B = tag(6, "top", { datum: { from: "below-deck" } });
const UNDER = {
  a: roof(144, { outline: rectangle(0, 0, 600, 300) }),
  b: roof(144, { outline: rectangle(0, 300, 600, 600) }),
};
const HALF = { a: UNDER.a };

it.each<readonly [string, readonly (Tag | null)[], readonly (readonly [number, number])[], string]>([
  ["none at all", [null, null, null, null], [[0, 600]], "R-1 has no elevation tags"],
  ["the first", [null, T, null, T], [[0, 100]], "R-1 has no elevation tag at vertex 1"],
  ["the first two", [null, null, T, T], [[0, 400]], "R-1 has no elevation tag at vertex 1"],
  ["the last", [T, null, T, null], [[400, 600]], "R-1 has no elevation tag at vertex 4"],
  ["the last three", [T, null, null, null], [[0, 600]], "R-1 has no elevation tag at vertex 4"],
])("no tag: %s", (_, tags, stretches, missing) => {
  const found = findingOf(UNDER, traced(tags));
  expect(found.verdict).toBe("cannot-tell");
  expect(found.stretches.map(({ fromIn, toIn }) => [fromIn, toIn])).toEqual(stretches);
  expect(JSON.stringify(found.reasons)).toContain(missing);
});

it("between two tags it is straight, whatever lies between", () => {
  const bare = findingOf(UNDER, traced([tag(100), null, null, tag(142)]));
  // The elevation at each vertex by its plan length: 107 after 100 of 600 in., 128 after 400.
  const full = findingOf(UNDER, traced([tag(100), tag(107), tag(128), tag(142)]));
  expect(bare.verdict).toBe("clear");
  expect(bare.leastIn).toBeCloseTo(full.leastIn!, 9);
  expect(bare.at).toEqual([400, 400]);
});

it("a tag that cannot be read leaves both sides of it unknown, up to the next", () => {
  const found = findingsOf(HALF, traced([T, null, B, T])).filter(({ areas }) => areas.length === 0);
  expect(found.map(({ verdict }) => verdict)).toEqual(["cannot-tell"]);
  expect(found[0]!.stretches.map(({ fromIn, toIn }) => [fromIn, toIn])).toEqual([[0, 600]]);
  expect(JSON.stringify(found[0]!.reasons)).toContain("No deck area lies over this tag");
  const last = findingsOf(UNDER, traced([T, T, T, T]));
  expect(last.map(({ verdict }) => verdict)).toEqual(["clear"]);
});

it.each([
  [
    [144, 100, 100, 100],
    [100, 100],
  ],
  [
    [100, 143, 100, 100],
    [200, 100],
  ],
  [
    [100, 100, 143, 100],
    [200, 400],
  ],
  [
    [100, 100, 100, 143],
    [400, 400],
  ],
] as const)("elevations %j: marked where it is nearest, at (%j)", (levels, at) => {
  const found = findingsOf(UNDER, traced(levels.map((z) => tag(z))));
  expect(found[0]!.at).toEqual(at);
});

it("of a size nobody knows, it is marked half way along", () => {
  const wiring = { type: "emt", tradeSize: "no such size", outsideDiameter: null };
  // 300 of 600 in.: 100 to the first corner, 200 on from there.
  expect(findingOf(UNDER, traced([T, T, T, T], { wiring }))).toMatchObject({ verdict: "cannot-tell", at: [200, 300] });
});

it.each([
  [0, 1],
  [1, 0],
])("hung from one deck by tags that may be off by %d and %d in., it may be off by the larger", (one, other) => {
  const hung = (off: number) =>
    tag(6, "top", { datum: { from: "below-deck" }, plusMinus: { value: off, unit: "in" as const } });
  const found = findingOf(
    { a: roof(144) },
    run([
      [100, 100, hung(one)],
      [400, 100, hung(other)],
    ]),
  );
  expect(found.leastIn).toBeCloseTo(6, 9);
  expect(found.intervalIn![0]).toBeCloseTo(5, 9);
  expect(found.intervalIn![1]).toBeCloseTo(7, 9);
});

it("between two tags that may be off every part of it may be", () => {
  // The deck lies over the middle of three segments alone, whose ends have no tags of their own.
  const off = tag(100, "centre", { plusMinus: { value: 1, unit: "in" } });
  const low = roof(144, { outline: rectangle(250, 0, 350, 600) });
  const high = roof(400, { label: "A-2", outline: rectangle(-500, -500, 1500, 1500) });
  const found = findingOf(
    { a: low, b: high },
    run([
      [100, 100, off],
      [200, 100, null],
      [400, 100, null],
      [500, 100, off],
    ]),
  );
  expect(found.leastIn).toBeCloseTo(144 - 100 - 0.461, 9);
  expect(found.intervalIn![0]).toBeCloseTo(found.leastIn! - 1, 9);
  expect(found.intervalIn![1]).toBeCloseTo(found.leastIn! + 1, 9);
});
