import { describe, expect, it } from "vitest";
import type { Element } from "../../src/job/elements/element.ts";
import type { Job } from "../../src/job/schema.ts";
import { plainViewport } from "../job/plain-records.ts";
import { box, check, facts, inchJob, roof, run, tag } from "./inch-job.ts";

/*
 * A box half an inch below the deck, with the runs that are traced up to it. Rigid conduit with steel fittings and boxes is excepted from the
 * distance (NFPA 70, 300.4(E), from the 2020 edition; from memory), and what is recorded of the runs speaks for the box where they agree.
 */
const AT = [300, 300] as const;
const rmc = (steel: boolean | null, from: readonly [number, number], type = "rmc", more = {}): Element =>
  run(
    [
      [from[0], from[1], 100],
      [AT[0], AT[1], 100],
    ],
    { wiring: { type, tradeSize: "3/4", outsideDiameter: null }, facts: facts({ steelFittings: steel }), ...more },
  );
const WEST = [100, 300] as const;
const EAST = [500, 300] as const;

function verdict(runs: readonly Element[], more: Partial<Job> = {}): string {
  const elements = Object.fromEntries(runs.map((one, i) => [`r${i}`, { ...one, label: `R-${i}` }]));
  const base = { ...inchJob("us-2023"), ...more };
  const { findings } = check({ a: roof(144) }, { ...elements, b: box(AT[0], AT[1], tag(143.5, "top")) }, base);
  return findings
    .filter(({ elementId }) => elementId === "b")
    .map((found) => found.verdict)
    .join();
}

describe("a box too close to the deck", () => {
  it.each([
    ["no run", [], "too-close"],
    ["one with steel fittings", [rmc(true, WEST)], "not-governed"],
    ["two with steel fittings", [rmc(true, WEST), rmc(true, EAST)], "not-governed"],
    ["one without", [rmc(false, WEST)], "too-close"],
    ["one of which it is not recorded", [rmc(null, WEST)], "cannot-tell"],
    ["one with and one without", [rmc(true, WEST), rmc(false, EAST)], "cannot-tell"],
    ["one without and one with", [rmc(false, WEST), rmc(true, EAST)], "cannot-tell"],
    ["one with and one of which it is not recorded", [rmc(true, WEST), rmc(null, EAST)], "cannot-tell"],
    ["one of which it is not recorded and one with", [rmc(null, WEST), rmc(true, EAST)], "cannot-tell"],
    ["one of rigid conduit and one of EMT", [rmc(true, WEST), rmc(true, EAST, "emt")], "too-close"],
  ] as const)("with %s traced up to it", (_, runs, expected) => {
    expect(verdict(runs)).toBe(expected);
  });

  it("is not spoken for by a run that ends elsewhere, or lies on another part of the sheet", () => {
    const short = run(
      [
        [100, 300, 100],
        [280, 300, 100],
      ],
      { wiring: { type: "rmc", tradeSize: "3/4", outsideDiameter: null }, facts: facts({ steelFittings: true }) },
    );
    expect(verdict([short])).toBe("too-close");
    const viewports = { ...inchJob().viewports, v2: plainViewport("s1", 72, { storey: "level-1" }) };
    expect(verdict([rmc(true, WEST, "rmc", { viewport: "v2" })], { viewports })).toBe("too-close");
    expect(verdict([rmc(true, WEST, "rmc", { viewport: "v1" })], { viewports })).toBe("not-governed");
  });
});
