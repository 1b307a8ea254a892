import { describe, expect, it } from "vitest";
import { addEntry, addFitting, setFacts } from "../../src/editor/edits/elements.ts";
import { parseSpread } from "../../src/editor/parse-copies.ts";
import { pickedIn } from "../../src/editor/selection.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Job } from "../../src/job/schema.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { furnished } from "./sample-job.ts";

/** The ceiling sheet with something selected and a key pressed: 18 units are a foot; R-1 is 250 units long, B-1 stands at [420, 220]. */
function atHand(id: string, key: string, job: Job = furnished()): AtWork {
  const work = new AtWork(job);
  work.session.setSheet("s-ceiling");
  work.session.select({ table: "elements", id });
  work.keys(key);
  return work;
}
const made = (work: AtWork): Element[] =>
  Object.entries(work.state.job.elements).flatMap(([id, element]) => (id.startsWith("new-") ? [element] : []));
const places = (work: AtWork) =>
  made(work).map((element) =>
    ("at" in element ? element.at : element.vertices[0]!.at).map((n) => Number(n.toFixed(6))),
  );

describe("copying along a line", () => {
  it("goes along a run from the end that is nearer, every so far, as one step", () => {
    const work = atHand("b1", "Shift+C");
    expect(work.state.tool.tool).toBe("copy-along");
    work.click([230, 202]);
    expect(work.state.prompt).toContain("type how far apart");
    work.click([900, 900]);
    expect(work.notice).toBe("along.no-spread");
    work.type(`every 5'-0"`);
    expect(work.state.prompt).toContain("3 copies of B-1");
    expect(work.session.draft().length).toBeGreaterThan(3);
    work.keys("Enter");
    // 250 units at 90 apart: 0, 90 and, past the corner, 180.
    expect(places(work)).toEqual([
      [200, 200],
      [290, 200],
      [300, 280],
    ]);
    expect(made(work).map(({ label }) => label)).toEqual(["B-2", "B-3", "B-4"]);
    expect(work.state.undo.map(({ name }) => name)).toEqual(["Copy B-1 3 times"]);
    expect(pickedIn(work.state.selection, "elements")).toHaveLength(3);
    work.keys("Ctrl+z");
    expect(made(work)).toEqual([]);
  });

  it("counts from the other end, in equal parts, without the ends, by keys", () => {
    const work = atHand("b1", "Shift+C");
    work.type("in 5 parts");
    work.type("@300, 340");
    expect(work.state.prompt).toContain("6 copies of B-1, in 5 parts, ends included");
    work.keys("r e");
    expect(work.state.prompt).toContain("4 copies of B-1, in 5 parts, without the ends");
    work.keys("Enter");
    expect(places(work)).toEqual([
      [250, 200],
      [300, 200],
      [300, 250],
      [300, 300],
    ]);
  });

  it("goes along a line put point by point, and does not copy a thing onto itself", () => {
    const work = atHand("b1", "Shift+C");
    work.click([420, 220]);
    work.type(`every 10'-0"`);
    work.type(`30'-0" right`);
    work.keys("Enter");
    expect(work.state.prompt).toContain("3 copies");
    work.keys("Enter");
    expect(places(work)).toEqual([
      [600, 220],
      [780, 220],
      [960, 220],
    ]);
  });

  it("goes round a closed line once", () => {
    const work = atHand("b1", "Shift+C");
    for (const at of [
      [800, 500],
      [890, 500],
      [890, 590],
      [800, 590],
      [800, 500],
    ] as const)
      work.click(at);
    work.pointer("double", [800, 500]);
    work.type(`5'`);
    work.keys("Enter");
    expect(places(work)).toEqual([
      [800, 500],
      [890, 500],
      [890, 590],
      [800, 590],
    ]);
  });

  it("refuses what makes no copies or too many, takes the line back, and changes nothing by Escape", () => {
    const work = atHand("b1", "Shift+C");
    const before = work.text;
    work.click([230, 202]);
    work.type(`1/8"`);
    work.keys("Enter");
    expect(work.notice).toBe("along.too-many");
    work.type(`40'`);
    work.keys("e Enter");
    expect(work.notice).toBe("along.none");
    work.keys("Backspace");
    expect(work.state.tool).toMatchObject({ line: [], whole: false });
    work.click([700, 700]);
    work.keys("Enter");
    work.session.finish();
    expect(work.notice).toBe("along.too-few-points");
    work.keys("Escape Escape");
    expect(work.text).toBe(before);
    // A line that goes nowhere has no parts.
    work.session.select({ table: "elements", id: "b1" });
    work.keys("Shift+C");
    work.type("in 3 parts");
    work.type("@700, 700");
    work.type("@700.1, 700");
    work.keys("Enter Enter");
    expect(work.notice).toBe("along.none");
    work.keys("Escape Escape Escape");
    expect(work.text).toBe(before);
    work.session.select({ table: "elements", id: "r1" });
    expect(work.session.start({ tool: "copy-along" })).toBe(false);
    expect(work.notice).toBe("along.nothing");
    expect(parseSpread("in 0 parts", "imperial")).toMatchObject({ problems: [{ code: "copies.not-a-count" }] });
  });
});

describe("copying what is selected", () => {
  it("puts the first point where it is told, and again as far on, with all that is recorded", () => {
    const job = furnished();
    const known = applyChecked(job, setFacts(job, "r1", { steelFittings: true }));
    const work = atHand("r1", "Shift+A", known);
    work.type("2 times");
    work.pointer("move", [230, 500]);
    expect(work.session.draft().length).toBeGreaterThan(5);
    work.click([200, 500]);
    expect(places(work)).toEqual([
      [200, 500],
      [200, 800],
    ]);
    expect(made(work)[1]).toMatchObject({
      label: "R-3",
      facts: { steelFittings: true },
      vertices: [{}, {}, { at: [300, 950] }],
    });
    expect(work.state.undo.map(({ name }) => name)).toEqual(["Copy R-1 2 times"]);
  });

  it("goes by a typed step or length, by keys, several at once, and by the vertex that is selected", () => {
    const work = atHand("b1", "Shift+A");
    work.type(`10'-0", -5'-0"`);
    expect(places(work)).toEqual([[600, 130]]);
    work.session.select({
      several: [
        { table: "elements", id: "r1" },
        { table: "elements", id: "b1" },
      ],
    });
    work.keys("Shift+A");
    work.type(`10'-0" up`);
    expect(places(work).slice(1)).toEqual([
      [200, 380],
      [420, 400],
    ]);
    expect(work.state.undo.at(-1)?.name).toBe("Copy 2 elements");
    work.session.select({ table: "elements", id: "r1", vertex: 1 });
    work.keys("Shift+A");
    expect(work.state.tool).toMatchObject({ from: [300, 200] });
    work.keys("z");
    work.pointer("move", [900, 230], { alt: true });
    work.type(`10'`);
    expect(places(work).at(-1)).toEqual([380, 200]);
  });

  it("refuses no distance at all, and forgets what only the copied entry is at", () => {
    let job = furnished();
    const entry = addEntry(job, "e1", {
      viewport: "v-ceiling",
      at: [300, 350],
      run: "r1",
      enclosure: { is: "box", box: "b1" },
      conductor: "4/0",
      fastened: true,
    });
    job = applyChecked(job, entry);
    const work = atHand("e1", "Shift+A", job);
    expect(work.session.typed("@300, 350").ok).toBe(false);
    expect(work.notice).toBe("copy.same-place");
    expect(work.session.typed(`3 at 6"`).ok).toBe(false);
    expect(work.notice).toBe("copy.only-times");
    work.session.finish();
    expect(work.notice).toBe("copy.point-first");
    work.click([500, 500]);
    expect(made(work)).toMatchObject([
      { label: "E-2", run: null, enclosure: { is: "not-recorded" }, conductor: "4/0", fastened: true },
    ]);
  });

  it("copies a fitting too", () => {
    const job = furnished();
    const work = atHand(
      "f1",
      "Shift+A",
      applyChecked(
        job,
        addFitting(job, "f1", { viewport: "v-ceiling", at: [500, 600], item: "body-lb", tradeSize: "3/4" }),
      ),
    );
    work.click([520, 600]);
    expect(made(work)).toMatchObject([{ label: "F-2", at: [520, 600], tradeSize: "3/4" }]);
  });
});
