import { describe, expect, it } from "vitest";
import { act } from "../../src/editor/acts.ts";
import { addArea, classifyArea } from "../../src/editor/edits/areas.ts";
import { deleteRecords } from "../../src/editor/edits/delete-records.ts";
import { rename } from "../../src/editor/edits/rename.ts";
import {
  addStoreyHole,
  addStoreyOutline,
  followOutlines,
  outlinesOver,
  removeStoreyHole,
  setStanding,
  setStoreyRing,
  speakFor,
} from "../../src/editor/edits/storey-outlines.ts";
import { lacks } from "../../src/editor/lacks.ts";
import { wordLack } from "../../src/editor/words.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { jobText, parseJobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { makesOf, type StoreyOutline } from "../../src/job/storey-outline.ts";
import { applyChecked, refusals } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { furnished, twoSheets, valueIn } from "./sample-job.ts";

const square = (x: number, y: number, side: number): Point2[] => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];

/** The sample with the outline "s1" over the lower left of its area "a1". */
function stepped(): Job {
  const job = furnished();
  return applyChecked(job, addStoreyOutline(job, "s1", "v-roof", square(100, 100, 200)));
}

describe("the outline of a storey above", () => {
  it("starts with nothing known, and every change of it can be taken back", () => {
    let job = stepped();
    expect(job.storeyOutlines.s1).toEqual({
      label: "S-1",
      viewport: "v-roof",
      outline: square(100, 100, 200),
      holes: [],
      above: { is: "not-recorded" },
      reason: "",
      by: "",
    });
    job = applyChecked(job, setStanding(job, "s1", { above: { is: "occupied-storey" } }));
    job = applyChecked(job, addStoreyHole(job, "s1", square(150, 150, 20)));
    job = applyChecked(job, setStoreyRing(job, "s1", square(100, 100, 250)));
    expect(job.storeyOutlines.s1?.holes).toHaveLength(1);
    job = applyChecked(job, removeStoreyHole(job, "s1", 0));
    job = applyChecked(job, rename(job, "storeyOutlines", "s1", "Penthouse"));
    expect(job.storeyOutlines.s1).toMatchObject({ label: "Penthouse", holes: [], above: { is: "occupied-storey" } });
    const second = applyChecked(job, addStoreyOutline(job, "s2", "v-roof", square(0, 0, 10)));
    expect(second.storeyOutlines.s2?.label).toBe("S-1");
  });

  it("is refused where it crosses itself, is gone, or takes a label in use", () => {
    const job = stepped();
    const crossed: Point2[] = [
      [0, 0],
      [10, 10],
      [10, 0],
      [0, 10],
    ];
    expect(refusals(addStoreyOutline(job, "s2", "v-roof", crossed))).toContain("ring.crosses-itself");
    expect(refusals(addStoreyHole(job, "s1", crossed))).toContain("ring.crosses-itself");
    expect(refusals(addStoreyOutline(job, "s2", "nowhere", square(0, 0, 5)))).toEqual(["edit.no-such-record"]);
    expect(refusals(removeStoreyHole(job, "s1", 0))).toEqual(["edit.no-such-record"]);
    expect(refusals(setStanding(job, "s9", { by: "x" }))).toEqual(["edit.no-such-record"]);
    expect(refusals(rename(job, "storeyOutlines", "s1", "A-1"))).toEqual(["edit.label-taken"]);
  });

  it("makes a floor by itself only as an occupied storey; anything else takes a decision, a reason and a name", () => {
    const says = (above: StoreyOutline["above"], reason = "", by = "") => makesOf({ above, reason, by });
    expect(says({ is: "not-recorded" }, "because", "K.")).toBe("not-settled");
    expect(says({ is: "occupied-storey" })).toBe("floor-above");
    for (const what of ["mezzanine", "canopy", "plaza-deck", "balcony", "something-else"] as const) {
      expect(says({ is: "other", what, makes: "floor-above" })).toBe("not-settled");
      expect(says({ is: "other", what, makes: "floor-above" }, "AHJ letter", " ")).toBe("not-settled");
      expect(says({ is: "other", what, makes: "roof" }, " ", "K.")).toBe("not-settled");
      expect(says({ is: "other", what, makes: "floor-above" }, "AHJ letter", "K.")).toBe("floor-above");
      expect(says({ is: "other", what, makes: "roof" }, "AHJ letter", "K.")).toBe("roof");
    }
  });
});

describe("an area that follows from outlines", () => {
  it("takes those over it, keeps reason and name, and goes back to a plain record", () => {
    const job = stepped();
    const said = applyChecked(job, classifyArea(job, "a1", { reason: "level 2 plan", by: "K. Invented" }));
    expect(outlinesOver(said, said.areas.a1!)).toEqual(["s1"]);
    const follows = applyChecked(said, followOutlines(said, "a1"));
    const settled = { reason: "level 2 plan", by: "K. Invented" };
    expect(follows.areas.a1?.classification).toEqual({ is: "from-outline", outlines: ["s1"], ...settled });
    const roof = applyChecked(follows, classifyArea(follows, "a1", { is: "roof" }));
    expect(roof.areas.a1?.classification).toEqual({ is: "roof", ...settled });
    expect(refusals(classifyArea(job, "a1", { is: "from-outline", outlines: ["s9"] }))).toEqual([
      "edit.no-such-record",
    ]);
  });

  it("takes no outline of another frame, or beside it", () => {
    const job = stepped();
    const beside = applyChecked(job, addStoreyOutline(job, "s2", "v-roof", square(900, 900, 50)));
    const elsewhere = applyChecked(beside, addStoreyOutline(beside, "s3", "v-ceiling", square(100, 100, 50)));
    expect(outlinesOver(elsewhere, elsewhere.areas.a1!)).toEqual(["s1"]);
  });

  it("is spoken for by each outline that is let, in turn, and by none again", () => {
    let job = stepped();
    job = applyChecked(job, addStoreyOutline(job, "s2", "v-roof", square(320, 120, 50)));
    job = applyChecked(job, speakFor(job, "s2", "a1", true));
    job = applyChecked(job, speakFor(job, "s1", "a1", true));
    expect(job.areas.a1?.classification).toMatchObject({ is: "from-outline", outlines: ["s2", "s1"] });
    expect(valueIn(speakFor(job, "s1", "a1", true)).changes).toEqual([]);
    job = applyChecked(job, speakFor(job, "s2", "a1", false));
    job = applyChecked(job, speakFor(job, "s1", "a1", false));
    expect(job.areas.a1?.classification).toMatchObject({ is: "from-outline", outlines: [] });
    expect(refusals(speakFor(job, "s9", "a1", true))).toEqual(["edit.no-such-record"]);
    expect(refusals(speakFor(job, "s1", "a9", true))).toEqual(["edit.no-such-record"]);
  });

  it("names an outline no more that is deleted, with its sheet or by itself", () => {
    let job = stepped();
    job = applyChecked(job, addStoreyOutline(job, "s2", "v-ceiling", square(0, 0, 50)));
    job = applyChecked(job, classifyArea(job, "a1", { is: "from-outline", outlines: ["s1", "s2"] }));
    const without = applyChecked(job, deleteRecords(job, [{ table: "storeyOutlines", id: "s1" }]));
    expect(without.areas.a1?.classification).toMatchObject({ outlines: ["s2"] });
    const noSheet = applyChecked(job, deleteRecords(job, [{ table: "sheets", id: "s-ceiling" }]));
    expect(Object.keys(noSheet.storeyOutlines)).toEqual(["s1"]);
    expect(noSheet.areas.a1?.classification).toMatchObject({ outlines: ["s1"] });
  });
});

describe("in the file", () => {
  it("a job without outlines has no such key, and one without the key has none", () => {
    const text = jobText(twoSheets());
    expect(text).not.toContain("storeyOutlines");
    const read = parseJobText(text);
    expect(read.ok && read.value.storeyOutlines).toEqual({});
  });

  it("a name that leads nowhere is refused with the place", () => {
    const job = JSON.parse(jobText(stepped()));
    job.areas.a1.classification = { is: "from-outline", outlines: ["s1", "attic"], reason: "", by: "" };
    job.storeyOutlines.s1.viewport = "gone";
    const read = parseJobText(JSON.stringify(job));
    expect(read.ok ? [] : read.problems.map(({ code, where }) => `${code} ${where}`)).toEqual([
      "job.no-such-storey-outline areas/a1/classification/outlines/1",
      "job.no-such-viewport storeyOutlines/s1/viewport",
    ]);
    job.areas.a1.classification = { is: "roof", outlines: [], reason: "", by: "" };
    const strange = parseJobText(JSON.stringify(job));
    expect(!strange.ok && strange.problems[0]?.code).toBe("job.unknown-key");
  });
});

describe("outlining the storey above", () => {
  it("is done by pointer, snapped to the deck below, selected, and undone in one step", () => {
    const work = new AtWork(furnished());
    const before = work.text;
    act("outline-storey").run(work.session);
    expect(work.state.stage).toBe("roof");
    work.session.setSheet("s-roof");
    for (const at of [
      [103, 98],
      [300, 100],
      [300, 400],
      [100, 400],
    ] as const)
      work.click(at);
    work.keys("Enter");
    expect(work.state.selection).toEqual({ table: "storeyOutlines", id: "new-1" });
    expect(work.state.job.storeyOutlines["new-1"]?.outline[0]).toEqual([100, 100]);
    expect(work.state.undo).toHaveLength(1);
    work.session.undo();
    expect(work.text).toBe(before);
    expect(work.state.selection).toBeNull();
  });

  it("is done by the keyboard alone, with a court cut out and a corner moved", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-roof");
    work.keys("u");
    for (const at of ["@120, 120", "@320, 120", "@320, 320", "@120, 320"]) work.type(at);
    work.keys("Enter");
    expect(work.state.job.storeyOutlines["new-1"]?.outline).toHaveLength(4);
    work.keys("k");
    for (const at of ["@200, 200", "@240, 200", "@240, 240"]) work.type(at);
    work.keys("Enter");
    expect(work.state.job.storeyOutlines["new-1"]?.holes).toHaveLength(1);
    work.keys(". a ArrowRight Enter");
    expect(work.state.job.storeyOutlines["new-1"]?.outline[0]?.[0]).toBeGreaterThan(120);
    work.session.select({ table: "storeyOutlines", id: "new-1" });
    work.keys("Delete");
    expect(work.state.job.storeyOutlines).toEqual({});
  });

  it("has to be selected for another ring or a court", () => {
    const work = new AtWork(furnished());
    expect(act("cut-court").enabled(work.state)).toBe(false);
    expect(work.session.start({ tool: "outline-storey", part: "hole" })).toBe(false);
    expect(work.notice).toBe("tool.no-storey-outline");
  });

  it("is picked by its edge, and settles the selected area by an act", () => {
    const work = new AtWork(stepped());
    work.session.setSheet("s-roof");
    work.click([300, 200]);
    expect(work.state.selection).toEqual({ table: "storeyOutlines", id: "s1" });
    work.session.select({ table: "areas", id: "a1" });
    act("settle-from-outline").run(work.session);
    expect(work.state.job.areas.a1?.classification).toMatchObject({ is: "from-outline", outlines: ["s1"] });
  });
});

it("the stage Roof says what outlines lack", () => {
  const codes = (job: Job) =>
    lacks(job, null)
      .filter(({ code }) => code.includes("outline"))
      .map((lack) => [lack.code, wordLack(lack)]);
  let job = stepped();
  expect(codes(job).map(([code]) => code)).toEqual(["outlines-not-settled", "outlines-without-deck"]);
  job = applyChecked(job, setStanding(job, "s1", { above: { is: "occupied-storey" } }));
  job = applyChecked(job, speakFor(job, "s1", "a1", true));
  expect(codes(job)).toEqual([]);
  job = applyChecked(job, speakFor(job, "s1", "a1", false));
  expect(codes(job)).toContainEqual(["areas-without-outline", "1 area that no outline speaks for"]);
  job = applyChecked(job, addArea(job, "a2", "v-roof", square(600, 600, 50)));
  expect(codes(job)).toHaveLength(2);
});
