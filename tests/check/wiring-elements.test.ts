import { describe, expect, it } from "vitest";
import { checkJob, createChecker } from "../../src/check/check-job.ts";
import type { Finding, Reason } from "../../src/check/finding.ts";
import { runProfile } from "../../src/check/run-profile.ts";
import type { Rack } from "../../src/job/elements/rack.ts";
import type { Run } from "../../src/job/elements/run.ts";
import { NO_FACTS } from "../../src/job/fields.ts";
import {
  check,
  facts,
  findingOf,
  findingsOf,
  inch,
  inchJob,
  rectangle,
  roof,
  run,
  tag,
  withParts,
} from "./inch-job.ts";

const all = (node: Reason): string[] => [`${node.text} ${node.value ?? ""}`, ...node.children.flatMap(all)];
const words = ({ reasons }: Finding): string => all(reasons).join("\n");
const emt = (tradeSize: string) => ({ type: "emt", tradeSize, outsideDiameter: null });
const raceway = (wiring: Run["wiring"], more = {}) => ({ label: "", wiring, facts: NO_FACTS, ...more });
const rack = (z: number, more: Partial<Rack> = {}): Rack => ({
  kind: "rack",
  label: "K-1",
  viewport: "v1",
  // 0.922, 2.197 and 1.163 in. across, by ANSI C80.3.
  raceways: [raceway(emt("3/4")), raceway(emt("2")), raceway(emt("1"))],
  spacing: { is: "centres", apart: inch(4) },
  vertices: [
    { at: [100, 300], tag: tag(z, "bottom") },
    { at: [400, 300], tag: tag(z, "bottom") },
  ],
  ...more,
});

describe("a rack", () => {
  it("has a finding for each raceway, all bearing at one elevation, and says which governs", () => {
    const found = findingsOf({ a: roof(144) }, rack(141));
    expect(found.map(({ element, about, verdict }) => [element, about, verdict])).toEqual([
      ["K-1/1", "1", "clear"],
      ["K-1/2", "2", "too-close"],
      ["K-1/3", "3", "clear"],
    ]);
    expect(found.map(({ leastIn }) => leastIn)).toEqual([2.078, 0.803, 1.837].map((n) => expect.closeTo(n, 9)));
    expect(words(found[0]!)).toContain("K-1/2 is the highest of 3 raceways that bear on K-1, and governs it");
    expect(words(found[1]!)).toContain("K-1/2 is the highest of 3 raceways that bear on K-1, and governs it");
  });

  it("reads a tag to the top or the centre as that of its largest raceway", () => {
    const tagged = (basis: "top" | "centre", z: number) => {
      const at = (x: number) => ({ at: [x, 300] as const, tag: tag(z, basis) });
      return findingsOf({ a: roof(144) }, rack(0, { vertices: [at(100), at(400)] })).map(({ leastIn }) => leastIn);
    };
    const bottoms = [2.078, 0.803, 1.837].map((n) => expect.closeTo(n, 9));
    expect(tagged("top", 141 + 2.197)).toEqual(bottoms);
    expect(tagged("centre", 141 + 2.197 / 2)).toEqual(bottoms);
  });

  it("explains the axis of a smaller raceway by that of the largest, which its tags name", () => {
    const at = (x: number, basis: "centre" | "top", z: number) => ({ at: [x, 300] as const, tag: tag(z, basis) });
    for (const [basis, z] of [
      ["top", 143],
      ["centre", 143 - 2.197 / 2],
    ] as const) {
      const raceways = [raceway(emt("3/4")), raceway(emt("2"))];
      const element = rack(0, { raceways, vertices: [at(100, basis, z), at(400, basis, z)] });
      const [small] = findingsOf({ a: roof(144) }, element);
      // Both bear 2.197 in. below that top, and the smaller is 0.922 in. across (ANSI C80.3).
      const axis = 143 - 2.197 + 0.922 / 2;
      const steps: Reason[] = [];
      const walk = (step: Reason): void => {
        steps.push(step);
        step.children.forEach(walk);
      };
      walk(small!.reasons);
      const told = steps.filter(({ quantity }) => quantity?.is === "axis");
      expect(told.length).toBeGreaterThan(0);
      for (const { quantity, children } of told) {
        expect(quantity!.in).toBeCloseTo(axis, 9);
        expect(children.at(-1)!.text).toContain("this one lies lower");
      }
    }
  });

  it("that goes through a deck has a penetration of each raceway, apart from the others", () => {
    const at = (z: number) => ({ at: [300, 300] as const, tag: tag(z, "bottom") });
    const found = findingsOf({ a: roof(144) }, rack(0, { vertices: [at(100), at(200)] }));
    expect(found.map(({ about, penetration }) => [about, penetration])).toEqual([
      ["1-through", true],
      ["2-through", true],
      ["3-through", true],
    ]);
  });

  it("withholds a verdict where a size it needs is not known, and only there", () => {
    const unknown = [raceway(emt("3/4")), raceway({ type: "emt", tradeSize: "9", outsideDiameter: null })];
    const bottom = findingsOf({ a: roof(144) }, rack(141, { raceways: unknown }));
    expect(bottom.map(({ verdict }) => verdict)).toEqual(["clear", "cannot-tell"]);
    const at = (x: number) => ({ at: [x, 300] as const, tag: tag(142, "top") });
    const top = findingsOf({ a: roof(144) }, rack(0, { raceways: unknown, vertices: [at(100), at(400)] }));
    expect(top.map(({ verdict }) => verdict)).toEqual(["cannot-tell", "cannot-tell"]);
    const offsets = rack(141, { spacing: { is: "offsets", offsets: [inch(-4), inch(0)] } });
    expect(findingsOf({ a: roof(150) }, offsets).map(({ verdict }) => verdict)).toEqual([
      "clear",
      "clear",
      "cannot-tell",
    ]);
  });

  it("lies where it is spaced: only what reaches under a low roof beside the line is too close to it", () => {
    const low = roof(142, { label: "A-2", outline: rectangle(0, 0, 600, 297) });
    const high = roof(170, { label: "A-1", outline: rectangle(0, 297, 600, 600) });
    // Traced to the right: the last raceway lies 4 in. to the right of it, at y = 296, under the low roof.
    const found = findingsOf({ low, high }, rack(140.5));
    expect(found.map(({ verdict }) => verdict)).toEqual(["clear", "clear", "too-close"]);
  });

  it("is lowered as a whole by the remedy of the raceway that governs, and then is clear", () => {
    const base = withParts(inchJob(), { a: roof(144) }, { e1: rack(141) });
    const [, governing] = checkJob(base).findings;
    expect(governing!.remedies[0]).toMatchObject({ kind: "lower", byIn: 0.75 });
    const after = findingsOf({ a: roof(144) }, rack(140.25));
    expect(after.every(({ verdict }) => verdict === "clear")).toBe(true);
  });

  it("is offered other wiring for the raceway that is too close, whichever it is", () => {
    for (const order of [
      ["3/4", "2", "1"],
      ["2", "1", "3/4"],
      ["1", "3/4", "2"],
    ]) {
      const raceways = order.map((size) => raceway(emt(size)));
      const close = findingsOf({ a: roof(144) }, rack(141, { raceways })).filter(({ verdict }) => verdict !== "clear");
      expect(close.map(({ about, verdict }) => [about, verdict])).toEqual([[`${order.indexOf("2") + 1}`, "too-close"]]);
      const offered = close[0]!.remedies.find(({ kind }) => kind === "change-wiring");
      expect(offered?.wiring?.types).toEqual(["rmc", "imc"]);
    }
  });

  it("answers for each raceway with its own facts", () => {
    const rmc = { type: "rmc", tradeSize: "2", outsideDiameter: null };
    const steel = raceway(rmc, { facts: facts({ steelFittings: true }) });
    const found = findingsOf({ a: roof(144) }, rack(142, { raceways: [steel, raceway(emt("2"))] }));
    expect(found.map(({ verdict }) => verdict)).toEqual(["not-governed", "too-close"]);
  });

  it("is told the same after edits as from the start, and its profile is that of its highest raceway", () => {
    const checker = createChecker();
    const one = withParts(inchJob(), { a: roof(144) }, { e1: rack(141) });
    checker(one);
    const two = withParts(inchJob(), { a: roof(144) }, { e1: rack(142) });
    const moved = { ...one, elements: two.elements };
    const facts2 = (findings: readonly Finding[]) => findings.map((f) => [f.element, f.verdict, f.number, f.leastIn]);
    expect(facts2(checker(moved).findings)).toEqual(facts2(checkJob(moved).findings));
    const profile = runProfile(one, "e1", checkJob(one))!;
    expect(profile).toMatchObject({ label: "K-1/2", radiusIn: 2.197 / 2 });
    expect(profile.stretches).toHaveLength(1);
  });
});

const line = (z: number, more: Partial<Run> = {}) =>
  run(
    [
      [100, 300, z],
      [400, 300, z],
    ],
    more,
  );

describe("couplings", () => {
  it("of a size of their own count where the tables have none", () => {
    // Cable of one's own diameter of 1 in.: couplings 2 in. across reach half an inch farther.
    const cable = { type: "mc", tradeSize: "own", outsideDiameter: inch(1) };
    const own: Partial<Run> = { wiring: cable, couplings: { is: "own", length: inch(2) } };
    expect(findingOf({ a: roof(144) }, line(144 - 0.5 - 2 - 0.01, own)).verdict).toBe("clear");
    expect(findingOf({ a: roof(144) }, line(144 - 0.5 - 2 + 0.01, own)).verdict).toBe("borderline");
  });

  // 3/4 EMT is 0.922 in. across, its coupling 1.25 by the table: 0.164 more on each side.
  it("make a run borderline whose tube is clear and whose couplings would not be", () => {
    const z = 144 - 1.6 - 0.461;
    expect(findingOf({ a: roof(144) }, line(z)).verdict).toBe("clear");
    const finding = findingOf({ a: roof(144) }, line(z, { couplings: { is: "table" } }));
    expect(finding).toMatchObject({ verdict: "borderline", leastIn: expect.closeTo(1.6, 9) });
    expect(finding.intervalIn![0]).toBeCloseTo(1.6 - 0.164, 9);
    expect(finding.reasons.text).toContain("where they sit is not recorded");
    expect(finding.stretches).toEqual([{ fromIn: 0, toIn: 300 }]);
    const lower = finding.remedies.find(({ kind }) => kind === "lower")!;
    expect(findingOf({ a: roof(144) }, line(z - lower.byIn!, { couplings: { is: "table" } })).verdict).toBe("clear");
  });

  it("change nothing where the tube itself is too close, or both are clear", () => {
    const own: Partial<Run> = { couplings: { is: "own", length: inch(1.25) } };
    expect(findingOf({ a: roof(144) }, line(143, own)).verdict).toBe("too-close");
    expect(findingOf({ a: roof(144) }, line(144 - 1.664 - 0.461, own)).verdict).toBe("clear");
  });

  it("are asked for where they are to be by a table that has none", () => {
    const mc = { type: "mc", tradeSize: "12/2", outsideDiameter: null };
    const finding = findingOf({ a: roof(144) }, line(120, { wiring: mc, couplings: { is: "table" } }));
    expect(finding.verdict).toBe("cannot-tell");
  });

  it("are said not to be counted where nobody recorded them", () => {
    expect(words(findingOf({ a: roof(144) }, line(143)))).toContain("Not counted, as nobody has recorded it for R-1");
  });
});

describe("bends", () => {
  it("come nearer to what lies inside them than their corner does", () => {
    // A corner at (300, 300); a low roof whose corner points into it.
    const high = roof(200, { label: "A-1" });
    const low = roof(140, { label: "A-2", outline: rectangle(200, 307, 293, 400) });
    const corner = (more: Partial<Run>) =>
      run(
        [
          [100, 300, 140],
          [300, 300, 140],
          [300, 500, 140],
        ],
        more,
      );
    const found = (more: Partial<Run>) => findingsOf({ high, low }, corner(more));
    // As traced both legs pass the low roof 7 in. off. The curve stands radius x (sqrt 2 - 1) inside the corner, on the way to the roof's own corner.
    expect(found({})).toMatchObject([{ verdict: "clear", leastIn: expect.closeTo(7 - 0.461, 9) }]);
    const [bent, ...none] = found({ bends: { is: "own", length: inch(20) } });
    expect(none).toEqual([]);
    expect(bent).toMatchObject({ verdict: "too-close" });
    expect(bent!.leastIn).toBeCloseTo(Math.hypot(7, 7) - 20 * (Math.SQRT2 - 1) - 0.461, 2);
    // Its stretch lies about the corner, at station 200.
    expect(bent!.stretches).toHaveLength(1);
    const [{ fromIn, toIn }] = bent!.stretches as [{ fromIn: number; toIn: number }];
    expect((fromIn + toIn) / 2).toBeCloseTo(200, 0);
    expect(found({ bends: { is: "table" } })).toMatchObject([{ verdict: "clear" }]);
  });
});

describe("a wireway", () => {
  const wireway = { type: "wireway", tradeSize: "4x4", outsideDiameter: null };
  it("is told by its height, level and up a slope", () => {
    expect(findingOf({ a: roof(144) }, line(140, { wiring: wireway })).leastIn).toBeCloseTo(2, 9);
    const own = { ...wireway, section: { width: inch(8), height: inch(6) } };
    expect(findingOf({ a: roof(144) }, line(140, { wiring: own })).leastIn).toBeCloseTo(1, 9);
    const rising = run(
      [
        [100, 300, 110],
        [400, 300, 140],
      ],
      { wiring: wireway },
    );
    // Up across the section leans back: its upper edge is 2 cos over the axis at its end.
    expect(findingOf({ a: roof(144) }, rising).leastIn).toBeCloseTo(4 - 2 * (10 / Math.hypot(10, 1)), 9);
  });

  it("reaches above the surface by a number, and is tagged to its bottom and top", () => {
    expect(findingOf({ a: roof(144) }, line(143, { wiring: wireway })).leastIn).toBeCloseTo(-1, 9);
    const tagged = (basis: "top" | "bottom", z: number) =>
      run(
        [
          [100, 300, tag(z, basis)],
          [400, 300, tag(z, basis)],
        ],
        { wiring: wireway },
      );
    expect(findingOf({ a: roof(144) }, tagged("top", 142)).leastIn).toBeCloseTo(2, 9);
    expect(findingOf({ a: roof(144) }, tagged("bottom", 138)).leastIn).toBeCloseTo(2, 9);
  });
});

describe("flexible types", () => {
  it("never pass by their droop, and say what they are taken for", () => {
    const fmc = { type: "fmc", tradeSize: "1/2", outsideDiameter: null };
    const without = findingOf({ a: roof(144) }, line(143, { wiring: fmc }));
    const drooping = findingOf({ a: roof(144) }, line(143, { wiring: fmc, droop: inch(6) }));
    expect(drooping).toMatchObject({ verdict: "too-close", leastIn: without.leastIn });
    expect(words(without)).toContain("FMC hangs lower between its supports than at them, never higher");
    expect(words(drooping)).toContain('droop 6", not counted');
    expect(words(findingOf({ a: roof(144) }, line(143)))).not.toContain("hangs lower");
  });
});

describe("drops, risers and penetrations", () => {
  it("counts the length of a drop among the stations, and its top as what is nearest", () => {
    const finding = findingOf(
      { a: roof(144) },
      run([
        [100, 300, 143],
        [100, 300, 100],
        [200, 300, 100],
      ]),
    );
    expect(finding).toMatchObject({ verdict: "too-close", leastIn: expect.closeTo(1 - 0.461, 9) });
    expect(finding.stretches[0]!.toIn).toBeCloseTo(1.5 + 0.461 - 1, 5);
  });

  it("names a stub-up as a penetration of its own, and judges the rest by itself", () => {
    const stub = (z: number) =>
      findingsOf(
        { a: roof(144) },
        run([
          [100, 300, z],
          [300, 300, z],
          [300, 300, 160],
        ]),
      );
    const [only, ...none] = stub(130);
    expect(none).toEqual([]);
    expect(only).toMatchObject({ verdict: "cannot-tell", penetration: true, about: "through" });
    expect(only!.remedies[0]!.text).toContain("Have the penetration of R-1 through A-1 looked at by itself");
    const both = stub(143);
    expect(both.map(({ verdict, about }) => [verdict, about])).toEqual([
      ["too-close", undefined],
      ["cannot-tell", "through"],
    ]);
    expect(both[0]).toMatchObject({ leastIn: expect.closeTo(1 - 0.461, 9), stretches: [{ fromIn: 0 }] });
  });

  it("stays too close where it goes through at a slope", () => {
    const [finding, ...none] = findingsOf(
      { a: roof(144) },
      run([
        [100, 300, 130],
        [200, 300, 160],
      ]),
    );
    expect(none).toEqual([]);
    expect(finding).toMatchObject({ verdict: "too-close", penetration: true });
  });

  it("is never clear wholly above a deck, nor where an exception does not reach", () => {
    const above = line(160);
    expect(findingOf({ a: roof(144) }, above).verdict).toBe("cannot-tell");
    expect(check({ a: roof(144) }, { e1: above, e2: rack(160) }).counts.clear).toBe(0);
  });
});
