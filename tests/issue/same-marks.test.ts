import { describe, expect, it } from "vitest";
import { createChecker } from "../../src/check/check-job.ts";
import { changedList, listChange } from "../../src/check/list-change.ts";
import type { Mark } from "../../src/issue/mark.ts";
import { marksOf } from "../../src/issue/marks-of.ts";
import { sameMarks } from "../../src/issue/same-marks.ts";
import { apply, editOf } from "../../src/job/edit.ts";
import type { Element } from "../../src/job/elements/element.ts";
import { drawnMarks, upToDate } from "../../src/ui/drawn-marks.ts";
import { buildingJob } from "../bench/check-job.bench.ts";
import { seeded } from "../geometry/random-scenes.ts";

const SHEETS = { sheets: new Set(["s"]) };

function again(before: readonly Mark[], now: readonly Mark[]): Mark[] {
  const steps = sameMarks(before, now);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** What a mark says apart from where its label or symbol went, which depends on all the others, and from findings' numbers. */
const bare = ({ key, layer, hit, picture }: Mark) => ({
  key,
  first: picture[0],
  hit: layer === "findings" ? null : hit,
});
const byKey = (marks: readonly Mark[]) => [...marks].map(bare).sort((a, b) => (a.key < b.key ? -1 : 1));

describe("marks after many edits", () => {
  it("are those made anew, with the old object in the place of each that is as it was", () => {
    const random = seeded(11);
    const checker = createChecker();
    let job = buildingJob(3, 2, 40, 3);
    let marks = marksOf(job, checker(job), SHEETS);
    let drawn = drawnMarks("s", job, marks);
    for (let n = 0; n < 60; n++) {
      const ids = Object.keys(job.elements);
      const id = ids[Math.floor(random() * ids.length)]!;
      const run = job.elements[id] as Extract<Element, { kind: "run" }>;
      const by = 20 * random() - 10;
      const vertices = run.vertices.map(({ at: [x, y], tag }) => ({ at: [x + by, y] as [number, number], tag }));
      const after = random() < 0.15 ? null : { ...run, vertices };
      job = apply(job, editOf(job, "Edit", [{ table: "elements", id, after }]));
      const result = checker(job);
      const anew = marksOf(job, result, SHEETS);
      // As the page shows it at once, and once only for each edited record.
      const shown = upToDate(drawn, job, result);
      expect(byKey(shown)).toEqual(byKey(anew));
      expect(upToDate(drawn, job, result).every((mark, i) => mark === shown[i])).toBe(true);
      if (n % 5 !== 0) continue;
      // As the background says it after a pause.
      const kept = again(marks, anew);
      expect(kept).toEqual(anew);
      const change = structuredClone(listChange(marks, kept));
      expect(change.some((part) => "from" in part)).toBe(true);
      marks = kept;
      expect(changedList(drawn.marks, change)).toEqual(anew);
      drawn = drawnMarks("s", job, changedList(drawn.marks, change));
    }
  });
});
