import { describe, expect, it } from "vitest";
import type { CheckResult } from "../../src/check/finding.ts";
import { classifyArea } from "../../src/editor/edits/areas.ts";
import { deleteRecords, removeSheet } from "../../src/editor/edits/delete-records.ts";
import { setFacts, setTag } from "../../src/editor/edits/elements.ts";
import { rename } from "../../src/editor/edits/rename.ts";
import { lacks } from "../../src/editor/lacks.ts";
import { emptyJob, type Job } from "../../src/job/schema.ts";
import { editIn } from "../job/apply-checked.ts";
import { AtWork, NOTHING_FOUND } from "./at-work.ts";
import { furnished, twoSheets } from "./sample-job.ts";

describe("a session", () => {
  it("begins on the first sheet, with nothing to take back and a check done", () => {
    const work = new AtWork(twoSheets());
    expect(work.state).toMatchObject({
      sheet: "s-ceiling",
      viewport: "v-ceiling",
      stage: "sheet",
      selection: null,
      undo: [],
      redo: [],
      result: NOTHING_FOUND,
      checking: false,
    });
    expect(work.state.prompt).not.toBe("");
    expect(new AtWork(emptyJob("None", "us-2023")).state).toMatchObject({ sheet: null, viewport: null });
  });

  it("checks after every edit, undo and redo, and not otherwise", () => {
    const work = new AtWork(furnished());
    const count = () => work.checked.length;
    expect(count()).toBe(1);
    work.session.attempt(classifyArea(work.state.job, "a1", { is: "roof" }));
    expect(count()).toBe(2);
    work.session.attempt(classifyArea(work.state.job, "a1", { is: "roof" }));
    expect(count()).toBe(2);
    expect(work.state.undo).toHaveLength(1);
    work.session.undo();
    work.session.redo();
    expect(count()).toBe(4);
    work.session.select({ table: "areas", id: "a1" });
    work.session.setStage("roof");
    expect(count()).toBe(4);
    expect(work.checked.at(-1)).toBe(work.state.job);
  });

  it("drops the answer of a check that comes after a later edit", async () => {
    const answers: ((result: CheckResult) => void)[] = [];
    const work = new AtWork(furnished(), {
      check: () => new Promise<CheckResult>((answer) => answers.push(answer)),
    });
    work.session.attempt(classifyArea(work.state.job, "a1", { is: "roof" }));
    const late: CheckResult = { ...NOTHING_FOUND };
    const right: CheckResult = { ...NOTHING_FOUND };
    answers[1]!(right);
    await Promise.resolve();
    expect(work.state).toMatchObject({ checking: false });
    expect(work.state.result).toBe(right);
    answers[0]!(late);
    await Promise.resolve();
    expect(work.state.result).toBe(right);
  });

  it("keeps the result before when a check is stopped, says so, and checks again when asked or after an edit", async () => {
    const answers: ((result: CheckResult | null) => void)[] = [];
    const work = new AtWork(furnished(), {
      check: () => new Promise<CheckResult | null>((answer) => answers.push(answer)),
    });
    const answer = async (result: CheckResult | null) => {
      answers.at(-1)!(result);
      await Promise.resolve();
    };
    await answer(NOTHING_FOUND);
    const before = work.state.result;
    expect(work.state).toMatchObject({ checking: false, stopped: false });
    work.session.attempt(classifyArea(work.state.job, "a1", { is: "roof" }));
    await answer(null);
    expect(work.state).toMatchObject({ checking: false, stopped: true });
    expect(work.state.result).toBe(before);
    const lacking = lacks(work.state.job, work.state.result, work.state.stopped);
    expect(lacking.filter(({ stage }) => stage === "check").map(({ code }) => code)).toContain("check-stopped");
    work.session.checkAgain();
    expect(work.state).toMatchObject({ checking: true, stopped: false });
    await answer(null);
    work.session.attempt(classifyArea(work.state.job, "a1", { is: "not-settled" }));
    expect(answers).toHaveLength(4);
    await answer(NOTHING_FOUND);
    expect(work.state).toMatchObject({ checking: false, stopped: false });
  });

  it("keeps the work and tells of it when a check fails", async () => {
    const bugs: unknown[] = [];
    const fail = new Error("broken check");
    const check = (job: Job): CheckResult => {
      if (job.areas.a1?.classification.is === "roof") throw fail;
      return NOTHING_FOUND;
    };
    const work = new AtWork(furnished(), { check, onBug: (error) => bugs.push(error) });
    work.session.attempt(classifyArea(work.state.job, "a1", { is: "roof" }));
    expect(bugs).toEqual([fail]);
    expect(work.state.job.areas.a1?.classification.is).toBe("roof");
    expect(work.state.checking).toBe(false);
    const loud = new AtWork(furnished(), { check });
    expect(() => loud.session.attempt(classifyArea(loud.state.job, "a1", { is: "roof" }))).toThrow(fail);
    expect(loud.state.job.areas.a1?.classification.is).toBe("roof");
  });

  it("shows the first problem of an edit that was refused, until the next act", () => {
    const work = new AtWork(furnished());
    expect(work.session.attempt(rename(work.state.job, "elements", "r1", " "))).toBe(false);
    expect(work.notice).toBe("edit.empty-name");
    work.session.select({ table: "elements", id: "r1" });
    expect(work.notice).toBeNull();
  });

  it("lets go of what an edit or an undo takes away", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-roof");
    work.session.select({ table: "areas", id: "a1" });
    work.session.start({ tool: "spots" });
    work.session.attempt(removeSheet(work.state.job, "s-roof"));
    expect(work.state).toMatchObject({
      sheet: "s-ceiling",
      viewport: "v-ceiling",
      selection: null,
      tool: { tool: "edit" },
    });
    work.session.undo();
    expect(work.state.sheet).toBe("s-ceiling");
    work.session.select({ table: "elements", id: "r1", vertex: 2 });
    work.keys("Delete");
    work.session.undo();
    work.session.select({ table: "elements", id: "r1", vertex: 2 });
    work.session.redo();
    expect(work.state.selection).toEqual({ table: "elements", id: "r1" });
  });

  it("starts a new past with another job", () => {
    const work = new AtWork(furnished());
    work.session.attempt(setFacts(work.state.job, "r1", { steelFittings: true }));
    const other = twoSheets();
    work.session.replaceJob(other);
    expect(work.state.job).toBe(other);
    expect(work.state).toMatchObject({ undo: [], redo: [], selection: null, tool: { tool: "edit" } });
    expect(work.checked.at(-1)).toBe(other);
  });

  it("does an edit of a card while a run is being traced, and goes on tracing", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    work.session.start({ tool: "trace-run" });
    work.click([600, 600]);
    work.session.commit(editIn(setFacts(work.state.job, "r1", { accessible: true })));
    work.click([700, 600]);
    work.keys("Enter");
    expect(work.state.job.elements["new-1"]).toMatchObject({ label: "R-2" });
    expect(work.state.undo).toHaveLength(2);
  });

  it("does an edit of a card while something is being moved by keys, and keeps both", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    work.session.select({ table: "elements", id: "r1", vertex: 0 });
    work.keys("a ArrowLeft");
    const tag = {
      length: { value: 150, unit: "in" },
      datum: { from: "project" },
      basis: "top",
      plusMinus: null,
    } as const;
    work.session.attempt(setTag(work.state.job, "r1", 0, tag));
    expect(work.state.busy).toBe(true);
    work.keys("Enter");
    expect(work.state.job.elements.r1).toMatchObject({ vertices: [{ at: [190, 200], tag }, {}, {}] });
    expect(work.state.undo).toHaveLength(2);
  });

  it("ends what is half done wherever the crosshair is", () => {
    const work = new AtWork(furnished());
    expect(work.session.finish()).toBe(false);
    work.session.start({ tool: "trace-run" });
    work.keys("ArrowUp Enter ArrowUp Enter ArrowUp ArrowUp");
    expect(work.session.finish()).toBe(true);
    expect(work.state.job.elements["new-1"]).toMatchObject({ vertices: [{}, {}] });
  });

  it("keeps the tool in hand while the same stage is chosen again, and leaves it for another", () => {
    const work = new AtWork(furnished());
    work.session.setStage("wiring");
    work.session.start({ tool: "trace-run" });
    work.session.setStage("wiring");
    expect(work.state.tool.tool).toBe("trace-run");
    work.session.setStage("check");
    expect(work.state.tool.tool).toBe("edit");
  });

  it("draws the same draft until something changes, and the crosshair and handles in it", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    expect(work.session.draft()).toEqual([]);
    work.session.select({ table: "elements", id: "r1" });
    const handles = work.session.draft();
    expect(handles).toHaveLength(3);
    expect(work.session.draft()).toBe(handles);
    work.session.select({ table: "elements", id: "b1" });
    expect(work.session.draft()).toHaveLength(1);
    work.session.select(null);
    work.keys("ArrowUp");
    expect(work.session.draft()).toHaveLength(1);
  });

  it("deletes records of several tables at once", () => {
    const work = new AtWork(furnished());
    work.session.attempt(
      deleteRecords(work.state.job, [
        { table: "elements", id: "r1" },
        { table: "areas", id: "a1" },
      ]),
    );
    expect(Object.keys(work.state.job.elements)).toEqual(["b1"]);
    expect(work.state.undo.at(-1)?.name).toBe("Delete 2 things");
  });
});
