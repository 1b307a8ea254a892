import { describe, expect, it } from "vitest";
import type { Finding } from "../../src/check/finding.ts";
import type { Area } from "../../src/job/schema.ts";
import { findingsOf, inch, inchJob, rectangle, roof, run } from "./inch-job.ts";

/** 3/4 EMT is 0.922 in. across (ANSI C80.3): its axis may be 1 1/2 + 0.461 in. from a deck and no nearer. */
const AXIS = 1.961;

const level = (z: number | null, outline: [number, number][], more: Partial<Area> = {}) =>
  roof(z, { outline, label: more.label ?? "A-1", ...more });
const unsettled = { classification: { is: "not-settled", reason: "", by: "" } } as const;
const seen = (found: readonly Finding[]) => found.map(({ verdict, areas }) => [verdict, ...areas]);

/** A high roof over y from 600 to 900, which runs here hang clear of; what is tested lies beside it. */
const high = level(200, rectangle(0, 600, 900, 900), { label: "A-9" });
const along = (off: number) =>
  run([
    [50, 600 + off, 100],
    [550, 600 + off, 100],
  ]);

describe("a deck of unknown elevation beside a run that hangs clear of its own", () => {
  const beside = level(null, rectangle(0, 0, 600, 600), { label: "A-2" });
  const verdicts = (element: ReturnType<typeof run>, plan = 0) => {
    const job = inchJob();
    const settings = { job: { ...job.settings.job, tolerances: { ...job.settings.job.tolerances, plan: inch(plan) } } };
    return findingsOf({ high, beside }, element, { ...job, settings }).map(({ verdict }) => verdict);
  };

  it("withholds a verdict where the plan distance could be less than the clearance, and not farther off", () => {
    expect(verdicts(along(AXIS - 0.01))).toContain("cannot-tell");
    expect(verdicts(along(AXIS + 0.01))).toEqual(["clear"]);
  });

  it("counts the plan tolerance", () => {
    expect(verdicts(along(AXIS + 0.9), 1)).toContain("cannot-tell");
    expect(verdicts(along(AXIS + 0.9), 0)).toEqual(["clear"]);
  });

  it("one of several legs beside it is enough", () => {
    const legs = run([
      [50, 601, 100],
      [550, 601, 100],
      [550, 800, 100],
      [100, 800, 100],
    ]);
    expect(verdicts(legs)).toContain("cannot-tell");
  });

  it("a run that passes its corner at a slant is not beside it for sharing its box", () => {
    const rest = level(200, rectangle(600, 0, 900, 600), { label: "A-8" });
    const slant = run([
      [590, 700, 100],
      [700, 590, 100],
    ]);
    expect(findingsOf({ high, rest, beside }, slant).map(({ verdict }) => verdict)).not.toContain("cannot-tell");
  });
});

describe("a deck not settled beside a run that hangs clear of its own", () => {
  // 1 1/2 in. up and 1.6 in. aside is 2.193 - 0.461 in. off; 1 in. aside, 1.803 - 0.461.
  const beside = level(101.5, rectangle(0, 0, 600, 600), { label: "A-2", ...unsettled });

  it("says nothing where the run would be clear of it as a roof", () => {
    expect(seen(findingsOf({ high, beside }, along(1.6)))).toEqual([["clear", "high"]]);
  });

  it("withholds a verdict where it would be too close", () => {
    expect(seen(findingsOf({ high, beside }, along(1)))).toContainEqual(["cannot-tell", "beside"]);
  });
});
