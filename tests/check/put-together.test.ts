import { describe, expect, it } from "vitest";
import type { Area } from "../../src/job/schema.ts";
import { plainSheet, plainViewport } from "../job/plain-records.ts";
import { box, check, findingOf, findingsOf, inchJob, rectangle, roof, run, tag } from "./inch-job.ts";

/** Half of 3/4 EMT, 0.922 in. across (ANSI C80.3). */
const R = 0.461;
type Vertex = Parameters<typeof run>[0][number];
const left = (z: number | null, more: Partial<Area> = {}) =>
  roof(z, { label: "A-1", outline: rectangle(0, 0, 300, 600), ...more });
const right = (z: number | null, more: Partial<Area> = {}) =>
  roof(z, { label: "A-2", outline: rectangle(300, 0, 600, 600), ...more });

const along: readonly Vertex[] = [
  [100, 50, 143],
  [500, 50, 143],
];

describe("the findings of one element", () => {
  const told = (areas: Record<string, Area>, vertices: readonly Vertex[]) =>
    findingsOf(areas, run(vertices)).map(({ verdict, stretches }) => [
      verdict,
      ...stretches.map(({ fromIn, toIn }) => [Number(fromIn.toFixed(6)), Number(toIn.toFixed(6))]),
    ]);

  it("come in order of station, whichever is worse", () => {
    // Under the left deck 0.539 in. below it, beyond x = 300 under none; a roof's edge is near for hypot(1.961^2 - 1) more, by 1.5 + R.
    const past = Math.sqrt((1.5 + R) ** 2 - 1);
    const there = told({ a: left(144) }, along);
    expect(there).toEqual([
      ["too-close", [0, Number((200 + past).toFixed(6))]],
      ["cannot-tell", [200, 400]],
    ]);
    const back = told({ a: left(144) }, [...along].reverse());
    expect(back).toEqual([
      ["cannot-tell", [0, 200]],
      ["too-close", [Number((200 - past).toFixed(6)), 400]],
    ]);
  });

  it("a stretch whose elevation is not given is told from vertex to vertex, and marked at its middle", () => {
    const found = findingOf(
      { a: roof(144) },
      run([
        [50, 50, 100],
        [150, 50, 100],
        [350, 50, null],
      ]),
    );
    expect(found).toMatchObject({ verdict: "cannot-tell", stretches: [{ fromIn: 100, toIn: 300 }], at: [250, 50] });
  });

  it("a run that is too close is marked where it is nearest; a box at its place, and it has no stretches", () => {
    const rising = run([
      [50, 50, 100],
      [450, 80, 143],
    ]);
    expect(findingOf({ a: roof(144) }, rising).at).toEqual([450, 80]);
    const low = findingOf({ a: roof(144) }, box(120, 70, tag(143, "top")));
    expect(low).toMatchObject({ verdict: "too-close", stretches: [], at: [120, 70] });
  });

  it("say the same remedy once, though two decks call for it", () => {
    const { remedies } = findingOf({ a: left(144), b: right(144) }, run(along));
    const texts = remedies.map(({ text }) => text);
    expect(texts.filter((text) => /RMC|IMC/.test(text))).toHaveLength(1);
    expect(new Set(texts).size).toBe(texts.length);
  });

  it("cannot be told where the rules are not known here, and ask for them", () => {
    const base = inchJob("us-1850");
    const found = findingOf({ a: roof(144) }, run(along), base);
    expect(found).toMatchObject({ verdict: "cannot-tell", stretches: [], at: [100, 50], areas: [] });
    expect(found.remedies.map(({ text }) => text)).toEqual(["Choose the rule edition that applies."]);
    expect(found.reasons.text).toContain('"us-1850" is not known here');
  });
});

it("what is offered against one finding is offered though the other stays", () => {
  const [close, open] = findingsOf({ a: left(144) }, run(along));
  expect([close!.verdict, open!.verdict]).toEqual(["too-close", "cannot-tell"]);
  // 0.539 in. below the deck where 1.5 is asked for: 0.961 in. to go, an inch by the tape.
  expect(close!.remedies.find(({ kind }) => kind === "lower")).toMatchObject({ byIn: 1 });
  expect(open!.remedies.map(({ kind }) => kind)).toEqual(["outline"]);
});

describe("the findings of a job", () => {
  it("come as its sheets are leafed through, by file name, then page; on one sheet by label", () => {
    const pages = [
      ["b.pdf", 1],
      ["a.pdf", 10],
      ["a.pdf", 2],
      ["c.pdf", 1],
      ["a.pdf", 1],
    ] as const;
    const base = inchJob();
    const sheets = pages.map(([name, page], i) => [
      `s${i}`,
      plainSheet({ page, file: { sha256: `${i}`.repeat(64), name, bytes: 1 } }),
    ]);
    const viewports = pages.map((_, i) => [`v${i}`, plainViewport(`s${i}`, 72, { storey: "level-1" })]);
    const job = { ...base, sheets: Object.fromEntries(sheets), viewports: Object.fromEntries(viewports) };
    // Every second label first, so that neither the order of the records nor that of the labels is that of the sheets.
    const elements = pages.flatMap((_, i) =>
      ["R-10", "R-2"].map((label) => [`e${i}-${label.slice(2)}`, run(along, { label, viewport: `v${i}` })] as const),
    );
    const { findings } = check({}, Object.fromEntries(elements), job);
    expect(findings.map(({ sheet, element }) => `${sheet} ${element}`)).toEqual(
      ["s4", "s2", "s1", "s0", "s3"].flatMap((sheet) => [`${sheet} R-2`, `${sheet} R-10`]),
    );
    expect(findings.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
  });
});

describe("the least distance is over all roofs", () => {
  // The run lies so far under one deck and level with the lowest surface of another, whose edge is so far from its axis in plan.
  it.each([
    [60, 5],
    [60, 20],
    [60, 30],
    [60, 59],
    [60, 90],
    [12, 5],
    [12, 11],
    [12, 13],
    [22, 10],
    [30, 23],
  ])("also to one that is not above it: %d in. under a deck, the edge of another %d in. away", (up, away) => {
    const beside = roof(140, { label: "Beside", outline: rectangle(301, 0, 600, 600) });
    const element = run([
      [301 - away, 50, 140],
      [301 - away, 250, 140],
    ]);
    const found = findingOf({ a: left(140 + up), b: beside }, element);
    expect(found.verdict).toBe("clear");
    expect(found.leastIn).toBeCloseTo(Math.min(up, away) - R, 9);
  });
});

describe("which deck is next above where one of two over a place has no elevation", () => {
  const middle = (more: Partial<Area>) => roof(null, { label: "A-2", outline: rectangle(200, 0, 400, 600), ...more });
  const under = run([
    [100, 50, 140],
    [500, 50, 140],
  ]);
  const floor = { classification: { is: "floor-above", reason: "", by: "" } } as const;

  it("a roof of unknown elevation may be the next, and nothing is told under it", () => {
    const [found, ...more] = findingsOf({ a: roof(144), u: middle({}) }, under);
    expect(more).toEqual([]);
    expect(found).toMatchObject({ verdict: "cannot-tell", areas: ["u"] });
    expect(found!.stretches.map(({ fromIn, toIn }) => [fromIn, toIn])).toEqual([[100, 300]]);
    const inIt = findingsOf({ a: roof(144), u: middle({}) }, box(300, 50, tag(140, "top")));
    expect(inIt.map(({ verdict }) => verdict)).toEqual(["cannot-tell"]);
  });

  it("a floor of unknown elevation does not hide a roof that is known", () => {
    const areas = { a: roof(144), u: middle(floor) };
    expect(findingOf(areas, under)).toMatchObject({ verdict: "clear", areas: ["a"] });
    expect(findingOf(areas, box(300, 50, tag(140, "top")))).toMatchObject({ verdict: "clear", areas: ["a"] });
    expect(findingOf({ u: roof(null, floor) }, under).verdict).toBe("not-governed");
    const both = { u: roof(null, floor), w: roof(null, { label: "A-3", ...floor }) };
    expect(findingOf(both, under).verdict).toBe("not-governed");
  });

  // The run's segments: one passes the small deck by on the far side of its bounding box, the other comes within 1 in. of its corner.
  it("one beside the run that a single segment comes near is spoken of", () => {
    const small = roof(null, { label: "Small", outline: rectangle(150, 0, 170, 20) });
    const areas = { a: roof(200), s: small };
    const bent = (x: number): readonly Vertex[] => [
      [10, 10, 140],
      [x, 250, 140],
      [x, 10, 140],
    ];
    expect(findingsOf(areas, run(bent(171.4))).map(({ areas: of }) => of)).toContainEqual(["s"]);
    expect(findingOf(areas, run(bent(172.4))).verdict).toBe("clear");
  });

  // A coupling 2 in. across stands out 0.539 in.: with one there the run comes within 1 1/2 in. of an edge 1.9 in. off its surface.
  it("one beside the run that couplings may come near is spoken of", () => {
    const areas = { a: left(200), u: right(null) };
    const beside = (away: number, couplings: object) =>
      findingsOf(
        areas,
        run(
          [
            [300 - R - away, 50, 140],
            [300 - R - away, 250, 140],
          ],
          couplings,
        ),
      ).map(({ verdict }) => verdict);
    const couplings = { couplings: { is: "own", length: { value: 2, unit: "in" } } };
    expect(beside(1.9, {})).toEqual(["clear"]);
    expect(beside(1.9, couplings)).toEqual(["cannot-tell"]);
    expect(beside(2.05, couplings)).toEqual(["clear"]);
  });
});
