import { describe, expect, it } from "vitest";
import { checkJob, createChecker } from "../../src/check/check-job.ts";
import { decksAboveParted } from "../../src/check/decks-above.ts";
import type { Finding, Reason } from "../../src/check/finding.ts";
import { hangingRoom } from "../../src/check/hanging-room.ts";
import { checkMessages } from "../../src/check/messages.ts";
import { makeScene } from "../../src/check/scene.ts";
import { area as sizeOf } from "../../src/geometry/polygon.ts";
import { decksAboveWords } from "../../src/issue/decks-above-words.ts";
import { apply, editOf } from "../../src/job/edit.ts";
import type { Element } from "../../src/job/elements/element.ts";
import { problemText } from "../../src/job/messages.ts";
import { parseJob } from "../../src/job/parse-job.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import type { StoreyOutline } from "../../src/job/storey-outline.ts";
import { box, inch, inchJob, rectangle, roof, run, tag } from "./inch-job.ts";

/** The outline of an occupied storey over the lower half of the sample roof (0,0 to 600,600), its edge at y = 300, unless said otherwise. */
const storey = (more: Partial<StoreyOutline> = {}): StoreyOutline => ({
  label: "S-1",
  viewport: "v1",
  outline: rectangle(0, 0, 600, 300),
  holes: [],
  above: { is: "occupied-storey" },
  reason: "level 3 plan",
  by: "K. Invented",
  ...more,
});

const follows = (outlines: readonly string[], more: Partial<Area> = {}): Area =>
  roof(144, {
    classification: { is: "from-outline", outlines: [...outlines], reason: "the storey steps back", by: "J. Invented" },
    ...more,
  });

/** A job that the program opens. */
function jobWith(
  storeyOutlines: Record<string, StoreyOutline>,
  elements: Record<string, Element>,
  areas: Record<string, Area> = { a1: follows(Object.keys(storeyOutlines)) },
  base: Job = inchJob(),
): Job {
  const parsed = parseJob(JSON.parse(JSON.stringify({ ...base, areas, elements, storeyOutlines })));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}

const planTolerance = (value: number): Job => {
  const base = inchJob();
  const { job } = base.settings;
  return { ...base, settings: { job: { ...job, tolerances: { ...job.tolerances, plan: inch(value) } } } };
};

const partsOf = (job: Job) =>
  makeScene(job)
    .frame("v1")
    .areas.map((deck) => ({ key: deck.key, is: deck.classification.is, size: Math.round(sizeOf(deck.polygon)) }));

const findings = (job: Job): readonly Finding[] => checkJob(job).findings;
const only = (job: Job): Finding => {
  const [first, second] = findings(job);
  if (!first || second) throw new Error(`expected one finding, got ${findings(job).map(({ verdict }) => verdict)}`);
  return first;
};
const texts = ({ text, value, source, children }: Reason): string[] => [
  [text, value, source].filter(Boolean).join(" | "),
  ...children.flatMap(texts),
];

/** 3/4 EMT, 0.922 in. across; its axis 1 in. under the deck, so its top is 0.539 in. under it: too close under a roof. */
const HIGH = 143;

describe("a deck that the storey above leaves in part", () => {
  it("is parted at the step back, an L, worked by hand: 600 x 600 less an L of 600 x 200 and 250 x 400", () => {
    const outline: [number, number][] = [
      [0, 0],
      [600, 0],
      [600, 200],
      [250, 200],
      [250, 600],
      [0, 600],
    ];
    expect(partsOf(jobWith({ s1: storey({ outline }) }, {}))).toEqual([
      { key: "a1/roof-1", is: "roof", size: 350 * 400 },
      { key: "a1/floor-1", is: "floor-above", size: 600 * 200 + 250 * 400 },
    ]);
  });

  it("keeps a shaft in the storey roof, and an opening of the deck open, and nothing of it is a doubt about the outlines", () => {
    const job = jobWith(
      { s1: storey({ outline: rectangle(0, 0, 600, 600), holes: [rectangle(100, 100, 200, 200)] }) },
      {},
      { a1: follows(["s1"], { holes: [rectangle(400, 400, 450, 450)] }) },
    );
    expect(partsOf(job)).toEqual([
      { key: "a1/roof-1", is: "roof", size: 10000 },
      { key: "a1/floor-1", is: "floor-above", size: 600 * 600 - 10000 - 2500 },
    ]);
    expect(checkJob(job).notices).toEqual([]);
  });

  it("judges a run that crosses the border by where it is: too close under the roof, under a floor before it", () => {
    const job = jobWith(
      { s1: storey() },
      {
        e1: run([
          [50, 100, HIGH],
          [50, 500, HIGH],
        ]),
      },
    );
    const finding = only(job);
    expect(finding.verdict).toBe("too-close");
    expect(finding.areas).toEqual(["a1"]);
    // Under the roof from y = 300 on, and before it within reach of its edge: 1 in. below the deck in height, so by Pythagoras
    // sqrt((1.5 + 0.461)^2 - 1^2) = 1.6869 in. in plan.
    const [stretch, second] = finding.stretches;
    expect(second).toBeUndefined();
    expect(stretch!.fromIn).toBeCloseTo(200 - Math.sqrt(1.961 ** 2 - 1), 4);
    expect(stretch!.toIn).toBeCloseTo(400, 6);
  });

  it("has both a governed and a not governed stretch, the second in the reasons of a clear run", () => {
    const job = jobWith(
      { s1: storey() },
      {
        e1: run([
          [50, 100, 130],
          [50, 500, 130],
        ]),
      },
    );
    const finding = only(job);
    expect(finding.verdict).toBe("clear");
    const said = texts(finding.reasons);
    expect(said.some((text) => text.startsWith("R-1 lies under A-1, which has a floor above it there"))).toBe(true);
    expect(decksAboveParted(job, "e1")).toEqual([
      { areaId: "a1", is: "floor-above", fromOutline: true, stretches: [{ fromIn: 0, toIn: 200 }] },
      { areaId: "a1", is: "roof", fromOutline: true, stretches: [{ fromIn: 200, toIn: 400 }] },
    ]);
    expect(decksAboveWords(job, decksAboveParted(job, "e1"))).toEqual([
      `A-1: floor above, 0" to 16'-8"`,
      `A-1: roof deck, 16'-8" to 33'-4"`,
    ]);
    expect(said).toContain(
      "A-1 is a roof here, by the outline of the storey above | the storey steps back | decided by J. Invented",
    );
    expect(said).toContain(
      "S-1 does not reach it: an occupied storey, traced on Plan | level 3 plan | decided by K. Invented",
    );
    expect(said).toContain(
      "S-1 lies over it: an occupied storey, traced on Plan | level 3 plan | decided by K. Invented",
    );
  });

  it("does not govern what is wholly below the floor", () => {
    const job = jobWith({ s1: storey() }, { e1: box(300, 150, tag(HIGH, "top")) });
    const finding = only(job);
    expect(finding.verdict).toBe("not-governed");
    expect(texts(finding.reasons)[0]).toContain(
      "By the outline of the storey above: S-1, traced on Plan; the storey steps back",
    );
  });

  it("is near its own border like any edge: beside the roof by less than the clearance is too close", () => {
    const beside = (apart: number, base: Job = inchJob()) =>
      only(
        jobWith(
          { s1: storey() },
          {
            e1: run([
              [50, 300 - apart, 143.9],
              [500, 300 - apart, 143.9],
            ]),
          },
          undefined,
          base,
        ),
      ).verdict;
    // The tube reaches 0.461 in. out from its axis; at the height of the deck the distance is in plan.
    expect(beside(1.9)).toBe("too-close");
    expect(beside(2.1)).toBe("not-governed");
    // With 1 in. of plan tolerance neither is sure, until the tolerance is behind.
    expect(beside(1.9, planTolerance(1))).toBe("borderline");
    expect(beside(2.1, planTolerance(1))).toBe("borderline");
    expect(beside(2.9, planTolerance(1))).toBe("borderline");
    expect(beside(3.1, planTolerance(1))).toBe("not-governed");
  });

  it("counts how well the sheet of the storey lies on that of the deck", () => {
    const base = inchJob();
    const twoSheets: Job = {
      ...base,
      sheets: { ...base.sheets, s2: { ...base.sheets.s1!, title: "Level 3", page: 2 } },
      viewports: {
        ...base.viewports,
        v2: {
          ...base.viewports.v1!,
          sheet: "s2",
          name: "Level 3 plan",
          registration: {
            to: "v1",
            // The second point lies 4 in. farther than the scale has it: each residual is 2 in.
            pairs: [
              { label: "A/1", here: [0, 0], there: [0, 0] },
              { label: "A/5", here: [600, 0], there: [604, 0] },
            ],
          },
        },
      },
    };
    const job = jobWith({ s1: storey({ viewport: "v2" }) }, {}, undefined, twoSheets);
    for (const deck of makeScene(job).frame("v1").areas) expect(deck.planTolerance).toBeCloseTo(2, 9);
    expect(texts(only({ ...job, elements: { e1: box(300, 150, tag(100)) } }).reasons).join("\n")).toContain(
      "traced on Level 3 plan",
    );
  });

  it("has rooms of its own in the brief for the crew", () => {
    const rooms = hangingRoom(jobWith({ s1: storey() }, {}));
    expect(rooms.map(({ label, is }) => [label, is])).toEqual([
      ["A-1, where it is a roof", "room"],
      ["A-1, where there is a floor above", "floor-above"],
    ]);
  });

  it("is judged anew when an outline alone changes, as a check of the whole job would", () => {
    const job = jobWith({ s1: storey() }, { e1: box(300, 250, tag(HIGH, "top")) });
    const checker = createChecker();
    expect(checker(job).findings[0]?.verdict).toBe("not-governed");
    const after = storey({ outline: rectangle(0, 0, 600, 200) });
    const edit = editOf(job, "Move it", [{ table: "storeyOutlines", id: "s1", after }]);
    const moved = apply(job, edit);
    expect(checker(moved, edit).findings[0]?.verdict).toBe("too-close");
    expect(checker(moved).counts).toEqual(checkJob(moved).counts);
    expect(checker(job).findings[0]?.verdict).toBe("not-governed");
  });

  it("offers ways out and hangers where two roofs are left of it, each on its own side", () => {
    // A storey from y = 200 to 400 leaves a roof before and behind it; the run lies 10 in. into the one behind, its axis level with the deck less 1 in.
    const job = jobWith(
      { s1: storey({ outline: rectangle(0, 200, 600, 400) }) },
      {
        e1: run([
          [50, 410, HIGH],
          [500, 410, HIGH],
        ]),
      },
    );
    expect(partsOf(job).filter(({ is }) => is === "roof")).toHaveLength(2);
    const { remedies } = only(job);
    const move = remedies.find(({ kind }) => kind === "move");
    // To the edge 10 in., beyond it sqrt((1.5 + 0.461)^2 - 1^2) = 1.6869 in.: 11.6869, to the next 1/16 in. 11 11/16.
    expect(move?.byIn).toBe(11 + 11 / 16);
    expect(move?.shift?.[1]).toBeCloseTo(-(11 + 11 / 16), 9);
    expect(remedies.find(({ kind }) => kind === "support")?.text).toContain("tight to the deck of A-1");
  });

  it("lets only the outlines it names speak for it", () => {
    const job = jobWith({ s1: storey() }, { e1: box(300, 150, tag(HIGH, "top")) }, { a1: roof(144) });
    expect(only(job).verdict).toBe("too-close");
    expect(partsOf(job)).toEqual([{ key: "a1", is: "roof", size: 360000 }]);
  });
});

describe("what the outline alone does not settle", () => {
  const at = (y: number, outlines: Record<string, StoreyOutline>, z = HIGH) =>
    only(jobWith(outlines, { e1: box(300, y, tag(z, "top")) }));
  const canopy = (makes: "floor-above" | "roof" | "not-settled", more: Partial<StoreyOutline> = {}) =>
    storey({ above: { is: "other", what: "canopy", makes }, ...more });

  it.each([
    ["nothing recorded", storey({ above: { is: "not-recorded" } }), "S-1: what stands within it"],
    ["a canopy", canopy("not-settled"), "S-1: whether what stands within it (canopy) makes the deck below it a floor"],
    [
      "a canopy settled without a reason",
      canopy("floor-above", { reason: "" }),
      "S-1: why what stands within it (canopy) makes the deck below it a floor, and by whose decision",
    ],
    [
      "a canopy settled by nobody",
      canopy("roof", { by: " " }),
      "S-1: why what stands within it (canopy) makes the deck below it a roof, and by whose decision",
    ],
  ])("%s: cannot tell below it, even far below, and roof beside it", (_, outline, missing) => {
    for (const z of [HIGH, 100]) {
      const finding = at(150, { s1: outline }, z);
      expect(finding.verdict).toBe("cannot-tell");
      expect(texts(finding.reasons)).toContain(`Missing: ${missing}`);
      expect(finding.remedies.map(({ kind }) => kind)).toContain("settle");
    }
    expect(at(450, { s1: outline }).verdict).toBe("too-close");
    expect(at(450, { s1: outline }, 100).verdict).toBe("clear");
  });

  it("a person may record it either way", () => {
    expect(at(150, { s1: canopy("floor-above") }).verdict).toBe("not-governed");
    expect(at(150, { s1: canopy("roof") }).verdict).toBe("too-close");
    expect(partsOf(jobWith({ s1: canopy("roof") }, {}))).toEqual([{ key: "a1", is: "roof", size: 360000 }]);
  });

  it("an occupied storey over a canopy is a floor all the same", () => {
    expect(at(150, { s1: storey(), s2: canopy("not-settled", { label: "S-2" }) }).verdict).toBe("not-governed");
  });

  it("no outline named, one that crosses itself, one without a scale, one on a sheet of its own: cannot tell, and what is missing is named", () => {
    const element = { e1: box(300, 450, tag(100, "top")) };
    const none = only(jobWith({ s1: storey() }, element, { a1: follows([]) }));
    expect(none.verdict).toBe("cannot-tell");
    expect(texts(none.reasons)).toContain("Missing: A-1: the outline of the storey above it");

    const crossed = storey({
      outline: [
        [0, 0],
        [600, 300],
        [600, 0],
        [0, 300],
      ],
    });
    expect(checkJob(jobWith({ s1: crossed }, element)).notices.map(({ code, where }) => `${code} ${where}`)).toEqual([
      "storey.outline storeyOutlines/s1/outline",
    ]);
    expect(texts(only(jobWith({ s1: crossed }, element)).reasons)).toContain(
      "Missing: S-1: an outline that does not cross itself",
    );

    const base = inchJob();
    const apart = (scale: boolean): Job => ({
      ...base,
      viewports: {
        ...base.viewports,
        v2: {
          ...base.viewports.v1!,
          name: "Level 3 plan",
          scale: scale ? base.viewports.v1!.scale : { stated: null, measured: null, use: null },
        },
      },
    });
    const elsewhere = (scale: boolean) =>
      only(jobWith({ s1: storey({ viewport: "v2" }) }, element, undefined, apart(scale)));
    expect(texts(elsewhere(false).reasons)).toContain("Missing: S-1: the scale of Level 3 plan");
    expect(texts(elsewhere(true).reasons)).toContain("Missing: S-1: how Level 3 plan lies on Plan");
    for (const finding of [elsewhere(true), elsewhere(false)]) {
      expect(finding.verdict).toBe("cannot-tell");
      expect(finding.remedies[0]?.kind).toBe("settle");
    }
  });

  it("one that lies nowhere over the deck is noticed, and leaves it a roof", () => {
    const beside = jobWith(
      { s1: storey({ outline: rectangle(700, 0, 900, 300) }) },
      { e1: box(300, 150, tag(HIGH, "top")) },
    );
    expect(checkJob(beside).notices.map((notice) => problemText(notice, checkMessages))).toEqual([
      expect.stringMatching(/^S-1 speaks for A-1, but lies nowhere over it: as far as it goes, all of A-1 is roof\./),
    ]);
    expect(only(beside).verdict).toBe("too-close");
  });

  it("where one outline is missing, what another makes a floor still is one", () => {
    const crossed = storey({
      label: "S-2",
      outline: [
        [0, 300],
        [600, 600],
        [600, 300],
        [0, 600],
      ],
    });
    expect(at(150, { s1: storey(), s2: crossed }).verdict).toBe("not-governed");
    expect(at(450, { s1: storey(), s2: crossed }).verdict).toBe("cannot-tell");
  });

  it("an area whose own outline crosses itself cannot be told by any storey", () => {
    const bowTie: [number, number][] = [
      [0, 0],
      [600, 600],
      [600, 0],
      [0, 600],
    ];
    const areas = { a1: follows(["s1"], { outline: bowTie }) };
    const finding = only(jobWith({ s1: storey() }, { e1: box(300, 100, tag(100, "top")) }, areas));
    expect(finding.verdict).toBe("cannot-tell");
  });
});

describe("strips that tracing leaves", () => {
  const along = (x: number, z = HIGH): Record<string, Element> => ({
    e1: run([
      [x, 100, z],
      [x, 500, z],
    ]),
  });

  it("a strip of roof no wider than the tolerances is neither dropped nor a roof: it says so", () => {
    // 1.5 in. left along x = 600, with 1 in. of tolerance for each of the two outlines.
    const job = jobWith(
      { s1: storey({ outline: rectangle(0, 0, 598.5, 600) }) },
      along(599),
      undefined,
      planTolerance(1),
    );
    expect(partsOf(job).map(({ key, is }) => [key, is])).toEqual([
      ["a1/strip-1", "not-settled"],
      ["a1/floor-1", "floor-above"],
    ]);
    const finding = only(job);
    expect(finding.verdict).toBe("cannot-tell");
    expect(texts(finding.reasons).join("\n")).toMatch(
      /whether the strip beside the storey above, about 1 1\/2" wide, is roof or/,
    );
    expect(finding.remedies[0]).toMatchObject({ kind: "settle" });
    // Wider than the tolerances it is roof.
    const wider = jobWith(
      { s1: storey({ outline: rectangle(0, 0, 590, 600) }) },
      along(599),
      undefined,
      planTolerance(1),
    );
    expect(only(wider).verdict).toBe("too-close");
  });

  it("a strip of floor no wider than the tolerances makes no floor", () => {
    const job = jobWith(
      { s1: storey({ outline: rectangle(598.5, 0, 900, 600) }) },
      along(599.3),
      undefined,
      planTolerance(1),
    );
    expect(partsOf(job)).toEqual([{ key: "a1", is: "roof", size: 360000 }]);
    expect(only(job).verdict).toBe("too-close");
    expect(texts(only(job).reasons).join("\n")).toContain("S-1 covers no more of it than tracing may be off");
  });

  it("rounding leaves none where the storey shares the deck's slanting edges", () => {
    const deck: [number, number][] = [
      [0.1, 0.3],
      [577.7, 33.3],
      [611.1, 571.9],
      [17.3, 613.7],
    ];
    const cut: [number, number][] = [deck[0]!, deck[1]!, [591.137, 250.071], [5.91, 207.33]];
    const job = jobWith({ s1: storey({ outline: cut }) }, along(300, 100), { a1: follows(["s1"], { outline: deck }) });
    expect(partsOf(job).map(({ key }) => key)).toEqual(["a1/roof-1", "a1/floor-1"]);
    expect(only(job).verdict).toBe("clear");
  });
});
