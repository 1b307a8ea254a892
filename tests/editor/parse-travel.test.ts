import { describe, expect, it } from "vitest";
import { parseTravel } from "../../src/editor/parse-travel.ts";
import type { Run } from "../../src/job/elements/run.ts";
import { AtWork } from "./at-work.ts";
import { furnished, twoSheets, valueIn } from "./sample-job.ts";

const read = (text: string, system: "imperial" | "metric" = "imperial") => {
  const travel = parseTravel(text, system);
  return travel && valueIn(travel);
};

describe("a typed length", () => {
  it.each([
    [`12'-6`, 150, { is: "pointed" }],
    [`12'-6" left`, 150, { is: "angle", degrees: 180 }],
    [`12'-6" up`, 150, { is: "angle", degrees: 90 }],
    [`12′-6″ at 45°`, 150, { is: "angle", degrees: 45 }],
    [`6" at -22.5 degrees`, 6, { is: "angle", degrees: -22.5 }],
    [`8" straight on`, 8, { is: "turn", degrees: 0 }],
    [`8" turn left`, 8, { is: "turn", degrees: 90 }],
    [`8" turning right by 30°`, 8, { is: "turn", degrees: -30 }],
  ])("is read in %s", (text, value, way) => {
    expect(read(text)).toEqual({ length: { value, unit: "in" }, way });
  });

  it("takes a bare number as millimetres in a metric job only", () => {
    expect(read("3810 mm")).toMatchObject({ length: { value: 3810, unit: "mm" } });
    expect(read("3810", "metric")).toMatchObject({ length: { value: 3810, unit: "mm" } });
    expect(read("3810")).toBeNull();
  });

  it("is not what a tag is", () => {
    for (const tag of [`13'-2" AFF`, `BOC 12'-6"`, `13'-2" top`, `±12'-6"`, `+/- 12'-6"`, `2" below deck`, "high"])
      expect(read(tag)).toBeNull();
  });

  it("is refused where it has no length, or a word that is none before a direction", () => {
    expect(parseTravel(`0" left`, "imperial")).toMatchObject({ problems: [{ code: "travel.not-positive" }] });
    expect(parseTravel(`-4'`, "imperial")).toMatchObject({ problems: [{ code: "travel.not-positive" }] });
    expect(parseTravel("far left", "imperial")).toMatchObject({ problems: [{ code: "length.not-a-length" }] });
  });
});

/** A run being traced on the ceiling sheet, where 18 units are a foot. */
function tracing(): AtWork {
  const work = new AtWork(furnished());
  work.session.setSheet("s-ceiling");
  work.session.start({ tool: "trace-run" });
  return work;
}
const vertices = (work: AtWork) =>
  "vertices" in work.state.tool ? work.state.tool.vertices.map(({ at }) => at.map((n) => Number(n.toFixed(6)))) : [];

describe("typing while a line is drawn", () => {
  it("puts the next vertex so far on where the pointer is, where the lock lets it, and where it is said", () => {
    const work = tracing();
    work.click([500, 500]);
    work.pointer("move", [530, 540]);
    work.type(`10'-0`);
    // 10'-0" at 1/4" = 1'-0" is 2.5 in. of paper, 180 units; the pointer lies 3 across and 4 up.
    expect(vertices(work)).toEqual([
      [500, 500],
      [608, 644],
    ]);
    work.keys("z");
    work.pointer("move", [700, 650]);
    work.type(`5'`);
    expect(vertices(work).at(-1)).toEqual([698, 644]);
    work.type(`5' turn left`);
    work.type(`5' left`);
    work.type(`5' straight on`);
    work.type(`10' at 30°`);
    expect(vertices(work).slice(-4)).toEqual([
      [698, 734],
      [608, 734],
      [518, 734],
      [673.884573, 824],
    ]);
  });

  it("sets the tag where it is one, and asks which way where nothing is pointed at", () => {
    const work = tracing();
    work.type(`13'-2" AFF`);
    work.type("@500, 500");
    expect(work.session.typed(`5'`)).toMatchObject({ problems: [{ code: "travel.no-way" }] });
    expect(work.notice).toBe("travel.no-way");
    expect(work.session.typed(`5' turn left`)).toMatchObject({ problems: [{ code: "travel.no-piece" }] });
    work.keys("ArrowRight");
    work.type(`5'`);
    work.type(`14'-0" AFF centre`);
    work.keys("Enter");
    const run = work.state.job.elements["new-1"] as Run;
    expect(run.vertices).toMatchObject([
      { at: [500, 500], tag: { length: { value: 158 } } },
      { at: [590, 500], tag: { length: { value: 168 }, basis: "centre" } },
    ]);
    expect(work.state.undo).toHaveLength(1);
  });

  it("goes the way the sheet is displayed, and asks for a scale", () => {
    const turned = new AtWork(twoSheets({ rotate: 90 }));
    turned.session.start({ tool: "outline-area" });
    turned.type("@500, 500");
    turned.type(`10' right`);
    expect(turned.state.tool).toMatchObject({
      points: [
        [500, 500],
        [500, 680],
      ],
    });
    expect(turned.session.typed("nothing of the kind").ok).toBe(false);
  });
});
