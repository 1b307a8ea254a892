import { describe, expect, it } from "vitest";
import type { Remedy } from "../../src/check/finding.ts";
import { remedyEdit } from "../../src/check/remedies/remedy-edit.ts";
import { apply } from "../../src/job/edit.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { box, check, facts, findingOf, inch, inchJob, rectangle, roof, run, tag } from "./inch-job.ts";

const remedyOf = (kind: Remedy["kind"], areas: Record<string, Area>, element: Element, job?: Job): Remedy | undefined =>
  findingOf(areas, element, job).remedies.find((remedy) => remedy.kind === kind);

/** A high roof over (0,0) to (600,600), lowest surface at 160, and a low one over its left 300, at 144. */
const twoRoofs = {
  high: roof(160, { label: "High", outline: rectangle(300, 0, 600, 600) }),
  low: roof(144, { label: "Low", outline: rectangle(0, 0, 300, 600) }),
};

describe("the shortest move sideways", () => {
  it("leaves just the clearance beside the edge of the roof, on a step of the tape", () => {
    // Axis level with the low deck, 1" beside its edge: 1 1/2" and half of 0.922" from it is 1.961", so 0.961" to go: 1".
    const beside = run([
      [301, 100, 144],
      [301, 300, 144],
    ]);
    const move = remedyOf("move", twoRoofs, beside);
    expect(move?.byIn).toBe(1);
    expect(move?.shift?.[0]).toBeCloseTo(1, 9);
    expect(move?.shift?.[1]).toBeCloseTo(0, 9);
    expect(move?.text).toBe('Move R-1 sideways by 1" to the right on the sheet, out of reach of Low.');
  });

  it("counts what the height already gives", () => {
    // 1" lower than the deck: beside it by sqrt(1.961² - 1²) = 1.6868"; 1" is there, 11/16" lacks.
    const beside = run([
      [301, 100, 143],
      [301, 300, 143],
    ]);
    expect(remedyOf("move", twoRoofs, beside)?.byIn).toBe(11 / 16);
  });

  it("leads out from under a roof by the nearest edge, and is worth as much for a box", () => {
    // A 4" square box, its left side at 294: 6" to the edge and 1 1/2" beyond it.
    const move = remedyOf("move", twoRoofs, box(296, 300, tag(144, "top")));
    expect(move?.byIn).toBe(7.5);
    expect(move?.shift?.[0]).toBeCloseTo(7.5, 9);
  });

  it("is offered in steps of a millimetre in a metric job, and clears 38 mm", () => {
    const job = inchJob();
    const metric: Job = { ...job, settings: { job: { ...job.settings.job, system: "metric" } } };
    const beside = run([
      [301, 100, 144],
      [301, 300, 144],
    ]);
    // 38 mm and 0.461" (11.709 mm) are 49.71 mm from the edge; 25.4 mm is there: 24.31 mm lacks.
    expect(remedyOf("move", twoRoofs, beside, metric)?.byIn).toBeCloseTo(25 / 25.4, 9);
  });

  it("says on a turned page where it leads as the page is displayed", () => {
    const job = inchJob();
    const turned: Job = { ...job, sheets: { s1: { ...job.sheets.s1!, rotate: 90 } } };
    const beside = run([
      [301, 100, 144],
      [301, 300, 144],
    ]);
    // A page turned clockwise by a quarter shows its own +x pointing down.
    expect(remedyOf("move", twoRoofs, beside, turned)?.text).toContain("down on the sheet");
  });

  it("is not offered where another roof is as low, where no deck is outlined, or beyond ten feet", () => {
    const beside = run([
      [301, 100, 144],
      [301, 300, 144],
    ]);
    const other = { ...twoRoofs, high: roof(144.5, { label: "High", outline: rectangle(300, 0, 600, 600) }) };
    for (const areas of [other, { low: twoRoofs.low }])
      expect(
        check(areas, { e1: beside }).findings.flatMap(({ remedies }) => remedies.map(({ kind }) => kind)),
      ).not.toContain("move");
    const deepUnder = run([
      [100, 100, 142.5],
      [100, 300, 142.5],
    ]);
    expect(findingOf(twoRoofs, deepUnder).verdict).toBe("too-close");
    expect(remedyOf("move", twoRoofs, deepUnder)).toBeUndefined();
  });

  it("goes round a corner where that is shorter, square to nothing", () => {
    // The low roof ends in a notch whose corner at (300, 300) is the nearest way out for a box just inside it.
    const areas = {
      high: roof(160, { label: "High" }),
      low: roof(144, {
        label: "Low",
        outline: [
          [0, 0],
          [300, 0],
          [300, 300],
          [0, 300],
        ],
      }),
    };
    // A run ending at the corner along the diagonal leaves along the diagonal: the end has to be 1.961" from the corner.
    const move = remedyOf(
      "move",
      areas,
      run([
        [301, 301, 144],
        [400, 400, 144],
      ]),
    );
    expect(move?.byIn).toBe(9 / 16);
    expect(move?.shift?.[0]).toBeCloseTo(move!.shift![1], 6);
    expect(move?.text).toContain("to the right and");
  });
});

describe("a support that leaves room", () => {
  const close = run([
    [100, 100, 142.5],
    [100, 300, 142.5],
  ]);
  it("is deep channel, and the words say what it leaves and what it does not allow for", () => {
    const text = remedyOf("support", { a: roof(144) }, close)?.text ?? "";
    // 1 5/8" - 1 1/2" = 1/8". A 3/4 EMT coupling, 1 1/4" across, reaches 0.164" past the tube: 1.461".
    expect(text).toBe(
      'Hang it from deep strut channel, 1 5/8", tight to the deck of A-1: it leaves 1 5/8", 1/8" more than the 1 1/2" asked for, before any allowance for fittings. Couplings 1 1/4" across would come within 1.461" (about 1 7/16"): allow for them. Not enough: strapped tight to the deck leaves 0"; shallow strut channel, 13/16" leaves 13/16".',
    );
  });
  it("holds under a slope too, and is not offered to boxes, nor where no support leaves enough", () => {
    const sloped = roof(null, {
      elevation: {
        ...roof(null).elevation,
        shape: { is: "slope", at: inch(144), point: [0, 0], towards: [600, 0], rise: 1 / 48, text: "1/4:12" },
      },
    });
    expect(remedyOf("support", { a: sloped }, close)).toBeDefined();
    expect(remedyOf("support", { a: roof(144) }, box(100, 100, tag(143.5, "top")))).toBeUndefined();
    const base = inchJob();
    const two: Job = {
      ...base,
      settings: {
        job: {
          ...base.settings.job,
          amendments: [
            {
              kind: "larger-clearance",
              clearance: { imperial: inch(2), metric: { value: 51, unit: "mm" } },
              reason: "Ordinance 7",
              authority: "Building department of Inventedville",
            },
          ],
        },
      },
    };
    expect(findingOf({ a: roof(144) }, close, two).verdict).toBe("too-close");
    expect(remedyOf("support", { a: roof(144) }, close, two)).toBeUndefined();
  });
});

describe("a change of wiring", () => {
  const close = run([
    [100, 100, 142.5],
    [100, 300, 142.5],
  ]);
  it("names the types and the facts they need", () => {
    const remedy = remedyOf("change-wiring", { a: roof(144) }, close);
    expect(remedy?.wiring?.types).toEqual(["rmc", "imc"]);
    expect(remedy?.wiring?.needs.map(({ fact }) => fact)).toEqual(["wiring.steelFittings"]);
    expect(remedy?.text).toContain("RMC or IMC");
  });
  it("is left out where it would not settle it: a box no run is traced up to", () => {
    const alone = box(100, 100, tag(143.5, "top"));
    expect(remedyOf("change-wiring", { a: roof(144) }, alone)).toBeUndefined();
    const result = check(
      { a: roof(144) },
      {
        e1: alone,
        r: run([
          [100, 100, 120],
          [300, 100, 120],
        ]),
      },
    );
    expect(result.findings.find(({ kind }) => kind === "box")?.remedies.map(({ kind }) => kind)).toContain(
      "change-wiring",
    );
  });
  it("is left out where a fact recorded stands against it", () => {
    const plastic = { ...close, facts: facts({ steelFittings: false }) } as Element;
    expect(remedyOf("change-wiring", { a: roof(144) }, plastic)).toBeUndefined();
  });
});

describe("carrying out", () => {
  it("lowers tags in their own unit, moves every point, and does nothing about what has to be recorded", () => {
    const job: Job = {
      ...inchJob(),
      areas: { a: roof(144) },
      elements: {
        e1: run([
          [1, 2, tag(0, "top", { length: { value: 12, unit: "ft" } })],
          [3, 4, tag(0, "top", { length: { value: 3000, unit: "mm" } })],
          [5, 6, tag(2, "top", { datum: { from: "below-deck" } })],
        ]),
      },
    };
    const carriedOut = (remedy: Remedy): Element => apply(job, remedyEdit(job, "e1", remedy)!).elements.e1!;
    const lowered = carriedOut({ kind: "lower", text: "", byIn: 1 });
    expect("vertices" in lowered && lowered.vertices.map(({ tag: t }) => t?.length)).toEqual([
      { value: 143, unit: "in" },
      { value: 2974.6, unit: "mm" },
      { value: 3, unit: "in" },
    ]);
    const moved = carriedOut({ kind: "move", text: "", byIn: 5, shift: [3, -4] });
    expect("vertices" in moved && moved.vertices.map(({ at }) => at)).toEqual([
      [4, -2],
      [6, 0],
      [8, 2],
    ]);
    expect(remedyEdit(job, "e1", { kind: "settle", text: "" })).toBeUndefined();
    expect(remedyEdit(job, "gone", { kind: "lower", text: "", byIn: 1 })).toBeUndefined();
  });
});

describe("a support to hang it from", () => {
  const offered = (element: Element, areas: Record<string, Area> = { a: roof(144) }): boolean[] =>
    check(areas, { e1: element }).findings.map(({ remedies }) => remedies.some(({ kind }) => kind === "support"));
  const close = [
    [100, 300, 143],
    [400, 300, 143],
  ] as const;

  it("is offered to a round raceway that lies under one deck", () => {
    expect(offered(run(close))).toEqual([true]);
  });

  it("is not to a wireway, nor to what bears on a rack or goes through the deck", () => {
    const section = { width: inch(8), height: inch(6) };
    const wiring = { type: "wireway", tradeSize: "4x4", outsideDiameter: null, section };
    expect(offered(run(close, { wiring }))).toEqual([false]);
    const rack: Element = {
      kind: "rack",
      label: "K-1",
      viewport: "v1",
      raceways: [{ label: "", wiring: { type: "emt", tradeSize: "2", outsideDiameter: null }, facts: facts({}) }],
      spacing: { is: "centres", apart: inch(4) },
      vertices: close.map(([x, y, z]) => ({ at: [x, y] as const, tag: tag(z) })),
    };
    expect(offered(rack)).toEqual([false]);
    const through = run([
      [100, 300, 100],
      [400, 300, 190],
    ]);
    expect(offered(through)).toEqual([false]);
  });

  it("is not where a part of it lies beside the deck, on either end", () => {
    const half = roof(144, { outline: rectangle(0, 0, 300, 600) });
    const far = roof(300, { label: "High", outline: rectangle(300, 0, 600, 600) });
    for (const way of [close, [...close].reverse()]) expect(offered(run(way), { a: half, b: far })).toEqual([false]);
  });
});
