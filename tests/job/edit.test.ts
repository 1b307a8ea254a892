import { describe, expect, it } from "vitest";
import { apply, editOf, invert } from "../../src/job/edit.ts";
import { doEdit, EMPTY_HISTORY, redoEdit, undoEdit } from "../../src/job/history.ts";
import { labelled, nextLabel } from "../../src/job/labels.ts";
import { emptyJob, type Job } from "../../src/job/schema.ts";
import { applyChecked } from "./apply-checked.ts";

const storey = (name: string) => ({ name, floor: { value: 12, unit: "ft" as const } });

describe("an edit", () => {
  const job = emptyJob("Larkfield Annex", "us-2023");
  const add = editOf(job, "Add", [{ table: "storeys", id: "level-2", after: storey("Level 2") }]);

  it("applies, is taken back, and leaves untouched tables the same objects", () => {
    const next = applyChecked(job, add);
    expect(next.storeys["level-2"]).toEqual(storey("Level 2"));
    expect(next.areas).toBe(job.areas);
    expect(next.storeys["level-1"]).toBe(job.storeys["level-1"]);
    expect(apply(next, invert(add))).toEqual(job);
  });

  it("may touch one record twice, in order", () => {
    const twice = {
      name: "Twice",
      changes: [
        { table: "storeys" as const, id: "x", before: null, after: storey("X") },
        { table: "storeys" as const, id: "x", before: storey("X"), after: storey("Y") },
      ],
    };
    const next = apply(job, twice);
    expect(next.storeys.x).toEqual(storey("Y"));
    expect(apply(next, invert(twice))).toEqual(job);
  });
});

describe("the history of a job", () => {
  const job = emptyJob("Larkfield Annex", "us-2023");
  const add = (to: Job, id: string) => editOf(to, `Add ${id}`, [{ table: "storeys", id, after: storey(id) }]);

  it("takes back and does again, the last first", () => {
    const start = { job, history: EMPTY_HISTORY };
    const one = doEdit(start, add(job, "a"));
    const two = doEdit(one, add(one.job, "b"));
    const back = undoEdit(two)!;
    expect(back.job).toEqual(one.job);
    expect(undoEdit(undoEdit(back)!)).toBeUndefined();
    expect(redoEdit(back)).toEqual(two);
    expect(redoEdit(two)).toBeUndefined();
  });

  it("forgets what was taken back once something else is done, and ignores an edit of nothing", () => {
    const start = { job, history: EMPTY_HISTORY };
    const one = undoEdit(doEdit(start, add(job, "a")))!;
    expect(doEdit(one, { name: "Nothing", changes: [] })).toEqual(one);
    const other = doEdit(one, add(job, "b"));
    expect(redoEdit(other)).toBeUndefined();
    expect(other.history.done).toHaveLength(1);
  });
});

describe("labels", () => {
  const job = emptyJob("Larkfield Annex", "us-2023");
  const withLabels = (labels: readonly string[]): Job => ({
    ...job,
    elements: Object.fromEntries(labels.map((label, i) => [`e${i}`, { label }])) as unknown as Job["elements"],
  });

  it("are one more than the largest in use, whatever is missing below", () => {
    expect(nextLabel(job, "run")).toBe("R-1");
    expect(nextLabel(withLabels(["R-2", "R-14", "B-30"]), "run")).toBe("R-15");
    expect(nextLabel(withLabels(["R-2", "R-14", "B-30"]), "box")).toBe("B-31");
    expect(nextLabel(withLabels(["R-2", "R-14"]), "area")).toBe("A-1");
  });

  it("pass over labels of another form", () => {
    expect(nextLabel(withLabels(["R-7b", "XR-9", "R-", "R-3"]), "run")).toBe("R-4");
  });

  it("are found again", () => {
    expect(labelled(withLabels(["R-2", "feeder"]), "feeder")).toEqual({ table: "elements", id: "e1" });
    expect(labelled(job, "feeder")).toBeUndefined();
  });
});
