import { describe, expect, it } from "vitest";
import { problemText } from "../../src/job/messages.ts";
import { migrations } from "../../src/job/migrations.ts";
import { jobText, parseJob, parseJobText } from "../../src/job/parse-job.ts";
import { JOB_VERSION } from "../../src/job/schema.ts";
import { inchJob, roof, run, tag, withParts } from "../check/inch-job.ts";

const job = withParts(
  inchJob(),
  { a1: roof(144) },
  {
    r1: run([
      [0, 0, 100],
      [10, 0, 100],
    ]),
    r2: run([
      [0, 5, 100],
      [9, 0, 100],
    ]),
  },
);
const plain = () => JSON.parse(jobText(job));
const refusal = (json: unknown): string => {
  const got = parseJob(json);
  if (got.ok) throw new Error("was accepted");
  return got.problems.map((p) => problemText(p)).join("\n");
};

describe("a job file", () => {
  it("comes back the same, and the same job is the same text whatever the order of its records", () => {
    const back = parseJobText(jobText(job));
    expect(back.ok && back.value).toEqual(job);
    const { r1, r2 } = job.elements as { r1: never; r2: never };
    expect(jobText({ ...job, elements: { r2, r1 } })).toBe(jobText(job));
    const turned = Object.fromEntries(Object.entries(r1).reverse()) as never;
    expect(jobText({ ...job, elements: { r1: turned, r2 } })).toBe(jobText(job));
  });

  it("is refused when newer, saying what to do", () => {
    expect(refusal({ ...plain(), version: JOB_VERSION + 1 })).toMatch(/newer version of the program.*Update/);
  });

  it("is refused with an unknown key, with the path to it", () => {
    const bad = plain();
    bad.elements.r1.vertices[1].hight = 3;
    expect(refusal(bad)).toContain("elements/r1/vertices/1/hight");
  });

  it("is refused with a tag on no storey, naming the run", () => {
    const bad = plain();
    bad.elements.r1.vertices[0].tag = { ...tag(9), datum: { from: "storey", storey: "attic" } };
    expect(refusal(bad)).toMatch(/R-1 has a tag on a storey that is not in the job.*attic/);
  });

  it("names every problem at once", () => {
    const bad = plain();
    bad.extra = 1;
    bad.areas.a1.viewport = 7;
    expect(refusal(bad).split("\n")).toHaveLength(2);
  });

  it("is told from other files", () => {
    expect(refusal([])).toContain("not a job");
    expect(refusal({ hello: 1 })).toContain("not a job");
    const text = parseJobText("{");
    expect(!text.ok && text.problems[0]?.code).toBe("job.not-json");
  });

  it("does not take up keys that reach for the prototype", () => {
    const got = parseJobText(`${jobText(job).slice(0, -3)},\n "__proto__": {"polluted": true}}\n`);
    expect(got.ok).toBe(false);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
  });
});

it("has a migration for every version before the present one, without gaps", () => {
  expect(migrations.map((m) => m.from)).toEqual(Array.from({ length: JOB_VERSION - 1 }, (_, i) => i + 1));
});
