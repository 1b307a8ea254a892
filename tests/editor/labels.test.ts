import { describe, expect, it } from "vitest";
import { createChecker } from "../../src/check/check-job.ts";
import { addBox, addRun } from "../../src/editor/edits/elements.ts";
import { relabelled, renumber } from "../../src/editor/edits/renumber.ts";
import { findLabel } from "../../src/editor/find-label.ts";
import { selectionOf } from "../../src/editor/selection.ts";
import type { Edit } from "../../src/job/edit.ts";
import { nextLabel } from "../../src/job/labels.ts";
import type { Job } from "../../src/job/schema.ts";
import type { Result } from "../../src/units/problem.ts";
import { inchJob, roof, run, withParts } from "../check/inch-job.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { EMT, furnished, twoSheets, valueIn } from "./sample-job.ts";

const traced = (job: Job, id: string, y: number, x = 100) =>
  addRun(job, id, {
    viewport: "v-ceiling",
    wiring: EMT,
    vertices: [
      { at: [x, y], tag: null },
      { at: [x + 100, y], tag: null },
    ],
  });
/** one below the other but for r4, which lies right of r1 and a little higher; b1, which is B-1. */
function several(more: Parameters<typeof twoSheets>[0] = {}): Job {
  let job = twoSheets(more);
  const add = (edit: Result<Edit>) => {
    job = applyChecked(job, edit);
  };
  add(traced(job, "r1", 200));
  add(traced(job, "r2", 900));
  add(traced(job, "r3", 600));
  add(traced(job, "r4", 210, 500));
  add(addBox(job, "b1", { viewport: "v-ceiling", at: [420, 220], item: "4sq-2-1/8", cover: "down" }));
  return job;
}
const runs = ["r1", "r2", "r3", "r4"].map((id) => ({ table: "elements" as const, id }));
const labels = (job: Job): Record<string, string> =>
  Object.fromEntries(Object.entries(job.elements).map(([id, { label }]) => [id, label]));

describe("a label", () => {
  it("is not given again when the thing that had it is deleted, called otherwise or joined to another", () => {
    const work = new AtWork(several());
    const trace = (id: string) => work.session.attempt(traced(work.state.job, id, 1000));
    work.session.select({ table: "elements", id: "r4" });
    work.keys("Delete");
    trace("r5");
    expect(labels(work.state.job)).toMatchObject({ r1: "R-1", r2: "R-2", r3: "R-3", r5: "R-5" });
    work.session.commit({
      name: "Rename R-5",
      changes: [
        {
          table: "elements",
          id: "r5",
          before: work.state.job.elements.r5,
          after: { ...work.state.job.elements.r5!, label: "Feeder" },
        },
      ],
    });
    expect(nextLabel(work.state.job, "run")).toBe("R-6");
    // One in the middle shifts no other, and needs nothing to be remembered.
    const { settings } = work.state.job;
    work.session.select({ table: "elements", id: "r2" });
    work.keys("Delete");
    expect(work.state.job.settings).toBe(settings);
    expect(labels(work.state.job)).toEqual({ r1: "R-1", r3: "R-3", r5: "Feeder", b1: "B-1" });
    expect(nextLabel(work.state.job, "run")).toBe("R-6");
    expect(nextLabel(work.state.job, "box")).toBe("B-2");
  });

  it("is what it was when the deletion is taken back, with everything else", () => {
    const work = new AtWork(several());
    const before = work.text;
    work.session.setStage("wiring");
    work.session.setSheet("s-ceiling");
    work.keys("Ctrl+a Delete");
    expect(work.state.job.settings.job.labelsGiven).toEqual({ B: 1, R: 4 });
    expect(nextLabel(work.state.job, "run")).toBe("R-5");
    work.session.undo();
    expect(work.text).toBe(before);
  });

  it("that is remembered has nothing else checked again", () => {
    const job = withParts(
      inchJob(),
      { roof: roof(160) },
      {
        a: run([
          [0, 0, 140],
          [100, 0, 146],
        ]),
        b: run(
          [
            [0, 50, 150],
            [100, 50, 150],
          ],
          { label: "R-2" },
        ),
      },
    );
    const checker = createChecker();
    checker(job);
    const before = checker.checked();
    const { b: _, ...elements } = job.elements;
    checker({ ...job, elements, settings: { job: { ...job.settings.job, labelsGiven: { R: 2 } } } });
    expect(checker.checked()).toBe(before);
    checker({ ...job, elements, settings: { job: { ...job.settings.job, edition: "us-2026" } } });
    expect(checker.checked()).toBe(before + 1);
  });
});

describe("renumbering", () => {
  it("goes by rows from the top and from the left, as the page is displayed", () => {
    const upright = several();
    expect(relabelled(upright, runs, "place").map(({ id, to }) => [id, to])).toEqual([
      ["r2", "R-1"],
      ["r3", "R-2"],
      ["r1", "R-3"],
      ["r4", "R-4"],
    ]);
    // Turned by a quarter, what is left of the page space is at the top.
    const turned = several({ rotate: 90 });
    expect(relabelled(turned, runs, "place").map(({ id }) => id)).toEqual(["r1", "r3", "r2", "r4"]);
  });

  it("goes along the selection, passes over labels of what is left out and forms of their own, and is one step", () => {
    const work = new AtWork(several());
    const some = [runs[3]!, runs[0]!, { table: "elements" as const, id: "b1" }];
    expect(relabelled(work.state.job, some, "selection").map(({ from, to }) => `${from} ${to}`)).toEqual([
      "R-4 R-1",
      "R-1 R-4",
      "B-1 B-1",
    ]);
    const before = work.text;
    const { b1 } = work.state.job.elements;
    work.session.select(selectionOf(some));
    work.session.attempt(renumber(work.state.job, some, "selection"));
    expect(labels(work.state.job)).toEqual({ r1: "R-4", r2: "R-2", r3: "R-3", r4: "R-1", b1: "B-1" });
    expect(work.state.undo.map(({ name }) => name)).toEqual(["Renumber 2 labels"]);
    expect(work.state.job.elements.b1).toBe(b1);
    work.session.undo();
    expect(work.text).toBe(before);
    const named = { ...work.state.job, elements: { r1: { ...work.state.job.elements.r1!, label: "Feeder" } } } as Job;
    expect(relabelled(named, [runs[0]!], "place")).toEqual([]);
  });

  it("begins to count anew after the largest that is left", () => {
    const work = new AtWork(several());
    work.session.select({ table: "elements", id: "r1" });
    work.keys("Delete");
    const left = runs.slice(1);
    work.session.attempt(renumber(work.state.job, left, "place"));
    expect(labels(work.state.job)).toMatchObject({ r2: "R-1", r3: "R-2", r4: "R-3" });
    expect(nextLabel(work.state.job, "run")).toBe("R-4");
    expect(valueIn(renumber(work.state.job, left, "place")).changes).toEqual([]);
  });
});

describe("finding by label", () => {
  const found = (text: string) => findLabel(furnished(), null, text, 10).map(({ key }) => key);
  it("takes signs and capitals as nothing, and puts the very label first", () => {
    expect(found("r1")).toEqual(["elements/r1"]);
    expect(found("B-1")).toEqual(["elements/b1"]);
    expect(found("1")).toEqual(["areas/a1", "elements/b1", "storeys/level-1", "elements/r1"]);
    expect(found("ceiling")).toEqual(["viewports/v-ceiling"]);
    expect(found(" - ")).toEqual([]);
    expect(found("nothing of the sort")).toEqual([]);
    expect(findLabel(several(), null, "r", 2)).toHaveLength(2);
  });
});
