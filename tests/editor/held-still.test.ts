import { describe, expect, it } from "vitest";
import type { Point2 } from "../../src/geometry/point.ts";
import { AtWork } from "./at-work.ts";
import { furnished, twoSheets } from "./sample-job.ts";

describe("a press that is held still", () => {
  it("aims from then on, and puts the point of the tool where it is lifted, with the crosshair", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "trace-run" });
    work.pointer("down", [100, 100]);
    work.pointer("hold", [100, 100]);
    expect(work.state.aim?.at).toEqual([100, 100]);
    work.pointer("move", [260, 180]);
    expect(work.state.aim?.at).toEqual([260, 180]);
    expect(work.state.busy).toBe(false);
    work.pointer("up", [260, 180]);
    expect(work.state).toMatchObject({ busy: true, crosshair: [260, 180] });
    work.pointer("leave", [260, 180]);
    expect(work.state.aim?.at).toEqual([260, 180]);
    // What is moved by keys next counts from there.
    work.keys("ArrowRight");
    expect(work.state.crosshair).toEqual([270, 180]);
  });

  it("puts nothing when it is called off", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "trace-run" });
    work.pointer("down", [100, 100]);
    work.pointer("hold", [100, 100]);
    work.pointer("move", [260, 180]);
    work.pointer("cancel", [260, 180]);
    expect(work.state).toMatchObject({ busy: false, aim: null });
    work.pointer("move", [300, 180]);
    expect(work.state.aim?.at).toEqual([300, 180]);
  });

  it("selects what is there while no tool is in hand, and leaves a drag that was taken alone", () => {
    const work = new AtWork(furnished());
    // The first vertex of the run.
    const at: Point2 = [200, 200];
    work.session.setSheet("s-ceiling");
    work.pointer("down", [at[0] + 300, at[1] + 300]);
    work.pointer("hold", [at[0] + 300, at[1] + 300]);
    work.pointer("move", at);
    work.pointer("up", at);
    expect(work.state.selection).toEqual({ table: "elements", id: "r1" });
    work.drag([at], { hold: true });
    work.pointer("hold", at);
    work.pointer("move", [at[0] + 20, at[1] + 40]);
    work.pointer("up", [at[0] + 20, at[1] + 40]);
    expect(work.state.undo.at(-1)?.name).toBe("Move a vertex of R-1");
  });
});
