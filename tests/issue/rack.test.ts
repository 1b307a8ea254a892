import { expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { findingsCsv } from "../../src/issue/findings-csv.ts";
import { findingsJson } from "../../src/issue/findings-json.ts";
import { marksOf } from "../../src/issue/marks-of.ts";
import type { Rack } from "../../src/job/elements/rack.ts";
import { NO_FACTS } from "../../src/job/fields.ts";
import { inch, inchJob, roof, run, tag, withParts } from "../check/inch-job.ts";

const rack: Rack = {
  kind: "rack",
  label: "K-1",
  viewport: "v1",
  raceways: ["2", "2", "3/4"].map((tradeSize) => ({
    label: "",
    wiring: { type: "emt", tradeSize, outsideDiameter: null },
    facts: NO_FACTS,
  })),
  spacing: { is: "centres", apart: inch(4) },
  vertices: [
    { at: [100, 300], tag: tag(141, "bottom") },
    { at: [400, 300], tag: tag(141, "bottom") },
  ],
};
const riser = run([
  [500, 300, 100],
  [500, 300, 160],
]);
const job = withParts(inchJob(), { a: roof(144) }, { k1: rack, r1: riser });
const result = checkJob(job);

it("marks every raceway of a rack that needs attention, and a penetration, each by a key of its own", () => {
  const keys = marksOf(job, result).map(({ key }) => key);
  expect(keys).toEqual(
    expect.arrayContaining([
      "element:k1",
      "finding:k1:too-close:1",
      "finding:k1:too-close:2",
      "finding:r1:cannot-tell:through",
    ]),
  );
  const mark = marksOf(job, result).find(({ key }) => key === "element:k1")!;
  expect(mark.annotation.contents).toContain("rack of 2 × 2 EMT, 3/4 EMT");
});

it("says so in data", () => {
  const { findings } = JSON.parse(findingsJson(job, result));
  const told = findings.map((one: Record<string, unknown>) => [one.element, one.kind, one.about, one.penetration]);
  expect(told).toEqual([
    ["K-1/1", "rack", "1", undefined],
    ["K-1/2", "rack", "2", undefined],
    ["K-1/3", "rack", "3", undefined],
    ["R-1", "run", "through", true],
  ]);
  expect(findingsCsv(job, result).split("\r\n")[0]).toMatch(/,penetration$/);
});
