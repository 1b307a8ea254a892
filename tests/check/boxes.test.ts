import { describe, expect, it } from "vitest";
import { NO_FACTS } from "../../src/job/fields.ts";
import { box, findingOf, findingsOf, inch, rectangle, roof, tag } from "./inch-job.ts";

/** A 4 in. square box 1 1/2 in. deep, cover down: its top is 0.75 over its centre. */
const straddling = (z: number, more = {}) => box(300, 300, tag(z), more);

describe("a box that straddles the lowest surface", () => {
  it("is told by how far it reaches above it", () => {
    const finding = findingOf({ a: roof(144) }, straddling(143.75));
    expect(finding).toMatchObject({ verdict: "too-close", leastIn: -0.5, verticalIn: -0.5 });
    expect(finding.reasons.text).toContain('reaches 1/2" above the lowest surface');
    expect(finding.remedies.find(({ kind }) => kind === "lower")?.byIn).toBe(2);
  });

  it("has nought where its top just touches, and goes on without a jump to where its bottom does", () => {
    const least = (z: number) => findingOf({ a: roof(144) }, straddling(z)).leastIn;
    expect(least(143.25)).toBe(0);
    expect(least(143.25 + 1e-3)).toBeCloseTo(-1e-3, 9);
    expect(least(144.75 - 1e-3)).toBeCloseTo(-1.5 + 1e-3, 9);
  });

  it("counts square to a slope, from the corner that reaches highest", () => {
    const sloped = roof(144, {
      elevation: {
        ...roof(144).elevation,
        shape: { is: "slope", at: inch(144), point: [300, 300], towards: [300, 400], rise: 1 / 12, text: "1 per foot" },
      },
    });
    // The deck is 1/6 lower at the box's edge, 2 in. on; the top is at 144.75.
    const finding = findingOf({ a: sloped }, straddling(144));
    const vertical = -(0.75 + 2 / 12);
    expect(finding.verticalIn).toBeCloseTo(vertical, 9);
    expect(finding.leastIn).toBeCloseTo(vertical / Math.hypot(1, 1 / 12), 9);
  });

  it("holds for fittings too", () => {
    const fitting = {
      kind: "fitting" as const,
      label: "F-1",
      viewport: "v1",
      at: [300, 300] as const,
      item: "other",
      tradeSize: "",
      size: { width: inch(2), length: inch(6), height: inch(3) },
      rotationDeg: 30,
      tag: tag(143),
      facts: NO_FACTS,
    };
    expect(findingOf({ a: roof(144) }, fitting, undefined)).toMatchObject({ leastIn: -0.5 });
  });
});

describe("what a box lies under", () => {
  it("is every area its outline reaches into, its centre or not", () => {
    // Its centre is 1 in. out, its edge 1 in. in.
    expect(findingOf({ a: roof(144) }, box(601, 300, tag(140)))).toMatchObject({ verdict: "clear", leastIn: 3.25 });
    // Turned by 45 degrees a corner reaches 2.83 in.
    expect(findingOf({ a: roof(144) }, box(602.5, 300, tag(140), { rotationDeg: 45 })).verdict).toBe("clear");
    const out = findingOf({ a: roof(144) }, box(602.5, 300, tag(140)));
    expect(out.verdict).toBe("cannot-tell");
    expect(out.reasons.text).toContain("no deck area is outlined there");
  });

  it("is a roof on one side of it where there is a floor on the other", () => {
    const floor = roof(130, {
      label: "A-2",
      outline: rectangle(600, 0, 900, 600),
      classification: { is: "floor-above", reason: "storey above", by: "K. Invented" },
    });
    // Mostly under the lower floor, and an inch under the roof.
    const finding = findingOf({ a: roof(144), f: floor }, box(601, 300, tag(120)));
    expect(finding).toMatchObject({ verdict: "clear", areas: ["a", "f"] });
    expect(findingOf({ a: roof(144), f: floor }, box(603, 300, tag(120))).verdict).toBe("not-governed");
  });

  it("is not settled where any part of it lies under what is not settled", () => {
    const unsettled = roof(144, {
      label: "A-2",
      outline: rectangle(600, 0, 900, 600),
      classification: { is: "not-settled", reason: "", by: "" },
    });
    const [finding] = findingsOf({ a: roof(144), u: unsettled }, box(599, 300, tag(120)));
    expect(finding).toMatchObject({ verdict: "cannot-tell", areas: ["u"] });
  });

  it("is too close to the one and cannot be told of the other", () => {
    const unsettled = roof(144, {
      label: "A-2",
      outline: rectangle(600, 0, 900, 600),
      classification: { is: "not-settled", reason: "", by: "" },
    });
    const found = findingsOf({ a: roof(144), u: unsettled }, box(600, 300, tag(143, "top")));
    expect(found.map(({ verdict, areas, stretches }) => [verdict, areas[0], stretches])).toEqual([
      ["too-close", "a", []],
      ["cannot-tell", "u", []],
    ]);
  });

  // 24 in. by 4 in., turned about its middle, counter-clockwise from +x by its length: its long side lies along an edge that goes up by 30 degrees.
  it.each([30, 120])("turned by %d degrees is as far from an edge as its side", (turn) => {
    const [c, s] = [Math.cos(Math.PI / 6), Math.sin(Math.PI / 6)];
    const at = (along: number, across: number): [number, number] => [
      300 + along * c - across * s,
      300 + along * s + across * c,
    ];
    const beside = roof(100, {
      label: "Beside",
      outline: [at(-100, 7), at(100, 7), at(100, 60), at(-100, 60)],
    });
    const size = { width: inch(turn === 30 ? 4 : 24), length: inch(turn === 30 ? 24 : 4), depth: inch(10) };
    const found = findingOf(
      { a: roof(200), b: beside },
      box(300, 300, tag(105, "top"), { item: "other", size, rotationDeg: turn }),
    );
    expect(found.areas[0]).toBe("b");
    expect(found.leastIn).toBeCloseTo(7 - 2, 9);
  });

  it("is the lower of two decks one over the other", () => {
    const floor = roof(130, { label: "A-2", classification: { is: "floor-above", reason: "storey", by: "K" } });
    expect(findingOf({ a: roof(144), f: floor }, box(300, 300, tag(120))).verdict).toBe("not-governed");
    // Above that floor, the roof is next.
    expect(findingOf({ a: roof(144), f: floor }, box(300, 300, tag(136)))).toMatchObject({ verdict: "clear" });
  });
});

it.each([0, 30, 100])("a corner of a box turned by %d degrees that alone lies under a deck lies under it", (turn) => {
  const angle = (turn * Math.PI) / 180;
  const size = { width: inch(8), length: inch(20), depth: inch(4) };
  for (const [along, across] of [
    [-10, -4],
    [10, -4],
    [10, 4],
    [-10, 4],
  ] as const) {
    // The deck reaches half an inch around a place a quarter of an inch inside the corner.
    const [u, v] = [along * 0.975, across * 0.9375];
    const [x, y] = [300 + u * Math.cos(angle) - v * Math.sin(angle), 300 + u * Math.sin(angle) + v * Math.cos(angle)];
    const open = roof(144, {
      label: "Open",
      outline: rectangle(x - 0.5, y - 0.5, x + 0.5, y + 0.5),
      classification: { is: "not-settled", reason: "", by: "" },
    });
    const element = box(300, 300, tag(100, "top"), { item: "other", size, rotationDeg: turn });
    const found = findingsOf({ a: roof(200), o: open }, element);
    expect(
      found.map(({ verdict, areas }) => [verdict, areas[0]]),
      `${along}, ${across}`,
    ).toEqual([["cannot-tell", "o"]]);
  }
});
