import { describe, expect, it } from "vitest";
import {
  addArea,
  addHole,
  classifyArea,
  removeHole,
  setAreaOutline,
  setDeck,
  setElevation,
} from "../../src/editor/edits/areas.ts";
import { inOne } from "../../src/editor/edits/change.ts";
import { deleteRecords, removeSheet } from "../../src/editor/edits/delete-records.ts";
import {
  addBox,
  addEntry,
  addFitting,
  addRun,
  setFacts,
  setItem,
  setTag,
  setWiring,
} from "../../src/editor/edits/elements.ts";
import { addRack } from "../../src/editor/edits/racks.ts";
import { registerViewport, unregisterViewport } from "../../src/editor/edits/registration.ts";
import { rename } from "../../src/editor/edits/rename.ts";
import { chooseScale, removeScale, setMeasuredScale, setStatedScale } from "../../src/editor/edits/scale.ts";
import { setSettings } from "../../src/editor/edits/settings.ts";
import { addSheets, addViewport, setSheetTitle, setViewport } from "../../src/editor/edits/sheets.ts";
import { addStorey, setStorey } from "../../src/editor/edits/storeys.ts";
import { deleteVertex, insertVertex, moveVertex, moveWhole } from "../../src/editor/edits/vertices.ts";
import type { Tag } from "../../src/job/fields.ts";
import { jobText } from "../../src/job/parse-job.ts";
import { dangling } from "../../src/job/references.ts";
import type { Job } from "../../src/job/schema.ts";
import { applyChecked, editIn, refusals } from "../job/apply-checked.ts";
import { EMT, furnished, sheetOf, twoSheets } from "./sample-job.ts";

const inch = (value: number) => ({ value, unit: "in" as const });
const tag = (value: number, storey: string | null = null): Tag => ({
  length: inch(value),
  datum: storey === null ? { from: "project" } : { from: "storey", storey },
  basis: "bottom",
  plusMinus: null,
});
const SQUARE = [
  [0, 0],
  [10, 0],
  [10, 10],
  [0, 10],
] as const;
const BOW = [
  [0, 0],
  [10, 10],
  [10, 0],
  [0, 10],
] as const;

describe("sheets and viewports", () => {
  it("come together, each sheet with a viewport for its whole page", () => {
    const job = twoSheets();
    expect(Object.keys(job.sheets)).toEqual(["s-roof", "s-ceiling"]);
    expect(job.viewports["v-roof"]).toMatchObject({ sheet: "s-roof", name: "Roof framing", region: null });
    expect(addSheets(job, [{ id: "s3", viewportId: "v3", sheet: sheetOf("Third") }]).name).toBe("Add the sheet Third");
    expect(applyChecked(job, setSheetTitle(job, "s-roof", " S-101 ")).sheets["s-roof"]?.title).toBe("S-101");
    expect(refusals(setSheetTitle(job, "s-roof", "  "))).toEqual(["edit.empty-name"]);
  });

  it("take regions with their corners in order, and none without area", () => {
    const job = twoSheets();
    const next = applyChecked(
      job,
      addViewport(job, "v-detail", { sheet: "s-roof", name: "Detail 3", region: [400, 300, 100, 200] }),
    );
    expect(next.viewports["v-detail"]).toMatchObject({ region: [100, 200, 400, 300], storey: null });
    expect(refusals(addViewport(job, "v", { sheet: "s-roof", name: "D", region: [1, 2, 1, 5] }))).toEqual([
      "edit.empty-region",
    ]);
    expect(refusals(addViewport(job, "v", { sheet: "gone", name: "D", region: null }))).toEqual([
      "edit.no-such-record",
    ]);
    expect(refusals(setViewport(job, "v-roof", { region: [0, 0, Number.NaN, 5] }))).toEqual(["edit.not-finite"]);
    expect(refusals(setViewport(job, "v-roof", { storey: "gone" }))).toEqual(["edit.no-such-record"]);
    expect(applyChecked(job, setViewport(job, "v-roof", { storey: "level-1" })).viewports["v-roof"]?.storey).toBe(
      "level-1",
    );
  });
});

describe("the scale of a viewport", () => {
  it("is stated by a note or measured, and the one given last is used", () => {
    let job = twoSheets();
    expect(job.viewports["v-roof"]?.scale).toEqual({
      stated: { text: `1/4" = 1'-0"`, ratio: 48 },
      measured: null,
      use: "stated",
    });
    expect(refusals(chooseScale(job, "v-roof", "measured"))).toEqual(["scale.not-given"]);
    job = applyChecked(job, setMeasuredScale(job, "v-roof", [0, 0], [18, 0], inch(12)));
    expect(job.viewports["v-roof"]?.scale.use).toBe("measured");
    job = applyChecked(job, chooseScale(job, "v-roof", "stated"));
    job = applyChecked(job, removeScale(job, "v-roof", "stated"));
    expect(job.viewports["v-roof"]?.scale).toMatchObject({ stated: null, use: "measured" });
    job = applyChecked(job, removeScale(job, "v-roof", "measured"));
    expect(job.viewports["v-roof"]?.scale).toEqual({ stated: null, measured: null, use: null });
  });

  it("is refused where it says nothing", () => {
    const job = twoSheets();
    expect(refusals(setStatedScale(job, "v-roof", "AS NOTED"))).toEqual(["scale.as-noted"]);
    expect(refusals(setMeasuredScale(job, "v-roof", [5, 5], [5, 5], inch(12)))).toEqual(["scale.equal-points"]);
    expect(refusals(setMeasuredScale(job, "v-roof", [5, 5], [6, 5], inch(0)))).toEqual(["scale.zero-distance"]);
    expect(refusals(setMeasuredScale(job, "v-roof", [5, 5], [6, 5], inch(-3)))).toEqual(["scale.zero-distance"]);
    expect(refusals(setMeasuredScale(job, "v-roof", [5, Number.NaN], [6, 5], inch(3)))).toEqual(["edit.not-finite"]);
    expect(refusals(setStatedScale(job, "gone", "1:100"))).toEqual(["edit.no-such-record"]);
  });
});

describe("registration", () => {
  const pair = (label: string, here: readonly [number, number], there: readonly [number, number]) => ({
    label,
    here,
    there,
  });
  const pairs = [pair("A/1", [0, 0], [5, 5]), pair("B/1", [100, 0], [105, 5])];

  it("is set and taken back", () => {
    let job = twoSheets();
    job = applyChecked(job, registerViewport(job, "v-roof", "v-ceiling", pairs));
    expect(job.viewports["v-roof"]?.registration).toEqual({ to: "v-ceiling", pairs });
    job = applyChecked(job, unregisterViewport(job, "v-roof"));
    expect(job.viewports["v-roof"]?.registration).toBeNull();
  });

  it("is refused on itself, in a circle, with one pair, on one spot, mirrored", () => {
    const job = twoSheets();
    expect(refusals(registerViewport(job, "v-roof", "v-roof", pairs))).toEqual(["registration.to-itself"]);
    const there = applyChecked(job, registerViewport(job, "v-roof", "v-ceiling", pairs));
    expect(refusals(registerViewport(there, "v-ceiling", "v-roof", pairs))).toEqual(["registration.circle"]);
    expect(refusals(registerViewport(job, "v-roof", "v-ceiling", pairs.slice(1)))).toEqual([
      "registration.too-few-pairs",
    ]);
    const spot = [pair("a", [1, 1], [2, 2]), pair("b", [1, 1], [9, 2])];
    expect(refusals(registerViewport(job, "v-roof", "v-ceiling", spot))).toEqual(["registration.equal-points"]);
    const mirrored = [pair("a", [0, 0], [0, 0]), pair("b", [100, 0], [100, 0]), pair("c", [0, 50], [0, -50])];
    expect(refusals(registerViewport(job, "v-roof", "v-ceiling", mirrored))).toEqual(["registration.mirrored"]);
  });
});

describe("storeys", () => {
  it("are added, changed, and deleted only while nothing is counted from them", () => {
    let job = furnished();
    job = applyChecked(job, addStorey(job, "level-2", { name: "Level 2", floor: { value: 14, unit: "ft" } }));
    job = applyChecked(job, setStorey(job, "level-2", { floor: { value: 13, unit: "ft" } }));
    expect(refusals(addStorey(job, "x", { name: "", floor: inch(0) }))).toEqual(["edit.empty-name"]);
    expect(refusals(setStorey(job, "level-2", { floor: inch(Number.POSITIVE_INFINITY) }))).toEqual(["edit.not-finite"]);
    job = applyChecked(job, setViewport(job, "v-ceiling", { storey: "level-2" }));
    job = applyChecked(job, setTag(job, "r1", 0, tag(120, "level-2")));
    const refused = deleteRecords(job, [{ table: "storeys", id: "level-2" }]);
    expect(refusals(refused)).toEqual(["edit.storey-in-use"]);
    job = applyChecked(job, setTag(job, "r1", 0, tag(120)));
    job = applyChecked(job, setElevation(job, "a1", { datum: { from: "storey", storey: "level-2" } }));
    expect(refusals(deleteRecords(job, [{ table: "storeys", id: "level-2" }]))).toEqual(["edit.storey-in-use"]);
    job = applyChecked(job, setElevation(job, "a1", { datum: { from: "project" } }));
    job = applyChecked(job, deleteRecords(job, [{ table: "storeys", id: "level-2" }]));
    expect(job.viewports["v-ceiling"]?.storey).toBeNull();
  });
});

describe("deck areas", () => {
  it("begin with nothing settled and nothing known", () => {
    const job = furnished();
    expect(job.areas.a1).toMatchObject({
      label: "A-1",
      classification: { is: "not-settled" },
      deck: { profile: "", depth: null, concreteCover: { is: "not-recorded" } },
      elevation: { shape: { is: "level", at: null } },
    });
  });

  it("refuse an outline that crosses itself, collapses or has two points", () => {
    const job = twoSheets();
    expect(refusals(addArea(job, "a", "v-roof", BOW))).toContain("ring.crosses-itself");
    expect(refusals(addArea(job, "a", "v-roof", SQUARE.slice(2)))).toEqual(["ring.too-few-points"]);
    expect(
      refusals(
        addArea(job, "a", "v-roof", [
          [0, 0],
          [5, 5],
          [10, 10],
        ]),
      ),
    ).not.toEqual([]);
    expect(refusals(addArea(job, "a", "gone", SQUARE))).toEqual(["edit.no-such-record"]);
    expect(refusals(setAreaOutline(furnished(), "a1", BOW))).toContain("ring.crosses-itself");
    expect(refusals(addHole(furnished(), "a1", BOW))).toContain("ring.crosses-itself");
  });

  it("take outlines, holes, classification, deck and elevation", () => {
    let job = furnished();
    const hole = SQUARE.map(([x, y]) => [x + 200, y + 200] as const);
    job = applyChecked(job, addHole(job, "a1", hole));
    job = applyChecked(job, addHole(job, "a1", SQUARE));
    job = applyChecked(job, removeHole(job, "a1", 1));
    expect(job.areas.a1?.holes).toEqual([hole]);
    expect(refusals(removeHole(job, "a1", 1))).toEqual(["edit.no-such-record"]);
    job = applyChecked(job, classifyArea(job, "a1", { is: "roof", reason: "No storey above" }));
    job = applyChecked(job, classifyArea(job, "a1", { by: "reviewer" }));
    expect(job.areas.a1?.classification).toEqual({ is: "roof", reason: "No storey above", by: "reviewer" });
    job = applyChecked(job, setDeck(job, "a1", { profile: "wide-rib-1-1/2", depth: inch(1.5) }));
    job = applyChecked(job, setDeck(job, "a1", { concreteCover: { is: "thickness", thickness: inch(2) } }));
    expect(refusals(setDeck(job, "a1", { depth: inch(-1) }))).toEqual(["edit.negative"]);
    expect(refusals(setDeck(job, "a1", { concreteCover: { is: "thickness", thickness: inch(-2) } }))).toEqual([
      "edit.negative",
    ]);
    job = applyChecked(
      job,
      setElevation(job, "a1", {
        basis: "top-of-slab",
        layers: [{ name: "Slab", thickness: inch(4) }],
        shape: { is: "level", at: { value: 112, unit: "ft" } },
      }),
    );
    expect(job.areas.a1?.elevation).toMatchObject({ datum: { from: "project" }, basis: "top-of-slab" });
  });

  it("refuse a negative slope, a slope towards its own point, two spots, a negative layer, a storey that is not there", () => {
    const job = furnished();
    const slope = { is: "slope", at: inch(1344), point: [0, 0], towards: [10, 0], rise: 1 / 48, text: "" } as const;
    expect(refusals(setElevation(job, "a1", { shape: { ...slope, rise: -1 / 48 } }))).toEqual(["slope.negative"]);
    expect(refusals(setElevation(job, "a1", { shape: { ...slope, towards: [0, 0] } }))).toEqual(["edit.equal-points"]);
    expect(refusals(setElevation(job, "a1", { shape: { ...slope, rise: Number.NaN } }))).toEqual(["edit.not-finite"]);
    const spot = { at: [0, 0] as const, elevation: null };
    expect(refusals(setElevation(job, "a1", { shape: { is: "spots", spots: [spot, spot] } }))).toEqual([
      "edit.too-few-spots",
    ]);
    expect(refusals(setElevation(job, "a1", { layers: [{ name: "Slab", thickness: inch(-4) }] }))).toEqual([
      "edit.negative",
    ]);
    expect(refusals(setElevation(job, "a1", { datum: { from: "storey", storey: "gone" } }))).toEqual([
      "edit.no-such-record",
    ]);
    applyChecked(job, setElevation(job, "a1", { shape: { ...slope, rise: 0 } }));
  });
});

describe("elements", () => {
  it("are not added with a tag that is counted from a storey the job has not", () => {
    const job = twoSheets();
    const tag: Tag = {
      length: { value: 12, unit: "ft" },
      datum: { from: "storey", storey: "gone" },
      basis: "bottom",
      plusMinus: null,
    };
    const line = {
      viewport: "v-ceiling",
      wiring: EMT,
      vertices: [200, 300].map((x) => ({ at: [x, 0] as const, tag })),
    };
    const place = { viewport: "v-ceiling", at: [0, 0] as const, tag };
    const refused = ["edit.no-such-record"];
    expect(refusals(addRun(job, "x", line))).toEqual(refused);
    expect(refusals(addRack(job, "x", line))).toEqual(refused);
    expect(refusals(addBox(job, "x", { ...place, item: "4sq-2-1/8", cover: "down" }))).toEqual(refused);
    expect(refusals(addFitting(job, "x", { ...place, item: "lb", tradeSize: "1" }))).toEqual(refused);
  });

  it("are refused without two vertices, a length, a viewport or a number", () => {
    const job = twoSheets();
    const run = (vertices: Parameters<typeof addRun>[2]["vertices"], viewport = "v-ceiling") =>
      refusals(addRun(job, "r", { viewport, wiring: EMT, vertices }));
    const at = (x: number, y: number, own: Tag | null = null) => ({ at: [x, y] as const, tag: own });
    expect(run([at(1, 1)])).toEqual(["run.too-few-vertices"]);
    expect(run([at(1, 1), at(1, 1)])).toEqual(["run.no-length"]);
    expect(run([at(1, 1, tag(156)), at(1, 1, tag(120))])).toEqual([]);
    expect(run([at(1, 1), at(2, Number.NaN)])).toEqual(["edit.not-finite"]);
    expect(run([at(1, 1), at(2, 1)], "gone")).toEqual(["edit.no-such-record"]);
    expect(refusals(addBox(job, "b", { viewport: "gone", at: [1, 1], item: "4sq-1-1/2", cover: "down" }))).toEqual([
      "edit.no-such-record",
    ]);
    expect(
      refusals(addFitting(job, "f", { viewport: "v-roof", at: [Number.NaN, 1], item: "conduit-body", tradeSize: "1" })),
    ).toEqual(["edit.not-finite"]);
  });

  it("take tags at one vertex, or at all, or at their one place", () => {
    let job = furnished();
    job = applyChecked(job, setTag(job, "r1", 1, tag(150)));
    expect(job.elements.r1).toMatchObject({ vertices: [{ tag: null }, { tag: tag(150) }, { tag: null }] });
    job = applyChecked(job, setTag(job, "r1", "all", tag(140)));
    expect(job.elements.r1).toMatchObject({ vertices: [{ tag: tag(140) }, { tag: tag(140) }, { tag: tag(140) }] });
    job = applyChecked(job, setTag(job, "r1", 2, null));
    job = applyChecked(job, setTag(job, "b1", 0, tag(144)));
    expect(job.elements.b1).toMatchObject({ tag: tag(144) });
    expect(refusals(setTag(job, "r1", 3, tag(1)))).toEqual(["edit.no-such-vertex"]);
    expect(refusals(setTag(job, "b1", 1, tag(1)))).toEqual(["edit.no-such-vertex"]);
    expect(refusals(setTag(job, "b1", 0, tag(1, "gone")))).toEqual(["edit.no-such-record"]);
    expect(refusals(setTag(job, "b1", 0, { ...tag(1), plusMinus: inch(-1) }))).toEqual(["edit.negative"]);
  });

  it("take wiring, items and facts of their own kind only", () => {
    let job = furnished();
    job = applyChecked(job, setWiring(job, "r1", { type: "rmc", outsideDiameter: inch(1.05) }));
    expect(job.elements.r1).toMatchObject({ wiring: { type: "rmc", tradeSize: "3/4" } });
    expect(refusals(setWiring(job, "b1", { type: "rmc" }))).toEqual(["edit.not-a"]);
    expect(refusals(setWiring(job, "r1", { outsideDiameter: inch(0) }))).toEqual(["edit.not-positive"]);
    job = applyChecked(job, setItem(job, "b1", { cover: "sideways", rotationDeg: 45 }));
    expect(refusals(setItem(job, "b1", { tradeSize: "1" }))).toEqual(["edit.not-a"]);
    expect(refusals(setItem(job, "b1", { size: { width: inch(4), length: inch(0), depth: inch(2) } }))).toEqual([
      "edit.not-positive",
    ]);
    job = applyChecked(job, setFacts(job, "r1", { steelFittings: true, concreteThickness: inch(2) }));
    expect(job.elements.r1).toMatchObject({
      facts: { steelFittings: true, inConcrete: null, concreteThickness: inch(2), accessible: null },
    });
    expect(refusals(setFacts(job, "r1", { concreteThickness: inch(-2) }))).toEqual(["edit.negative"]);
  });

  it("of entries leave out what goes, and have neither facts nor tag of the other kinds", () => {
    let job = furnished();
    const entry = {
      viewport: "v-ceiling",
      at: [300, 350] as const,
      run: "r1",
      enclosure: { is: "box", box: "b1" } as const,
    };
    job = applyChecked(job, addEntry(job, "e1", { ...entry, conductor: "4/0" }));
    expect(refusals(addEntry(job, "e2", { ...entry, run: "r9" }))).toEqual(["edit.no-such-record"]);
    expect(refusals(addEntry(job, "e2", { ...entry, at: [Number.NaN, 0] }))).toEqual(["edit.not-finite"]);
    expect(refusals(setFacts(job, "e1", { accessible: true }))).toEqual(["edit.not-a"]);
    expect(refusals(setTag(job, "e1", "all", null))).toEqual(["edit.not-a"]);
    const withoutRun = applyChecked(job, deleteRecords(job, [{ table: "elements", id: "r1" }]));
    expect(withoutRun.elements.e1).toMatchObject({ run: null, enclosure: { box: "b1" }, conductor: "4/0" });
    const bare = applyChecked(withoutRun, deleteRecords(withoutRun, [{ table: "elements", id: "b1" }]));
    expect(bare.elements.e1).toMatchObject({ run: null, enclosure: { is: "not-recorded" }, conductor: "4/0" });
    expect(dangling(bare)).toEqual([]);
    const none = applyChecked(job, deleteRecords(job, [{ table: "viewports", id: "v-ceiling" }]));
    expect(none.elements).toEqual({});
  });

  it("are called what nothing else is called", () => {
    let job = furnished();
    job = applyChecked(job, rename(job, "elements", "r1", " Feeder 3 "));
    expect(job.elements.r1?.label).toBe("Feeder 3");
    expect(refusals(rename(job, "areas", "a1", "Feeder 3"))).toEqual(["edit.label-taken"]);
    expect(refusals(rename(job, "areas", "a1", ""))).toEqual(["edit.empty-name"]);
    expect(editIn(rename(job, "elements", "r1", "Feeder 3")).changes).toEqual([]);
  });
});

describe("vertices", () => {
  it("are moved, put in and taken out, with the tags of the others kept", () => {
    let job = furnished();
    job = applyChecked(job, setTag(job, "r1", 1, tag(150)));
    job = applyChecked(job, insertVertex(job, "elements", "r1", 0, [250, 220]));
    job = applyChecked(job, moveVertex(job, "elements", "r1", 2, [310, 210]));
    job = applyChecked(job, deleteVertex(job, "elements", "r1", 0));
    expect(job.elements.r1).toMatchObject({
      vertices: [
        { at: [250, 220], tag: null },
        { at: [310, 210], tag: tag(150) },
        { at: [300, 350], tag: null },
      ],
    });
    job = applyChecked(job, moveWhole(job, "elements", "r1", [10, -20]));
    expect(job.elements.r1).toMatchObject({ vertices: [{ at: [260, 200] }, {}, {}] });
  });

  it("count on through holes and the points of a slope", () => {
    let job = furnished();
    job = applyChecked(
      job,
      addHole(
        job,
        "a1",
        SQUARE.map(([x, y]) => [x + 200, y + 200] as const),
      ),
    );
    const slope = { is: "slope", at: null, point: [110, 110], towards: [400, 110], rise: 0.02, text: "2%" } as const;
    job = applyChecked(job, setElevation(job, "a1", { shape: slope }));
    job = applyChecked(job, moveVertex(job, "areas", "a1", 5, [212, 200]));
    expect(job.areas.a1?.holes[0]?.[1]).toEqual([212, 200]);
    job = applyChecked(job, moveVertex(job, "areas", "a1", 9, [400, 200]));
    expect(job.areas.a1?.elevation.shape).toMatchObject({ point: [110, 110], towards: [400, 200] });
    job = applyChecked(job, insertVertex(job, "areas", "a1", 7, [205, 205]));
    expect(job.areas.a1?.holes[0]?.[4]).toEqual([205, 205]);
    expect(refusals(insertVertex(job, "areas", "a1", 9, [1, 1]))).toEqual(["edit.no-segment"]);
    expect(refusals(deleteVertex(job, "areas", "a1", 10))).toEqual(["edit.too-few-vertices"]);
    expect(refusals(moveVertex(job, "areas", "a1", 11, [1, 1]))).toEqual(["edit.no-such-vertex"]);
    expect(refusals(moveVertex(job, "areas", "gone", 0, [1, 1]))).toEqual(["edit.no-such-record"]);
  });

  it("never make an outline cross itself or a point no place", () => {
    const job = furnished();
    expect(refusals(moveVertex(job, "areas", "a1", 0, [600, 250]))).toEqual(["ring.crosses-itself"]);
    expect(refusals(moveVertex(job, "elements", "r1", 0, [Number.NaN, 0]))).toEqual(["edit.not-finite"]);
    expect(refusals(insertVertex(job, "elements", "r1", 2, [1, 1]))).toEqual(["edit.no-segment"]);
    const short = applyChecked(job, deleteVertex(job, "elements", "r1", 1));
    expect(refusals(deleteVertex(short, "elements", "r1", 1))).toEqual(["edit.too-few-vertices"]);
  });
});

describe("deleting", () => {
  it("takes along what lies on a sheet, and lets the viewports registered on it stand alone", () => {
    let job = furnished();
    job = applyChecked(
      job,
      registerViewport(job, "v-roof", "v-ceiling", [
        { label: "1", here: [0, 0], there: [5, 5] },
        { label: "2", here: [100, 0], there: [105, 5] },
      ]),
    );
    const next = applyChecked(job, removeSheet(job, "s-ceiling"));
    expect(Object.keys(next.sheets)).toEqual(["s-roof"]);
    expect(Object.keys(next.viewports)).toEqual(["v-roof"]);
    expect(next.viewports["v-roof"]?.registration).toBeNull();
    expect(next.elements).toEqual({});
    expect(Object.keys(next.areas)).toEqual(["a1"]);
    expect(removeSheet(job, "s-ceiling").ok && editIn(removeSheet(job, "s-ceiling")).name).toBe(
      "Delete Reflected ceiling",
    );
  });

  it("names what was not there, and takes a storey along with what is counted from it", () => {
    let job = furnished();
    expect(refusals(deleteRecords(job, [{ table: "elements", id: "gone" }]))).toEqual(["edit.no-such-record"]);
    job = applyChecked(job, setTag(job, "r1", 0, tag(120, "level-1")));
    applyChecked(
      job,
      deleteRecords(job, [
        { table: "storeys", id: "level-1" },
        { table: "elements", id: "r1" },
      ]),
    );
  });
});

describe("settings", () => {
  it("take an edition, a system, a name and tolerances", () => {
    let job = twoSheets();
    job = applyChecked(job, setSettings(job, { edition: "us-2026", editionBy: "County", system: "metric" }));
    expect(job.settings.job).toMatchObject({ edition: "us-2026", editionBy: "County", system: "metric" });
    const tolerances = { ...job.settings.job.tolerances, tags: inch(-1) };
    expect(refusals(setSettings(job, { tolerances }))).toEqual(["edit.negative"]);
    expect(refusals(setSettings(job, { name: " " }))).toEqual(["edit.empty-name"]);
  });
});

describe("several edits in one", () => {
  it("are one step, each built on what the ones before lead to, and refused together", () => {
    const job = furnished();
    const both = inOne(job, "Settle and call", [
      (at: Job) => rename(at, "areas", "a1", "Low roof"),
      (at: Job) => classifyArea(at, "a1", { is: "roof" }),
      (at: Job) => rename(at, "elements", "r1", "A-1"),
    ]);
    const next = applyChecked(job, both);
    expect(editIn(both).changes).toHaveLength(2);
    expect(next.areas.a1).toMatchObject({ label: "Low roof", classification: { is: "roof" } });
    expect(
      refusals(
        inOne(job, "Clash", [
          (at: Job) => classifyArea(at, "a1", { is: "roof" }),
          (at: Job) => rename(at, "elements", "r1", "A-1"),
        ]),
      ),
    ).toEqual(["edit.label-taken"]);
    expect(jobText(job)).toBe(jobText(furnished()));
  });
});
