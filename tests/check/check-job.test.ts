import { describe, expect, it } from "vitest";
import { checkJob, createChecker } from "../../src/check/check-job.ts";
import type { Reason } from "../../src/check/finding.ts";
import {
  box,
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

// Outside diameter of 3/4 EMT: 0.922 in. (ANSI C80.3). Clearance: 1-1/2 in., 38 mm in a metric job (domain practice, NFPA 70).
const R = 0.922 / 2;
const texts = (r: Reason): string[] => [`${r.text} ${r.value ?? ""}`, ...r.children.flatMap(texts)];

describe("distance to a level deck", () => {
  it("is clear exactly at 1 1/2 in.", () => {
    const found = findingOf(
      { a: roof(144) },
      run([
        [10, 10, 144 - 1.5 - R],
        [200, 10, 144 - 1.5 - R],
      ]),
    );
    expect(found.verdict).toBe("clear");
    expect(found.leastIn).toBeCloseTo(1.5, 9);
  });

  it("is too close a hair above that, over the whole length", () => {
    const found = findingOf(
      { a: roof(144) },
      run([
        [10, 10, 142.5 - R + 0.001],
        [200, 10, 142.5 - R + 0.001],
      ]),
    );
    expect(found.verdict).toBe("too-close");
    expect(found.stretches).toEqual([{ fromIn: 0, toIn: 190 }]);
    expect(found.number).toBe(1);
  });

  it("reads tags to bottom and top by half the outside diameter, not the trade size", () => {
    const to = (basis: "top" | "bottom") =>
      findingOf(
        { a: roof(144) },
        run([
          [10, 10, tag(142, basis)],
          [200, 10, tag(142, basis)],
        ]),
      );
    expect(to("top").leastIn).toBeCloseTo(2, 9);
    expect(to("bottom").leastIn).toBeCloseTo(2 - 0.922, 9);
  });

  it("asks 38 mm, not 38.1, of a metric job", () => {
    const base = inchJob();
    const metric = { ...base, settings: { job: { ...base.settings.job, system: "metric" as const } } };
    const at = 144 - R - 38.05 / 25.4;
    expect(
      findingOf(
        { a: roof(144) },
        run([
          [10, 10, at],
          [200, 10, at],
        ]),
        metric,
      ).verdict,
    ).toBe("clear");
    expect(
      findingOf(
        { a: roof(144) },
        run([
          [10, 10, at],
          [200, 10, at],
        ]),
      ).verdict,
    ).toBe("too-close");
  });

  it("finds where a rising run comes too close: axis at 142.5 - R", () => {
    // From 146 to 148.5 over 400 in.: the limit 148.5 - 0.461 = 148.039 is met after 2.039 / 2.5 of the length. The tolerance at
    // the limit, 1e-7 in. across, is 1.6e-5 in. along a run that rises 1 in 160.
    const [found] = findingsOf(
      { a: roof(150) },
      run([
        [10, 10, 146],
        [410, 10, 148.5],
      ]),
    );
    const limit = 150 - 1.5 - R;
    const station = ((limit - 146) / 2.5) * Math.hypot(400, 2.5);
    expect(found?.verdict).toBe("too-close");
    expect(found?.stretches[0]?.fromIn).toBeCloseTo(station, 4);
    expect(found?.stretches[0]?.toIn).toBeCloseTo(Math.hypot(400, 2.5), 6);
  });

  it("is linear in plan between two tags, over vertices without one", () => {
    const found = findingOf(
      { a: roof(150) },
      run([
        [0, 10, 140],
        [100, 10, null],
        [300, 10, 146],
      ]),
    );
    expect(texts(found.reasons).join("\n")).toContain("Tag at vertex 3");
    expect(found.leastIn).toBeCloseTo(4 - R, 9);
  });
});

describe("sloped and bounded decks", () => {
  const sloped = roof(null, {
    elevation: {
      datum: { from: "project" },
      basis: "top-of-steel",
      layers: [],
      shape: { is: "slope", at: inch(144), point: [0, 0], towards: [100, 0], rise: 1 / 48, text: '1/4" per foot' },
      plusMinus: null,
    },
  });

  it("measures square to the deck: vertical gap times the cosine of the slope", () => {
    // Worked: the deck falls 1/4 in. a foot from 144 at x = 0; under x = 480 it is at 134. A level run along y at 130: gap 4.
    const found = findingOf(
      { a: sloped },
      run([
        [480, 100, 130],
        [480, 400, 130],
      ]),
    );
    const cos = 1 / Math.sqrt(1 + (1 / 48) ** 2);
    expect(found.leastIn).toBeCloseTo(4 * cos - R, 9);
    expect(found.verticalIn).toBeCloseTo(4 - R, 9);
  });

  it("goes through three spots", () => {
    const spots = roof(null, {
      elevation: {
        datum: { from: "project" },
        basis: "bottom-of-deck",
        layers: [],
        shape: {
          is: "spots",
          spots: [
            { at: [0, 0], elevation: inch(144) },
            { at: [480, 0], elevation: inch(134) },
            { at: [0, 480], elevation: inch(144) },
          ],
        },
        plusMinus: null,
      },
    });
    const level = run([
      [480, 100, 130],
      [480, 400, 130],
    ]);
    expect(findingOf({ a: spots }, level).leastIn).toBeCloseTo(findingOf({ a: sloped }, level).leastIn!, 9);
  });

  it("keeps away from the edge of a lower roof beside it", () => {
    // Lower roof ends at x = 600 with its lowest surface at 120; a run 1 in. beside the edge, 120.5 up, under a higher roof.
    const areas = {
      low: roof(120, { label: "A-1" }),
      high: roof(180, { label: "A-2", outline: rectangle(600, 0, 1000, 600) }),
    };
    const found = findingOf(
      areas,
      run([
        [601, 100, 120.5],
        [601, 400, 120.5],
      ]),
    );
    expect(found.verdict).toBe("too-close");
    expect(found.leastIn).toBeCloseTo(Math.hypot(1, 0.5) - R, 9);
    expect(found.areas[0]).toBe("low");
  });

  it("reports the least distance over all roofs, however far", () => {
    // 10 ft under its own roof, 50 in. beside the edge of a lower one.
    const areas = { low: roof(120), high: roof(240, { label: "A-2", outline: rectangle(600, 0, 1000, 600) }) };
    const found = findingOf(
      areas,
      run([
        [650, 100, 120],
        [650, 400, 120],
      ]),
    );
    expect(found.verdict).toBe("clear");
    expect(found.leastIn).toBeCloseTo(50 - R, 9);
    expect(found.areas[0]).toBe("low");
  });
});

describe("conversion to the lowest surface", () => {
  const with_ = (elevation: Partial<ReturnType<typeof roof>["elevation"]>, deck = {}) =>
    findingOf(
      { a: roof(150, { elevation: { ...roof(150).elevation, ...elevation }, deck: { ...roof(150).deck, ...deck } }) },
      run([
        [10, 10, 140],
        [200, 10, 140],
      ]),
    );
  it("takes top of steel as the lowest surface", () =>
    expect(with_({ basis: "top-of-steel" }).leastIn).toBeCloseTo(10 - R, 9));
  it("takes the deck's depth off top of deck", () =>
    expect(with_({ basis: "top-of-deck" }).leastIn).toBeCloseTo(8.5 - R, 9));
  it("takes slab and deck off top of slab", () =>
    expect(with_({ basis: "top-of-slab", layers: [{ name: "slab", thickness: inch(2.5) }] }).leastIn).toBeCloseTo(
      6 - R,
      9,
    ));
  it("takes the whole assembly off top of roofing", () =>
    expect(
      with_({
        basis: "top-of-roofing",
        layers: [
          { name: "membrane", thickness: { value: 1.27, unit: "mm" } },
          { name: "insulation", thickness: inch(4) },
        ],
      }).leastIn,
    ).toBeCloseTo(10 - 1.5 - 4 - 0.05 - R, 9));
  it("cannot tell without the thicknesses", () => {
    expect(with_({ basis: "top-of-roofing" }).verdict).toBe("cannot-tell");
    expect(with_({ basis: "top-of-roofing", layers: [{ name: "insulation", thickness: null }] }).verdict).toBe(
      "cannot-tell",
    );
    expect(with_({ basis: "top-of-deck" }, { profile: "steel-other" }).verdict).toBe("cannot-tell");
  });
});

describe("roof or floor", () => {
  const close = run([
    [10, 10, 143],
    [200, 10, 143],
  ]);
  const as = (is: "roof" | "floor-above" | "not-settled") =>
    roof(144, { classification: { is, reason: "plan of level 2", by: "" } });
  it("does not govern under a floor", () =>
    expect(findingOf({ a: as("floor-above") }, close).verdict).toBe("not-governed"));
  it("withholds the verdict while it is not settled, even far below", () => {
    expect(findingOf({ a: as("not-settled") }, close).verdict).toBe("cannot-tell");
    expect(
      findingOf(
        { a: as("not-settled") },
        run([
          [10, 10, 100],
          [200, 10, 100],
        ]),
      ).verdict,
    ).toBe("cannot-tell");
  });
  it("tells roof from floor along one run", () => {
    const areas = {
      r: roof(144),
      f: roof(144, {
        label: "A-2",
        outline: rectangle(600, 0, 1000, 600),
        classification: { is: "floor-above", reason: "", by: "" },
      }),
    };
    const found = findingOf(
      areas,
      run([
        [500, 10, 143],
        [700, 10, 143],
      ]),
    );
    expect(found.verdict).toBe("too-close");
    // To the edge, and as far beyond as the clearance reaches round it: sqrt((1.5 + R)² - 1²).
    expect(found.stretches[0]?.toIn).toBeCloseTo(100 + Math.sqrt((1.5 + R) ** 2 - 1), 6);
  });
  it("cannot tell where no deck is outlined", () => {
    const found = findingOf(
      { a: roof(144) },
      run([
        [500, 10, 100],
        [700, 10, 100],
      ]),
    );
    expect(found.verdict).toBe("cannot-tell");
    expect(found.stretches).toEqual([{ fromIn: 100, toIn: 200 }]);
  });
});

describe("exceptions and scope", () => {
  const at = (type: string, steelFittings: boolean | null) =>
    run(
      [
        [10, 10, 143],
        [200, 10, 143],
      ],
      { wiring: { type, tradeSize: "3/4", outsideDiameter: null }, facts: facts({ steelFittings }) },
    );
  it("lets RMC with listed steel fittings stay", () =>
    expect(findingOf({ a: roof(144) }, at("rmc", true)).verdict).toBe("not-governed"));
  it("does not where the fittings are not", () =>
    expect(findingOf({ a: roof(144) }, at("rmc", false)).verdict).toBe("too-close"));
  it("cannot tell while nobody recorded them, and names the fact", () => {
    const found = findingOf({ a: roof(144) }, at("imc", null));
    expect(found.verdict).toBe("cannot-tell");
    expect(found.reasons.text).toMatch(/listed/);
  });
  it("does not need the fact where the distance is kept", () => {
    const far = run(
      [
        [10, 10, 100],
        [200, 10, 100],
      ],
      { wiring: { type: "rmc", tradeSize: "3/4", outsideDiameter: null } },
    );
    expect(findingOf({ a: roof(144) }, far).verdict).toBe("clear");
  });
  it("takes 2 in. of concrete from the top of the corrugations, and not less", () => {
    const covered = (value: number) =>
      roof(144, {
        deck: { profile: "composite-2", depth: null, concreteCover: { is: "thickness", thickness: inch(value) } },
      });
    expect(findingOf({ a: covered(2) }, at("emt", null)).verdict).toBe("not-governed");
    expect(findingOf({ a: covered(1.875) }, at("emt", null)).verdict).toBe("too-close");
    const unknown = roof(144, { deck: { profile: "composite-2", depth: null, concreteCover: { is: "not-recorded" } } });
    expect(findingOf({ a: unknown }, at("emt", null)).verdict).toBe("cannot-tell");
  });
  it("reaches wood decks from 2026 on", () => {
    const wood = roof(144, { deck: { profile: "wood", depth: inch(0.75), concreteCover: { is: "none" } } });
    expect(findingOf({ a: wood }, at("emt", null), inchJob("us-2023")).verdict).toBe("not-governed");
    expect(findingOf({ a: wood }, at("emt", null), inchJob("us-2026")).verdict).toBe("too-close");
  });
  it("says it cannot tell under an edition it does not know", () =>
    expect(findingOf({ a: roof(144) }, at("emt", null), inchJob("us-1899")).verdict).toBe("cannot-tell"));
});

describe("above the lowest surface", () => {
  it("names a run in the flutes", () => {
    const found = findingOf(
      { a: roof(144) },
      run([
        [10, 10, 144.7],
        [200, 10, 144.7],
      ]),
    );
    expect(found.verdict).toBe("concealed");
    expect(found.stretches).toEqual([{ fromIn: 0, toIn: 190 }]);
    expect(found.leastIn!).toBeLessThan(0);
  });
  it("is never clear above the deck", () => {
    const found = findingOf(
      { a: roof(144) },
      run([
        [10, 10, 160],
        [200, 10, 160],
      ]),
    );
    expect(found.verdict).toBe("cannot-tell");
  });
  it("is a penetration where it passes straight through, and no distance settles it", () => {
    const found = findingOf(
      { a: roof(144) },
      run([
        [10, 10, 120],
        [10, 10, 170],
      ]),
    );
    expect(found).toMatchObject({ verdict: "cannot-tell", penetration: true, about: "through" });
    expect(found.reasons.text).toContain("passes through");
  });
});

describe("tolerances", () => {
  it("calls a reading that straddles the limit borderline", () => {
    const z = 142.5 - R - 0.1;
    const found = findingOf(
      { a: roof(144) },
      run([
        [10, 10, tag(z, "centre", { plusMinus: inch(0.25) })],
        [200, 10, tag(z, "centre", { plusMinus: inch(0.25) })],
      ]),
    );
    expect(found.verdict).toBe("borderline");
    expect(found.intervalIn![0]).toBeCloseTo(1.35, 9);
    expect(found.intervalIn![1]).toBeCloseTo(1.85, 9);
  });
  it("is too close or clear where the whole interval is", () => {
    const at = (z: number) =>
      findingOf(
        { a: roof(144) },
        run([
          [10, 10, tag(z, "centre", { plusMinus: inch(0.25) })],
          [200, 10, tag(z, "centre", { plusMinus: inch(0.25) })],
        ]),
      ).verdict;
    expect(at(143)).toBe("too-close");
    expect(at(140)).toBe("clear");
  });
});

describe("boxes", () => {
  it("measures a box with its cover down by its depth", () => {
    const found = findingOf({ a: roof(144) }, box(100, 100, tag(141, "bottom")));
    expect(found.leastIn).toBeCloseTo(1.5, 9); // 144 - 141 - 1.5
    expect(found.verdict).toBe("clear");
  });
  it("and sideways by its length", () => {
    const found = findingOf({ a: roof(144) }, box(100, 100, tag(141, "bottom"), { cover: "sideways" }));
    expect(found.leastIn! < 0 || found.leastIn === 0).toBe(true);
    expect(found.verdict).toBe("too-close");
  });
  it("on an RMC run goes with the run's exception", () => {
    const rmc = run(
      [
        [10, 100, 140],
        [100, 100, 140],
      ],
      { wiring: { type: "rmc", tradeSize: "3/4", outsideDiameter: null }, facts: facts({ steelFittings: true }) },
    );
    const result = check({ a: roof(144) }, { r: rmc, b: box(100, 100, tag(142, "bottom")) });
    expect(result.findings.map((f) => f.verdict)).toEqual(["not-governed", "clear"]);
  });
  it("alone is too close", () =>
    expect(findingOf({ a: roof(144) }, box(100, 100, tag(142, "bottom"))).verdict).toBe("too-close"));
});

describe("what is missing", () => {
  it("withholds the verdict without a tag, and names it", () => {
    const found = findingOf(
      { a: roof(144) },
      run([
        [10, 10, 120],
        [200, 10, null],
      ]),
    );
    expect(found.verdict).toBe("cannot-tell");
    expect(found.reasons.text).toContain("R-1 has no elevation tag at vertex 2");
  });
  it("withholds it without the deck's elevation", () =>
    expect(
      findingOf(
        { a: roof(null) },
        run([
          [10, 10, 120],
          [200, 10, 120],
        ]),
      ).verdict,
    ).toBe("cannot-tell"));
  it.each(["us-2008", "us-2017", "us-2023", "us-2026"])(
    "withholds it under %s while nobody said what the deck is",
    (edition) => {
      const unsaid = roof(144, { deck: { ...roof(144).deck, profile: "" } });
      const found = findingOf(
        { a: unsaid },
        run([
          [10, 10, 120],
          [200, 10, 120],
        ]),
        inchJob(edition),
      );
      expect(found.verdict).toBe("cannot-tell");
      expect(found.reasons.text).toContain("what its deck is made of");
    },
  );
  it("withholds it without a scale", () => {
    const base = inchJob();
    const noScale = {
      ...base,
      viewports: { v1: { ...base.viewports.v1!, scale: { stated: null, measured: null, use: null } } },
    };
    expect(
      findingOf(
        { a: roof(144) },
        run([
          [10, 10, 120],
          [200, 10, 120],
        ]),
        noScale,
      ).verdict,
    ).toBe("cannot-tell");
  });
  it("withholds it under an outline that crosses itself", () => {
    const bow = roof(144, {
      outline: [
        [0, 0],
        [600, 600],
        [600, 0],
        [0, 600],
      ],
    });
    const result = check(
      { a: bow },
      {
        e: run([
          [10, 300, 100],
          [100, 300, 100],
        ]),
      },
    );
    expect(result.findings.map((f) => f.verdict)).toEqual(["cannot-tell"]);
    expect(result.notices.map((n) => n.code)).toContain("area.outline");
  });
  it("notices roofs that overlap at different elevations", () => {
    const result = check({ a: roof(144), b: roof(150, { label: "A-2" }) }, {});
    expect(result.notices.map((n) => n.code)).toEqual(["area.overlap-elevations"]);
  });
});

describe("remedies", () => {
  it("lowers to a step of a tape, verified", () => {
    const found = findingOf(
      { a: roof(144) },
      run([
        [10, 10, 142.4],
        [200, 10, 142.4],
      ]),
    );
    const lower = found.remedies.find((r) => r.kind === "lower");
    // 142.4 has to come down to 142.039 or less: 0.361, so 3/8 in.
    expect(lower?.byIn).toBe(0.375);
    expect(lower?.text).toContain("at vertex 1");
    const again = findingOf(
      { a: roof(144) },
      run([
        [10, 10, 142.4 - 0.375],
        [200, 10, 142.4 - 0.375],
      ]),
    );
    expect(again.verdict).toBe("clear");
  });
});

describe("order and memory", () => {
  const elements = {
    x: run(
      [
        [10, 10, 143],
        [200, 10, 143],
      ],
      { label: "R-10" },
    ),
    y: run(
      [
        [10, 20, 143],
        [200, 20, 143],
      ],
      { label: "R-2" },
    ),
    z: run(
      [
        [10, 30, 100],
        [200, 30, 100],
      ],
      { label: "R-3" },
    ),
    b: box(50, 50, tag(143), { label: "B-1" }),
  };
  it("orders by label with numbers by value, and numbers the problems", () => {
    const { findings } = check({ a: roof(144) }, elements);
    expect(findings.map((f) => [f.element, f.number])).toEqual([
      ["B-1", 1],
      ["R-2", 2],
      ["R-3", null],
      ["R-10", 3],
    ]);
  });
  it("checks again only what an edit touches, to the same result", () => {
    const job = withParts(inchJob(), { a: roof(144) }, elements);
    const checker = createChecker();
    checker(job);
    expect(checker.checked()).toBe(4);
    const edited = {
      ...job,
      elements: {
        ...job.elements,
        z: run(
          [
            [10, 30, 143],
            [200, 30, 143],
          ],
          { label: "R-3" },
        ),
      },
    };
    expect(checker(edited)).toEqual(checkJob(edited));
    expect(checker.checked()).toBe(5); // the run alone: no box is near it
    const other = { ...edited, areas: { a: roof(150) } };
    expect(checker(other)).toEqual(checkJob(other));
    expect(checker.checked()).toBe(9);
  });
});

it("says not governed under a floor, though a roof is beside and far enough", () => {
  const areas = {
    r: roof(144),
    f: roof(144, {
      label: "A-2",
      outline: rectangle(600, 0, 1000, 600),
      classification: { is: "floor-above", reason: "level 2 plan", by: "" },
    }),
  };
  expect(
    findingOf(
      areas,
      run([
        [603, 10, 140],
        [603, 300, 140],
      ]),
    ).verdict,
  ).toBe("not-governed");
});
