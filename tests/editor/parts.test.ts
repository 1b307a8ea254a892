import { describe, expect, it } from "vitest";
import { addParts } from "../../src/editor/edits/add-parts.ts";
import { deleteRecords } from "../../src/editor/edits/delete-records.ts";
import { addRun } from "../../src/editor/edits/elements.ts";
import { setMeasuredScale, setStatedScale } from "../../src/editor/edits/scale.ts";
import { addViewport, partsOf, setViewport } from "../../src/editor/edits/sheets.ts";
import { addStorey } from "../../src/editor/edits/storeys.ts";
import { distance2 } from "../../src/geometry/point.ts";
import { applyTo } from "../../src/geometry/similarity.ts";
import { sheetToBuilding } from "../../src/job/registration.ts";
import type { Job } from "../../src/job/schema.ts";
import { scaleNotesIn } from "../../src/ui/scale-notes-in.ts";
import { viewsOffered } from "../../src/ui/views-offered.ts";
import { applyChecked, refusals } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { EMT, furnished, twoSheets, valueIn } from "./sample-job.ts";

/** The ceiling sheet at 1/4" = 1'-0" with a part on its right at 1/8" = 1'-0". */
function withPart(): Job {
  const job = twoSheets();
  const region: [number, number, number, number] = [900, 100, 1600, 1100];
  const parted = applyChecked(job, addViewport(job, "v-part", { sheet: "s-ceiling", name: "Detail", region }));
  return applyChecked(parted, setStatedScale(parted, "v-part", `1/8" = 1'-0"`));
}

/** Length of a run in plan, building inches, by the viewport it belongs to. */
function lengthOf(job: Job, id: string): number {
  const run = job.elements[id]!;
  if (run.kind !== "run") throw new Error(`${id} is no run`);
  const { sim } = valueIn(sheetToBuilding(job, run.viewport));
  const places = run.vertices.map(({ at }) => applyTo(sim, at));
  return places.slice(1).reduce((sum, at, i) => sum + distance2(places[i]!, at), 0);
}

describe("marking a part of a sheet", () => {
  it("takes two opposite corners, in any order, as one undo step, and selects the part", () => {
    const work = new AtWork(twoSheets());
    const before = work.text;
    expect(work.session.start({ tool: "mark-viewport" })).toBe(true);
    work.click([700, 600]);
    expect(work.state.undo).toHaveLength(0);
    work.click([200, 100]);
    expect(work.state.job.viewports["new-1"]).toMatchObject({
      sheet: "s-ceiling",
      name: "Part 1 of Reflected ceiling",
      region: [200, 100, 700, 600],
      scale: { use: null },
    });
    expect(work.state.selection).toEqual({ table: "viewports", id: "new-1" });
    expect(work.state.tool.tool).toBe("edit");
    expect(work.state.undo).toHaveLength(1);
    work.session.undo();
    expect(work.text).toBe(before);
  });

  it("is done with the crosshair alone, and Escape puts the corner back", () => {
    const work = new AtWork(twoSheets());
    work.keys("v ArrowRight Enter ArrowRight ArrowUp Escape");
    expect(work.state.busy).toBe(false);
    expect(work.state.job.viewports).not.toHaveProperty("new-1");
    work.keys("Enter Shift+ArrowRight Shift+ArrowUp Enter");
    const [x0, y0, x1, y1] = work.state.job.viewports["new-1"]!.region!;
    expect([x1 - x0, y1 - y0]).toEqual([50, 50]);
  });

  it("is given other corners by dragging one, or by choosing one and typing where it goes, the opposite one staying", () => {
    const work = new AtWork(withPart());
    work.session.setSheet("s-ceiling");
    work.session.select({ table: "viewports", id: "v-part" });
    work.keys("r");
    expect(work.state.tool).toMatchObject({ tool: "reshape-part", viewport: "v-part" });
    work.drag([
      [900, 100],
      [950, 150],
      [1000, 200],
    ]);
    expect(work.state.job.viewports["v-part"]?.region).toEqual([1000, 200, 1600, 1100]);
    expect(work.state.undo).toHaveLength(1);
    // Beyond its opposite, by click.
    work.click([1600, 200]);
    work.click([800, 50]);
    expect(work.state.job.viewports["v-part"]?.region).toEqual([800, 50, 1000, 1100]);
    work.keys(".");
    work.type("@810, 60");
    expect(work.state.job.viewports["v-part"]?.region).toEqual([810, 60, 1000, 1100]);
    // By the crosshair, which still stands where the last point was put.
    work.keys(", Escape . ArrowRight ArrowUp Enter");
    expect(work.state.job.viewports["v-part"]?.region).toEqual([820, 70, 1000, 1100]);
    work.keys(".");
    work.session.typed("@1000, 500");
    expect(work.notice).toBe("edit.empty-region");
    work.click([300, 300]);
    expect(work.notice).toBe("tool.no-corner");
    work.keys("Enter Escape");
    expect(work.state.tool.tool).toBe("edit");
    work.keys("Ctrl+z Ctrl+z Ctrl+z Ctrl+z");
    expect(work.state.job.viewports["v-part"]?.region).toEqual([900, 100, 1600, 1100]);
  });

  it("hands over what is traced where it comes to lie, and gives back what it leaves", () => {
    const before = furnished();
    const added = applyChecked(
      before,
      addViewport(before, "v-part", { sheet: "s-ceiling", name: "Detail", region: [150, 150, 250, 250] }),
    );
    expect(added.elements.r1?.viewport).toBe("v-part");
    const away = applyChecked(added, setViewport(added, "v-part", { region: [1000, 700, 1100, 800] }));
    expect(away.elements.r1?.viewport).toBe("v-ceiling");
    const back = applyChecked(away, setViewport(away, "v-part", { region: [150, 150, 250, 250] }));
    expect(back.elements.r1?.viewport).toBe("v-part");
    expect(back.elements.b1?.viewport).toBe("v-ceiling");
  });

  it("refuses a rectangle of no size", () => {
    const work = new AtWork(twoSheets());
    const before = work.text;
    work.session.start({ tool: "mark-viewport" });
    for (const corner of ["@300, 300", "@300, 300", "@300, 900", "@900, 300"]) work.session.typed(corner);
    expect(work.notice).toBe("edit.empty-region");
    work.keys("Enter");
    expect(work.notice).toBe("edit.empty-region");
    expect(work.text).toBe(before);
  });

  it("takes along what was traced there already, and nothing else", () => {
    const job = furnished();
    const after = applyChecked(
      job,
      addViewport(job, "v-part", { sheet: "s-ceiling", name: "Detail", region: [150, 150, 250, 250] }),
    );
    expect(after.elements.r1?.viewport).toBe("v-part");
    expect(after.elements.b1?.viewport).toBe("v-ceiling");
    expect(after.areas.a1?.viewport).toBe("v-roof");
  });

  it("names, and deletes with what is traced on it, in one edit", () => {
    let job = withPart();
    job = applyChecked(job, setViewport(job, "v-part", { name: "Plan of the annex" }));
    expect(partsOf(job, "s-ceiling").map(([, { name }]) => name)).toEqual(["Plan of the annex"]);
    expect(refusals(setViewport(job, "v-part", { name: " " }))).toEqual(["edit.empty-name"]);
    const vertices = [
      { at: [1000, 200] as [number, number], tag: null },
      { at: [1100, 200] as [number, number], tag: null },
    ];
    job = applyChecked(job, addRun(job, "r1", { viewport: "v-part", wiring: EMT, vertices }));
    const gone = applyChecked(job, deleteRecords(job, [{ table: "viewports", id: "v-part" }]));
    expect(Object.keys(gone.viewports).sort()).toEqual(["v-ceiling", "v-roof"]);
    expect(gone.elements).toEqual({});
  });

  it("is drawn while the Sheet stage is in hand, and only then", () => {
    const work = new AtWork(withPart());
    work.session.setSheet("s-ceiling");
    const words = () => work.session.draft().flatMap((item) => (item.type === "text" ? [item.text] : []));
    expect(words()).toEqual(["Detail"]);
    work.session.setSheet("s-roof");
    expect(words()).toEqual([]);
    work.session.setSheet("s-ceiling");
    work.session.setStage("wiring");
    expect(words()).toEqual([]);
  });
});

describe("tracing on a sheet with a part", () => {
  it("gives a run in each its own length", () => {
    const work = new AtWork(withPart());
    work.session.start({ tool: "trace-run" });
    for (const at of ["@100, 200", "@460, 200"]) work.type(at);
    work.keys("Enter");
    for (const at of ["@1000, 200", "@1360, 200"]) work.type(at);
    work.keys("Enter Enter");
    const { job } = work.state;
    const [first, second] = Object.keys(job.elements);
    // 360 points are 5 in. of paper: 20 ft at 1/4", 40 ft at 1/8".
    expect(lengthOf(job, first!)).toBeCloseTo(240, 9);
    expect(lengthOf(job, second!)).toBeCloseTo(480, 9);
  });

  it("scales a typed position by where the run began", () => {
    const work = new AtWork(withPart());
    work.session.start({ tool: "trace-run" });
    for (const at of ["@1000, 200", "@600, 200", `10'-0", 0`]) work.type(at);
    // 10 ft at 1/8" = 1'-0" are 90 points, though the last point lies beside the part.
    expect(work.state.tool).toMatchObject({ vertices: [{}, {}, { at: [690, 200] }] });
  });

  it.each([
    ["outline-area", ["@1000, 200", "@1100, 200", "@1100, 300"]],
    ["place-box", ["@1000, 200"]],
    ["place-fitting", ["@1000, 200"]],
    ["place-entry", ["@1000, 200"]],
  ] as const)("puts what %s makes in the part", (tool, places) => {
    const work = new AtWork(withPart());
    work.session.start({ tool });
    for (const at of places) work.type(at);
    if (tool === "outline-area") work.keys("Enter Enter");
    const made = work.state.job.areas["new-1"] ?? work.state.job.elements["new-1"];
    expect(made?.viewport).toBe("v-part");
  });

  it("measures the part the first point lies in; a viewport asked for by name takes no point of another", () => {
    const work = new AtWork(withPart());
    work.session.start({ tool: "measure-scale" });
    for (const at of ["@1000, 200", "@1360, 200"]) work.type(at);
    work.type(`30'-0"`);
    const measured = work.state.job.viewports["v-part"]?.scale.measured;
    expect(measured).toMatchObject({ distance: { value: 360, unit: "in" } });
    expect(work.state.job.viewports["v-ceiling"]?.scale.measured).toBeNull();
    work.session.start({ tool: "measure-scale", viewport: "v-ceiling" });
    work.click([1000, 200]);
    expect(work.notice).toBe("tool.other-viewport");
    expect(work.state.busy).toBe(false);
  });

  it("counts a tag typed before its point from the storey of the part", () => {
    let job = withPart();
    job = applyChecked(job, addStorey(job, "level-2", { name: "Level 2", floor: { value: 144, unit: "in" } }));
    job = applyChecked(job, setViewport(job, "v-ceiling", { storey: "level-1" }));
    job = applyChecked(job, setViewport(job, "v-part", { storey: "level-2" }));
    const work = new AtWork(job);
    work.session.start({ tool: "place-box" });
    work.type(`9'-0" AFF`);
    for (const at of ["@100, 200", "@1000, 200"]) work.type(at);
    const storeys = Object.values(work.state.job.elements).map((element) => "tag" in element && element.tag?.datum);
    expect(storeys).toEqual([
      { from: "storey", storey: "level-1" },
      { from: "storey", storey: "level-2" },
    ]);
    work.session.start({ tool: "trace-run" });
    work.type(`9'-0" AFF`);
    work.type("@1000, 300");
    expect(work.state.tool).toMatchObject({ vertices: [{ tag: { datum: { storey: "level-2" } } }] });
  });

  it("gives what is moved into the part its scale", () => {
    const work = new AtWork(withPart());
    work.session.start({ tool: "trace-run" });
    for (const at of ["@700, 200", "@880, 200"]) work.type(at);
    work.keys("Enter Enter Escape Escape");
    work.session.select({ table: "elements", id: "new-1" });
    work.drag([
      [780, 200],
      [900, 200],
      [1080, 200],
    ]);
    expect(work.state.job.elements["new-1"]?.viewport).toBe("v-part");
    expect(lengthOf(work.state.job, "new-1")).toBeCloseTo(240, 6);
  });
});

it("offers the scale notes in a part or just below it first", () => {
  const note = (text: string, at: [number, number]) => ({ text, at, angle: 0, height: 8, width: 60 });
  const texts = [note(`1/4" = 1'-0"`, [100, 50]), note(`1/8" = 1'-0"`, [950, 60]), note("1:20", [1000, 500])];
  const region: [number, number, number, number] = [900, 100, 1600, 1100];
  const offered = (of: typeof region | null, others: (typeof region)[], rotate: 0 | 180 = 0) =>
    scaleNotesIn(texts as never, { region: of, others, sheet: { rotate, userUnit: 1 } }).map(({ text }) => text);
  expect(offered(region, [])).toEqual([`1/8" = 1'-0"`, "1:20", `1/4" = 1'-0"`]);
  expect(offered(null, [region])).toEqual([`1/4" = 1'-0"`, `1/8" = 1'-0"`, "1:20"]);
  expect(offered(region, [], 180)).toEqual(["1:20", `1/4" = 1'-0"`, `1/8" = 1'-0"`]);
});

it("offers the views that the file names on the page, cut to it, with the scale in the file's words where they agree", () => {
  const measure = (text: string, ratio: number | undefined, kind: "rectilinear" | "geographic" = "rectilinear") => ({
    kind,
    text,
    perUnit: 1,
    unit: "ft",
    ratio,
  });
  const box = [100, 100, 500, 500] as const;
  const other = [600, 100, 900, 9999] as const;
  const found = [
    { page: 1, name: "Plan", box, measure: measure("1/4 in = 1 ft", 48.0001) },
    { page: 1, name: "Detail", box: other, measure: measure("1:50", 24) },
    { page: 1, name: "No unit", box: [0, 0, 50, 50] as const, measure: measure("", undefined) },
    { page: 2, name: "Another page", box, measure: measure("", 48) },
    { page: 1, name: "Map", box, measure: measure("", undefined, "geographic") },
    { page: 1, name: "No measure", box, measure: undefined },
    { page: 1, name: "Beside the page", box: [2000, 0, 2100, 50] as const, measure: measure("", 48) },
  ];
  const sheet = { page: 1, view: [0, 0, 1000, 800] as [number, number, number, number] };
  expect(viewsOffered(found, sheet, [])).toEqual([
    { name: "Plan", region: [100, 100, 500, 500], scale: { text: "1/4 in = 1 ft", ratio: 48 } },
    // The words say 1:50, the numbers 1:24: what a viewer measures by are the numbers.
    { name: "Detail", region: [600, 100, 900, 800], scale: { text: `1/2" = 1'-0"`, ratio: 24 } },
    { name: "No unit", region: [0, 0, 50, 50], scale: null },
  ]);
  expect(viewsOffered(found, sheet, [[100, 100.2, 500, 500]]).map(({ name }) => name)).toEqual(["Detail", "No unit"]);
});

it("takes views of a file as parts in one undo step, those without a name numbered", () => {
  const job = twoSheets();
  const scale = { text: `1/4" = 1'-0"`, ratio: 48 };
  const added = applyChecked(
    job,
    addParts(job, "s-ceiling", [
      { id: "one", name: "Plan", region: [100, 100, 500, 500], scale },
      { id: "two", name: "", region: [600, 100, 900, 500], scale: null },
      { id: "three", name: "", region: [600, 600, 900, 900], scale },
    ]),
  );
  expect(
    partsOf(added, "s-ceiling").map(
      ([
        id,
        {
          name,
          scale: { stated, use },
        },
      ]) => [id, name, stated, use],
    ),
  ).toEqual([
    ["two", "Part 1 of Reflected ceiling", null, null],
    ["three", "Part 2 of Reflected ceiling", scale, "stated"],
    ["one", "Plan", scale, "stated"],
  ]);
  expect(refusals(addParts(job, "s-ceiling", [{ id: "x", name: "", region: [1, 1, 1, 9], scale }]))).toEqual([
    "edit.empty-region",
  ]);
});

it("a measured scale is kept by the part alone", () => {
  const job = withPart();
  const after = applyChecked(job, setMeasuredScale(job, "v-part", [1000, 200], [1072, 200], { value: 8, unit: "ft" }));
  expect(after.viewports["v-ceiling"]).toEqual(job.viewports["v-ceiling"]);
});
