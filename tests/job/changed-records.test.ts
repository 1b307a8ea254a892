import { describe, expect, it } from "vitest";
import { changedIds } from "../../src/job/changed-records.ts";
import { apply, editOf } from "../../src/job/edit.ts";
import { doEdit, EMPTY_HISTORY, undoEdit } from "../../src/job/history.ts";
import type { Job } from "../../src/job/schema.ts";
import { buildingJob } from "../bench/check-job.bench.ts";
import { seeded } from "../geometry/random-scenes.ts";

const job = buildingJob(2, 2, 30, 2);
const moved = (from: Job, id: string) => {
  const element = from.elements[id]!;
  return editOf(from, "Edit", [{ table: "elements", id, after: { ...element, label: `${element.label}x` } }]);
};

/** The same by walking both tables. */
const plain = (before: Job, after: Job): string[] =>
  [...new Set([...Object.keys(before.elements), ...Object.keys(after.elements)])]
    .filter((id) => before.elements[id] !== after.elements[id])
    .sort();

describe("what two jobs differ in", () => {
  it("is what the edits between them touched, and nothing that was taken back", () => {
    const once = doEdit({ job, history: EMPTY_HISTORY }, moved(job, "r3"));
    const twice = doEdit(once, moved(once.job, "r5"));
    expect([...changedIds(job, twice.job, "elements")].sort()).toEqual(["r3", "r5"]);
    expect(changedIds(job, twice.job, "areas")).toEqual([]);
    const back = undoEdit(twice)!;
    expect(changedIds(job, back.job, "elements")).toEqual(["r3"]);
    expect(changedIds(twice.job, back.job, "elements")).toEqual(["r5"]);
  });
  it("is the same as walking the tables, however one came of the other", () => {
    const random = seeded(3);
    const jobs = [job];
    for (let n = 0; n < 150; n++) {
      const from = jobs[Math.floor(random() * jobs.length)]!;
      const ids = Object.keys(from.elements);
      const id = ids[Math.floor(random() * ids.length)]!;
      jobs.push(
        apply(
          from,
          random() < 0.2 ? editOf(from, "Delete", [{ table: "elements", id, after: null }]) : moved(from, id),
        ),
      );
      const other = jobs[Math.floor(random() * jobs.length)]!;
      expect([...changedIds(other, jobs.at(-1)!, "elements")].sort()).toEqual(plain(other, jobs.at(-1)!));
    }
  });
});
