import { describe, expect, it } from "vitest";
import { setTag } from "../../src/editor/edits/elements.ts";
import { removeScale } from "../../src/editor/edits/scale.ts";
import { editorMessage } from "../../src/editor/messages.ts";
import { parseTag } from "../../src/editor/parse-tag.ts";
import { pickedIn } from "../../src/editor/selection.ts";
import type { Run } from "../../src/job/elements/run.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { furnished, valueIn } from "./sample-job.ts";

/** The job with R-1 selected and the tool in hand: 18 sheet units are a foot, and R-1 goes right from [200, 200] to [300, 200], then up. */
function atHand(job = furnished()): AtWork {
  const work = new AtWork(job);
  work.session.setSheet("s-ceiling");
  work.session.select({ table: "elements", id: "r1" });
  work.keys("Shift+P");
  expect(work.state.tool.tool).toBe("parallel-runs");
  return work;
}
const run = (work: AtWork, id: string) => work.state.job.elements[id] as Run;
const places = (work: AtWork, id: string) => run(work, id).vertices.map(({ at }) => at);

describe("runs beside a run", () => {
  it("lie where they are typed and pointed, with wiring, facts, tags and labels of their own, as one step", () => {
    const job = furnished();
    const tag = valueIn(parseTag(`13'-2" AFF centre`, job, "v-ceiling"));
    const work = atHand(applyChecked(job, setTag(job, "r1", 2, tag)));
    // 1/4" = 1'-0": a foot is 18 points, 6" is 9.
    work.type(`3 at 6"`);
    expect(work.state.prompt).toContain(`3 runs beside R-1, 6" apart`);
    work.pointer("move", [250, 260]);
    expect(work.session.draft().length).toBeGreaterThan(6);
    work.click([250, 260]);
    expect(places(work, "new-1")).toEqual([
      [200, 209],
      [291, 209],
      [291, 350],
    ]);
    expect(places(work, "new-3")).toEqual([
      [200, 227],
      [273, 227],
      [273, 350],
    ]);
    expect(["new-1", "new-2", "new-3"].map((id) => run(work, id).label)).toEqual(["R-2", "R-3", "R-4"]);
    expect(run(work, "new-2")).toMatchObject({
      wiring: run(work, "r1").wiring,
      facts: run(work, "r1").facts,
      vertices: [{ tag: null }, { tag: null }, { tag }],
    });
    expect(work.state.undo).toHaveLength(1);
    expect(work.state.undo[0]?.name).toBe("Lay 3 runs beside R-1");
    expect(pickedIn(work.state.selection, "elements")).toEqual(["new-1", "new-2", "new-3"]);
    expect(work.state.tool.tool).toBe("edit");
    const text = work.text;
    work.keys("Ctrl+z");
    expect(Object.keys(work.state.job.elements)).toEqual(["r1", "b1"]);
    work.keys("Ctrl+y");
    expect(work.text).toBe(text);
  });

  it("are laid by keys alone: S chooses the side, Enter lays them", () => {
    const work = atHand();
    work.type("2 runs");
    work.keys("Enter");
    expect(work.notice).toBe("parallel.no-side");
    work.keys("s s");
    expect(work.state.prompt).toContain("on the right as it is traced");
    work.keys("Enter");
    // Without a word of it they lie as the raceways of a rack do: 2" from centre to centre for 3/4 EMT, 3 points.
    expect(places(work, "new-2")).toEqual([
      [200, 194],
      [306, 194],
      [306, 350],
    ]);
  });

  it("say what stands in the way, and change nothing", () => {
    const work = atHand();
    const before = work.text;
    work.type(`12'`);
    work.click([250, 260]);
    expect(work.notice).toBe("parallel.too-tight");
    expect(editorMessage(work.state.notice!)).toContain("R-1 that begins at vertex 1");
    expect(work.session.typed("0 runs")).toMatchObject({ problems: [{ code: "copies.not-a-count" }] });
    expect(work.session.typed(`3 at 0"`)).toMatchObject({ problems: [{ code: "copies.not-positive" }] });
    expect(work.session.typed("some")).toMatchObject({ problems: [{ code: "length.not-a-length" }] });
    work.keys("Escape");
    expect(work.state.tool.tool).toBe("edit");
    expect(work.text).toBe(before);
    work.session.select({ table: "elements", id: "b1" });
    expect(work.session.start({ tool: "parallel-runs" })).toBe(false);
    expect(work.notice).toBe("parallel.no-run");
    const job = furnished();
    const unscaled = atHand(applyChecked(job, removeScale(job, "v-ceiling", "stated")));
    unscaled.click([250, 260]);
    expect(unscaled.notice).toBe("registration.no-scale");
  });
});
