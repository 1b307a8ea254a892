import { describe, expect, it } from "vitest";
import { registerViewport } from "../../src/editor/edits/registration.ts";
import { snapped } from "../../src/editor/snap.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { furnished } from "./sample-job.ts";

const job = furnished();
const field = { job, sheet: "s-ceiling", reach: 8, points: [], passing: [], rightAngle: false } as const;

describe("where a point goes", () => {
  it("goes to a vertex in reach, the limit included, before a line", () => {
    expect(snapped([300, 208], field)).toEqual({ at: [300, 200], why: "Vertex of R-1" });
    expect(snapped([300, 208.001], field)).toEqual({ at: [300, 208.001], why: "On R-1" });
    expect(snapped([250, 205], field)).toEqual({ at: [250, 200], why: "On R-1" });
    expect(snapped([250, 209], field)).toEqual({ at: [250, 209], why: null });
    expect(snapped([423, 218], field).why).toBe("Vertex of B-1");
  });

  it("knows only what lies on the sheet shown", () => {
    expect(snapped([300, 208], { ...field, sheet: "s-roof" }).why).toBeNull();
    expect(snapped([104, 97], { ...field, sheet: "s-roof" })).toEqual({ at: [100, 100], why: "Vertex of A-1" });
    expect(snapped([95, 250], { ...field, sheet: "s-roof" })).toEqual({ at: [100, 250], why: "On A-1" });
  });

  it("goes to the tool's own points, and to shared points of viewports by their name", () => {
    expect(snapped([703, 701], { ...field, points: [[700, 700]] })).toEqual({ at: [700, 700], why: "First point" });
    const shared = applyChecked(
      job,
      registerViewport(job, "v-roof", "v-ceiling", [
        { label: "B/3", here: [10, 10], there: [600, 600] },
        { label: "", here: [900, 10], there: [1490, 600] },
      ]),
    );
    expect(snapped([602, 600], { ...field, job: shared })).toEqual({ at: [600, 600], why: "Shared point B/3" });
    expect(snapped([12, 10], { ...field, job: shared, sheet: "s-roof" }).why).toBe("Shared point B/3");
  });

  it("keeps a right angle to the page, or to a slanting last piece", () => {
    const from = { ...field, points: [[500, 500]] as const, rightAngle: true };
    expect(snapped([620, 510], from)).toEqual({ at: [620, 500], why: "Right angle" });
    expect(snapped([490, 620], from).at).toEqual([500, 620]);
    const slanting = { ...from, points: [[400, 400] as const, [500, 500] as const] };
    const square = snapped([440, 565], slanting).at;
    expect(square[0]).toBeCloseTo(437.5, 9);
    expect(square[1]).toBeCloseTo(562.5, 9);
  });

  it("leaves points alone with Alt, and the thing being dragged out of it", () => {
    const work = new AtWork(job);
    work.session.setSheet("s-ceiling");
    work.session.start({ tool: "trace-run" });
    work.pointer("move", [302, 203]);
    expect(work.state.aim).toEqual({ at: [300, 200], why: "Vertex of R-1" });
    work.pointer("move", [302, 203], { alt: true });
    expect(work.state.aim).toEqual({ at: [302, 203], why: null });
    work.session.start({ tool: "edit" });
    work.session.select({ table: "elements", id: "r1" });
    work.drag([
      [300, 200],
      [330, 240],
      [305, 204],
    ]);
    expect(work.state.job.elements.r1).toMatchObject({ vertices: [{}, { at: [305, 204] }, {}] });
    work.drag([
      [305, 204],
      [330, 240],
      [418, 222],
    ]);
    expect(work.state.job.elements.r1).toMatchObject({ vertices: [{}, { at: [420, 220] }, {}] });
  });
});
