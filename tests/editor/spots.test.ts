import { describe, expect, it } from "vitest";
import { addFoldLine, removeSpot, setFoldLine, setSpots } from "../../src/editor/edits/spots.ts";
import { deleteVertex, moveVertex, moveWhole } from "../../src/editor/edits/vertices.ts";
import { parseFoldLine } from "../../src/editor/parse-fold-line.ts";
import type { FoldLine, Job } from "../../src/job/schema.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { furnished } from "./sample-job.ts";

const inch = (value: number) => ({ value, unit: "in" as const });
const SPOTS = (
  [
    [100, 100, 1440],
    [500, 100, 1440],
    [500, 400, 1440],
    [100, 400, 1440],
    [250, 250, 1480],
    [350, 250, 1480],
  ] as const
).map(([x, y, z]) => ({ at: [x, y] as const, elevation: inch(z) }));

/** The furnished job with a hip roof on its area: four eaves corners and the two ends of a ridge. */
function hipped(...lines: readonly (readonly [number, number, FoldLine["kind"]])[]): Job {
  let job = applyChecked(furnished(), setSpots(furnished(), "a1", SPOTS, []));
  for (const [a, b, kind] of lines) job = applyChecked(job, addFoldLine(job, "a1", { between: [a, b], kind }));
  return job;
}

const linesOf = (job: Job): string[] => {
  const { shape } = job.areas.a1!.elevation;
  return shape.is === "spots" ? (shape.lines ?? []).map(({ between, kind }) => `${between.join("-")} ${kind}`) : [];
};
const spotsOf = (job: Job): number => {
  const { shape } = job.areas.a1!.elevation;
  return shape.is === "spots" ? shape.spots.length : 0;
};
const refusal = (result: ReturnType<typeof addFoldLine>): string =>
  result.ok ? "" : result.problems.map(({ code }) => code).join();

describe("lines between spots", () => {
  it("are drawn, called something else, and taken out", () => {
    let job = hipped([5, 6, "ridge"], [1, 5, "hip"]);
    expect(linesOf(job)).toEqual(["5-6 ridge", "1-5 hip"]);
    job = applyChecked(job, setFoldLine(job, "a1", 1, "edge"));
    expect(linesOf(job)).toEqual(["5-6 ridge", "1-5 edge"]);
    job = applyChecked(job, setFoldLine(job, "a1", 0, null));
    job = applyChecked(job, setFoldLine(job, "a1", 0, null));
    expect(job.areas.a1!.elevation.shape).not.toHaveProperty("lines");
  });

  it("are refused where they lead nowhere, to no spot, twice, across another, or through a spot", () => {
    const job = hipped([5, 6, "ridge"]);
    const draw = (a: number, b: number, from = job) =>
      refusal(addFoldLine(from, "a1", { between: [a, b], kind: "valley" }));
    expect(draw(3, 3)).toBe("fold.one-spot");
    expect(draw(3, 7)).toBe("fold.no-such-spot");
    expect(draw(0, 1)).toBe("fold.no-such-spot");
    expect(draw(6, 5)).toBe("fold.twice");
    const middle = applyChecked(
      job,
      setSpots(
        job,
        "a1",
        [...SPOTS, { at: [300, 100], elevation: inch(1440) }, { at: [300, 400], elevation: inch(1440) }],
        [0, 1, 2, 3, 4, 5],
      ),
    );
    expect(draw(7, 8, middle)).toBe("fold.crosses");
    expect(draw(1, 2, middle)).toBe("fold.through");
    expect(refusal(addFoldLine(furnished(), "a1", { between: [1, 2], kind: "ridge" }))).toBe("edit.not-a");
    expect(refusal(addFoldLine(job, "gone", { between: [1, 2], kind: "ridge" }))).toBe("edit.no-such-record");
    expect(refusal(setFoldLine(job, "a1", 4, null))).toBe("edit.no-such-record");
  });

  it("go with their spots when one is taken out, moved, or all are", () => {
    const job = hipped([5, 6, "ridge"], [1, 5, "hip"], [3, 6, "hip"]);
    const without = applyChecked(job, removeSpot(job, "a1", 1));
    expect(linesOf(without)).toEqual(["4-5 ridge", "1-4 hip", "2-5 hip"]);
    expect(linesOf(applyChecked(job, removeSpot(job, "a1", 4)))).toEqual(["3-5 hip"]);
    // Vertices are counted through the four corners first.
    expect(linesOf(applyChecked(job, deleteVertex(job, "areas", "a1", 4)))).toEqual(["4-5 ridge", "2-5 hip"]);
    expect(linesOf(applyChecked(job, moveVertex(job, "areas", "a1", 8, [260, 250])))).toEqual(linesOf(job));
    expect(linesOf(applyChecked(job, moveWhole(job, "areas", "a1", [5, 5])))).toEqual(linesOf(job));
    let few = job;
    for (let i = 0; i < 3; i++) few = applyChecked(few, removeSpot(few, "a1", 0));
    expect(refusal(removeSpot(few, "a1", 0))).toBe("edit.too-few-spots");
  });
});

describe("a typed line", () => {
  it.each([
    ["5-6", [5, 6], null],
    ["5 - 6 ridge", [5, 6], "ridge"],
    ["12, 3 Valley", [12, 3], "valley"],
    ["1 to 4 drain line", [1, 4], "drain"],
    ["2 3", [2, 3], null],
    ["hip", null, "hip"],
  ] as const)("is read: %s", (text, between, kind) => {
    expect(parseFoldLine(text)).toEqual({ ok: true, value: { between, kind } });
  });
  it.each(["", "5", "5-", "gable", "5-6 gable", "5-6-7", "ridge 5-6", "-5-6"])("is refused: %s", (text) => {
    expect(parseFoldLine(text).ok).toBe(false);
  });
});

describe("drawing ridges and valleys", () => {
  it("goes from spot to spot by pointing at them, line after line, each one undo step", () => {
    const work = new AtWork(hipped());
    work.session.start({ tool: "fold-line", area: "a1", kind: "ridge" });
    expect(work.state.sheet).toBe("s-roof");
    work.click([250, 250]);
    work.click([350, 250]);
    work.type("hip");
    work.click([100, 100]);
    work.click([250, 250]);
    expect(linesOf(work.state.job)).toEqual(["5-6 ridge", "1-5 hip"]);
    expect(work.state.undo).toHaveLength(2);
    work.click([300, 320]);
    expect(work.notice).toBe("fold.no-spot-there");
    work.keys("Enter");
    work.keys("Enter");
    expect(work.state.tool.tool).toBe("edit");
    work.session.undo();
    expect(linesOf(work.state.job)).toEqual(["5-6 ridge"]);
  });

  it("takes two numbers and a kind by the keyboard alone", () => {
    const work = new AtWork(hipped());
    work.session.select({ table: "areas", id: "a1" });
    work.session.start({ tool: "fold-line" });
    expect(work.state.asks).toEqual(["fold"]);
    work.type("5-6 ridge");
    work.type("1-5 hip");
    work.type("4-5");
    expect(linesOf(work.state.job)).toEqual(["5-6 ridge", "1-5 hip", "4-5 hip"]);
    expect(work.session.typed("5-9").ok).toBe(false);
    expect(work.notice).toBe("fold.no-such-spot");
    expect(work.session.typed("gable").ok).toBe(false);
    expect(work.notice).toBe("fold.not-a-line");
  });

  it("is refused for a deck without spots", () => {
    const work = new AtWork(furnished());
    work.session.start({ tool: "fold-line", area: "a1" });
    expect(work.notice).toBe("fold.no-spots");
    expect(work.state.tool.tool).toBe("edit");
  });
});

describe("putting more spots", () => {
  it("adds to those that are there, and keeps their lines", () => {
    const work = new AtWork(hipped([5, 6, "ridge"]));
    work.session.start({ tool: "spots", area: "a1" });
    expect(work.session.typed(`120'`).ok).toBe(false);
    expect(work.notice).toBe("tool.point-first");
    work.type("@300, 400");
    work.type(`121'`);
    work.keys("Enter");
    expect(spotsOf(work.state.job)).toBe(7);
    expect(linesOf(work.state.job)).toEqual(["5-6 ridge"]);
    expect(work.state.undo).toHaveLength(1);
  });
  it("leaves everything alone when none is put", () => {
    const work = new AtWork(hipped([5, 6, "ridge"]));
    work.session.start({ tool: "spots", area: "a1" });
    work.keys("Enter");
    expect(work.state.tool.tool).toBe("edit");
    expect(work.state.undo).toHaveLength(0);
  });
  it("begins without any when asked to put all again, and then has no lines", () => {
    const work = new AtWork(hipped([5, 6, "ridge"]));
    work.session.start({ tool: "spots", area: "a1", again: true });
    for (const [x, y] of [
      [150, 150],
      [450, 150],
      [300, 350],
    ]) {
      work.type(`@${x}, ${y}`);
      work.type(`120'`);
    }
    work.keys("Enter");
    expect(spotsOf(work.state.job)).toBe(3);
    expect(linesOf(work.state.job)).toEqual([]);
  });
});
