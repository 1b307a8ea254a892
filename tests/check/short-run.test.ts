import { expect, it } from "vitest";
import { emptyJob } from "../../src/job/schema.ts";
import { findingOf, inchJob, roof, run } from "./inch-job.ts";

/** The plan may be off by an inch each way, as in a job just begun. */
const doubtful = () => {
  const job = inchJob();
  return { ...job, settings: { job: { ...job.settings.job, tolerances: emptyJob("", "").settings.job.tolerances } } };
};

it("cannot tell for a run under no deck, however short: nothing missing is a pass", () => {
  for (const length of [0, 1e-12, 1, 1.9, 3]) {
    const nipple = run([
      [700, 10, 120],
      [700 + length, 10, 120],
    ]);
    expect(findingOf({ a: roof(144) }, nipple, doubtful()).verdict, `${length} in.`).toBe("cannot-tell");
  }
});

it("passes over a gap of tracing between two decks, and not over a wider one", () => {
  const areas = (gap: number) => ({
    a: roof(144),
    b: roof(144, {
      label: "A-2",
      outline: [
        [600 + gap, 0],
        [900, 0],
        [900, 600],
        [600 + gap, 600],
      ],
    }),
  });
  const across = run([
    [500, 10, 120],
    [700, 10, 120],
  ]);
  expect(findingOf(areas(1.9), across, doubtful()).verdict).toBe("clear");
  expect(findingOf(areas(2.1), across, doubtful()).verdict).toBe("cannot-tell");
});
