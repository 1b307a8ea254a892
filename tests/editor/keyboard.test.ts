import { describe, expect, it } from "vitest";
import type { Run } from "../../src/job/elements/run.ts";
import { AtWork } from "./at-work.ts";
import { furnished, twoSheets } from "./sample-job.ts";

const pointsOf = (run: unknown) => (run as Run).vertices.map(({ at }) => at);

describe("without a pointer", () => {
  it("traces a run by the crosshair alone", () => {
    const work = new AtWork(twoSheets());
    work.keys("t");
    expect(work.state.tool.tool).toBe("trace-run");
    expect(work.state.stage).toBe("wiring");
    work.keys("ArrowRight Enter");
    expect(work.state.crosshair).toEqual([810, 600]);
    work.keys("Shift+ArrowRight Shift+ArrowRight ArrowUp Space");
    work.keys("Alt+ArrowUp Alt+ArrowUp Alt+ArrowLeft ArrowUp ArrowUp Enter");
    // Enter once more, where the last point is, ends the run.
    work.keys("Enter");
    expect(pointsOf(work.state.job.elements["new-1"])).toEqual([
      [810, 600],
      [910, 610],
      [909, 632],
    ]);
    expect(work.state.undo).toHaveLength(1);
  });

  it("steps as the sheet is displayed, and as far as the view is magnified", () => {
    const work = new AtWork(twoSheets({ rotate: 90 }));
    work.session.setView({ unitsPerPixel: 0.5, centre: [400, 300] });
    work.keys("ArrowRight");
    expect(work.state.crosshair).toEqual([400, 305]);
    work.keys("ArrowUp");
    expect(work.state.crosshair).toEqual([395, 305]);
  });

  it("keeps the crosshair on the sheet", () => {
    const work = new AtWork(twoSheets());
    work.session.setView({ unitsPerPixel: 100, centre: [400, 300] });
    work.keys("Shift+ArrowLeft ArrowDown");
    expect(work.state.crosshair).toEqual([0, 0]);
  });

  it("puts points at typed distances in the building, right and up", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "trace-run" });
    expect(work.session.typed(`12'-6", 4'-0"`).ok).toBe(false);
    expect(work.notice).toBe("position.no-start");
    work.type("@100, 200");
    // 1/4" = 1'-0" is 18 units a foot on a page whose unit is 1/72".
    work.type(`12'-6", 4'-0"`);
    work.type(`0, -4'`);
    work.keys("Enter");
    expect(pointsOf(work.state.job.elements["new-1"])).toEqual([
      [100, 200],
      [325, 272],
      [325, 200],
    ]);
  });

  it("goes right and up as displayed on a turned page", () => {
    const work = new AtWork(twoSheets({ rotate: 270 }));
    work.session.start({ tool: "trace-run" });
    work.type("@500, 500");
    work.type(`10', 2'`);
    work.keys("Enter");
    expect(pointsOf(work.state.job.elements["new-1"])).toEqual([
      [500, 500],
      [536, 320],
    ]);
  });

  it("selects, goes through vertices, moves one by arrows as one step, or puts it back", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    work.session.typed("@300, 200");
    work.keys("Enter");
    expect(work.state.selection).toEqual({ table: "elements", id: "r1" });
    work.keys(".");
    expect(work.state.selection).toEqual({ table: "elements", id: "r1", vertex: 0 });
    work.keys(", ,");
    expect(work.state.selection).toMatchObject({ vertex: 1 });
    const before = work.text;
    work.keys("a ArrowRight ArrowRight ArrowUp");
    expect(work.text).toBe(before);
    expect(work.state.prompt).toContain("Enter keeps it");
    work.keys("Escape");
    expect(work.text).toBe(before);
    expect(work.state.undo).toHaveLength(0);
    work.keys("a ArrowRight ArrowRight Alt+ArrowUp Enter");
    expect(pointsOf(work.state.job.elements.r1)[1]).toEqual([320, 201]);
    expect(work.state.undo).toHaveLength(1);
    // Whatever comes next keeps what was moved: here another selection.
    work.keys("a ArrowRight");
    work.session.select({ table: "elements", id: "b1" });
    expect(pointsOf(work.state.job.elements.r1)[1]).toEqual([330, 201]);
    work.keys("a ArrowDown Enter");
    expect(work.state.job.elements.b1).toMatchObject({ at: [420, 210] });
    work.keys("Ctrl+z Ctrl+z Ctrl+z");
    expect(work.text).toBe(before);
    work.keys("Ctrl+y Ctrl+Shift+z Ctrl+y");
    expect(work.state.job.elements.b1).toMatchObject({ at: [420, 210] });
  });

  it("moves nothing by arrow keys until it is told to: they move the crosshair", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    work.session.select({ table: "elements", id: "r1", vertex: 1 });
    const before = work.text;
    work.keys("ArrowRight ArrowUp");
    expect(work.state).toMatchObject({ busy: false, crosshair: [810, 610], selection: { id: "r1", vertex: 1 } });
    // Taken up and let go again without a step: nothing is done, whatever lies under the crosshair.
    work.keys("a");
    expect(work.state.busy).toBe(true);
    work.keys("Enter");
    expect(work.state).toMatchObject({ busy: false, selection: { id: "r1", vertex: 1 } });
    work.keys("a .");
    expect(work.state).toMatchObject({ busy: false, selection: { id: "r1", vertex: 2 } });
    expect(work.text).toBe(before);
    expect(work.state.undo).toHaveLength(0);
  });

  it("has to have something to move, on the sheet that is shown", () => {
    const work = new AtWork(furnished());
    expect(work.keys("a")).toBe(false);
    work.session.select({ table: "elements", id: "r1" });
    work.session.setSheet("s-roof");
    work.keys("a ArrowRight");
    expect(work.state.busy).toBe(false);
    expect(work.state.undo).toHaveLength(0);
    work.keys("a");
    expect(work.notice).toBe("tool.nothing-to-move");
  });

  it("inserts and deletes vertices", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    work.session.select({ table: "elements", id: "r1", vertex: 2 });
    work.keys("i");
    expect(pointsOf(work.state.job.elements.r1)).toEqual([
      [200, 200],
      [300, 200],
      [300, 275],
      [300, 350],
    ]);
    expect(work.state.selection).toMatchObject({ vertex: 2 });
    work.keys("Backspace");
    expect(pointsOf(work.state.job.elements.r1)).toHaveLength(3);
  });

  it("goes through the whole of an area: outline, slope, settling", () => {
    const work = new AtWork(twoSheets());
    work.keys("o ArrowRight Enter Shift+ArrowRight Enter Shift+ArrowUp Enter Shift+ArrowLeft Enter");
    // One more Enter on the last corner closes the outline.
    work.keys("Enter");
    expect(work.state.selection).toEqual({ table: "areas", id: "new-1" });
    work.keys("s Alt+ArrowRight Enter");
    expect(work.state.prompt).toContain("elevation");
    work.type(`112'-6"`);
    work.keys("ArrowRight ArrowRight Enter");
    work.type("2%");
    expect(work.state.job.areas["new-1"]?.elevation.shape).toMatchObject({ is: "slope", rise: 0.02 });
  });

  it("leaves letters alone while something is half done, and keys it does not know always", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "outline-area" });
    work.type("@100, 100");
    expect(work.keys("t")).toBe(false);
    expect(work.state.tool.tool).toBe("outline-area");
    expect(work.keys("F5")).toBe(false);
    expect(work.keys("Ctrl+p")).toBe(false);
    expect(work.keys("Tab")).toBe(false);
  });

  it("steps out by Escape: the points, the tool, the selection, the crosshair", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    work.session.select({ table: "elements", id: "r1" });
    work.keys("t ArrowUp Enter");
    expect(work.state.busy).toBe(true);
    work.keys("Escape");
    expect(work.state).toMatchObject({ busy: false, tool: { tool: "trace-run" } });
    work.keys("Escape");
    expect(work.state).toMatchObject({ tool: { tool: "edit" }, selection: { id: "r1" } });
    work.keys("Escape");
    expect(work.state.selection).toBeNull();
    expect(work.state.crosshair).not.toBeNull();
    work.keys("Escape");
    expect(work.state.crosshair).toBeNull();
    expect(work.keys("Escape")).toBe(false);
  });
});
