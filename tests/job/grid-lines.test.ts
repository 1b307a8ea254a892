import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { forgetGrid, keepGrid } from "../../src/editor/edits/grid.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { gridWords } from "../../src/issue/grid-words.ts";
import { apply } from "../../src/job/edit.ts";
import { type GridLine, gridLinesOf, gridReach } from "../../src/job/grid-lines.ts";
import { jobText, parseJobText } from "../../src/job/parse-job.ts";
import { sampleJob } from "../issue/sample-job.ts";

/** A 30 ft by 25 ft grid: A to D upwards, 1 to 5 to the right; lines as long as drawn. */
const upright = ["1", "2", "3", "4", "5"].map(
  (label, i): GridLine => ({
    label,
    line: [
      [i * 360, -60],
      [i * 360, 960],
    ],
  }),
);
const level = ["A", "B", "C", "D"].map(
  (label, i): GridLine => ({
    label,
    line: [
      [-60, i * 300],
      [1500, i * 300],
    ],
  }),
);
const GRID = [...upright, ...level];
const words = (at: Point2, grid: readonly GridLine[] = GRID) => gridWords(gridReach(grid, at));

describe("where a place lies in the grid", () => {
  // The way drawings are cited by grid: common practice, no source.
  test.each<[Point2, string]>([
    [[500, 400], "grid B–C / 2–3"],
    [[360, 400], "grid B–C / 2"],
    [[365, 896], "grid D / 2"],
    [[-100, 20], "grid A–B / beyond 1"],
    [[1500, 1000], "grid beyond D / beyond 5"],
    [[0, 0], "grid A / 1"],
  ])("%j is %s", (at, said) => expect(words(at)).toBe(said));

  test("does not depend on the order of the lines, nor on which way each is drawn", () => {
    fc.assert(
      fc.property(
        fc.shuffledSubarray(GRID, { minLength: GRID.length }),
        fc.array(fc.boolean(), { minLength: GRID.length, maxLength: GRID.length }),
        fc.tuple(fc.integer({ min: -200, max: 1700 }), fc.integer({ min: -200, max: 1100 })),
        (lines, turned, at) => {
          const drawn = lines.map(
            ({ label, line: [a, b] }, i): GridLine => ({ label, line: turned[i] ? [b, a] : [a, b] }),
          );
          expect(words(at, drawn)).toBe(words(at));
        },
      ),
    );
  });

  test("is the same after the whole is turned", () => {
    const turn = ([x, y]: Point2): Point2 => [x * 0.6 - y * 0.8, x * 0.8 + y * 0.6];
    const turned = GRID.map(({ label, line: [a, b] }): GridLine => ({ label, line: [turn(a), turn(b)] }));
    for (const at of [
      [500, 400],
      [10, 890],
      [1000, 100],
    ] as Point2[])
      expect(words(turn(at), turned)).toBe(words(at));
  });

  test("says of a single line only what lies on it", () => {
    expect(words([0, 500], [upright[0]!])).toBe("grid 1");
    expect(words([200, 500], [upright[0]!])).toBe("");
    expect(words([200, 500], [])).toBe("");
  });
});

describe("the grid of a job", () => {
  // The wiring sheet lies 40 units right of the roof sheet, both at 1/8" = 1'-0": 4/3 in. a unit.
  const job = sampleJob();
  const grid = [
    {
      label: "A",
      line: [
        [150, 100],
        [150, 700],
      ],
    },
  ] as const;
  const kept = keepGrid(
    job,
    "framing",
    grid.map(({ label, line: [a, b] }) => ({ label, line: [[...a], [...b]] })) as never,
  );
  if (!kept.ok) throw new Error("not kept");
  const with_ = apply(job, kept.value);

  test("serves every sheet registered to the one it is kept with", () => {
    const [there] = gridLinesOf(with_, "ceiling");
    expect(there!.label).toBe("A");
    expect(there!.line[0]).toEqual(gridLinesOf(with_, "framing")[0]!.line[0]);
  });

  test("is written and read, and a job without one is the file it was", () => {
    const read = parseJobText(jobText(with_));
    expect(read.ok && read.value.viewports.framing!.grid).toEqual(grid);
    expect(jobText(job)).not.toContain('"grid"');
    const forgotten = forgetGrid(with_, "framing");
    expect(forgotten.ok && jobText(apply(with_, forgotten.value))).toBe(jobText(job));
  });

  test("refuses a line that is nowhere", () => {
    expect(
      keepGrid(job, "framing", [
        {
          label: "A",
          line: [
            [0, Number.NaN],
            [1, 1],
          ],
        },
      ]).ok,
    ).toBe(false);
    expect(keepGrid(job, "none", []).ok).toBe(false);
    expect(forgetGrid(job, "none").ok).toBe(false);
  });
});
