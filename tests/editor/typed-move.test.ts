import { describe, expect, it } from "vitest";
import type { Run } from "../../src/job/elements/run.ts";
import { AtWork } from "./at-work.ts";
import { furnished } from "./sample-job.ts";

/** The ceiling sheet, where 18 units are a foot, with something selected and taken up by its key. */
function takenUp(selection: Parameters<AtWork["session"]["select"]>[0]): AtWork {
  const work = new AtWork(furnished());
  // Work on another sheet before must not be taken for where the movement began.
  work.session.start({ tool: "trace-run" });
  work.click([50, 50]);
  work.keys("Escape Escape");
  work.session.setSheet("s-ceiling");
  work.session.select(selection);
  work.keys("a");
  return work;
}
const run = (work: AtWork) => (work.state.job.elements.r1 as Run).vertices.map(({ at }) => at);

describe("moving what is selected by so far", () => {
  it("moves all of it, or the vertex that is selected, from where it was, as one step", () => {
    const work = takenUp({ table: "elements", id: "r1" });
    expect(work.state.asks).toEqual(["length", "position"]);
    work.type(`10'-0" up`);
    expect(run(work)).toEqual([
      [200, 380],
      [300, 380],
      [300, 530],
    ]);
    expect(work.state).toMatchObject({ busy: false, tool: { tool: "edit", moving: null } });
    expect(work.state.undo.map(({ name }) => name)).toEqual(["Move R-1"]);
    work.session.select({ table: "elements", id: "r1", vertex: 1 });
    work.keys("a");
    work.type(`2'-0", -1'-0"`);
    expect(run(work)[1]).toEqual([336, 362]);
    work.keys("Ctrl+z Ctrl+z");
    expect(run(work)[0]).toEqual([200, 200]);
  });

  it("moves several at once, and goes on the way the arrow keys began", () => {
    const work = takenUp({
      several: [
        { table: "elements", id: "r1" },
        { table: "elements", id: "b1" },
      ],
    });
    work.keys("Shift+ArrowLeft");
    work.type(`10'`);
    expect(run(work)[0]).toEqual([20, 200]);
    expect(work.state.job.elements.b1).toMatchObject({ at: [240, 220] });
    expect(work.state.undo).toHaveLength(1);
  });

  it("asks which way where nothing says so, refuses nonsense, and Escape still puts it back", () => {
    const work = takenUp({ table: "elements", id: "b1" });
    const before = work.text;
    expect(work.session.typed(`10'`)).toMatchObject({ problems: [{ code: "travel.no-way" }] });
    expect(work.session.typed("anywhere")).toMatchObject({ problems: [{ code: "tool.nothing-to-type" }] });
    work.keys("ArrowRight");
    work.keys("Escape");
    expect(work.text).toBe(before);
    expect(work.state.undo).toEqual([]);
  });
});
