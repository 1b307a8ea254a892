import { describe, expect, it } from "vitest";
import { checkJob, createChecker } from "../../src/check/check-job.ts";
import { bareResult, createExplainer } from "../../src/check/explained-result.ts";
import type { Finding } from "../../src/check/finding.ts";
import { apply, editOf } from "../../src/job/edit.ts";
import type { Job } from "../../src/job/schema.ts";
import { buildingJob } from "../bench/check-job.bench.ts";

const job = buildingJob(4, 3, 60, 4);
const asRead = (findings: readonly Finding[]): unknown => JSON.parse(JSON.stringify(findings));

describe("reasons and remedies, worked out when they are read", () => {
  it("are plain data in JSON, and not in a structured clone", () => {
    const { findings } = checkJob(job);
    const read = asRead(findings) as Finding[];
    expect(read[0]!.reasons.children.length).toBeGreaterThan(0);
    expect(read).toEqual(findings.map(({ reasons, remedies, ...facts }) => ({ ...facts, reasons, remedies })));
    const cloned = structuredClone(findings);
    expect(cloned.map((facts, i) => ({ ...facts, reasons: read[i]!.reasons, remedies: read[i]!.remedies }))).toEqual(
      read,
    );
    expect(Object.keys(cloned[0]!)).not.toContain("reasons");
    expect(findings.some(({ remedies }) => remedies.some(({ kind }) => kind === "lower"))).toBe(true);
  });
  it("are left out of a bare result and come back the same from an explainer", () => {
    const result = checkJob(job);
    const unread = result.findings.map((finding) =>
      Object.defineProperties(
        { ...finding },
        {
          reasons: { get: () => expect.unreachable("reasons were read") },
          remedies: { get: () => expect.unreachable("remedies were read") },
        },
      ),
    );
    const bare = structuredClone(bareResult({ ...result, findings: unread }));
    expect(Object.keys(bare.findings[0]!)).not.toContain("reasons");
    expect(asRead(createExplainer()(job, bare).findings)).toEqual(asRead(result.findings));
  });
  it("of a result stay what they were after later edits, whenever they are read", () => {
    const checker = createChecker();
    const before = checker(job);
    const [id] = Object.keys(job.elements);
    const run = job.elements[id!] as Extract<Job["elements"][string], { kind: "run" }>;
    const vertices = run.vertices.map((v) => ({ ...v, at: [v.at[0] + 30, v.at[1]] as [number, number] }));
    const edit = editOf(job, "Move", [{ table: "elements", id: id!, after: { ...run, vertices } }]);
    const edited = apply(job, edit);
    const after = checker(edited, edit);
    expect(asRead(before.findings)).toEqual(asRead(checkJob(job).findings));
    expect(asRead(after.findings)).toEqual(asRead(checkJob(edited).findings));
  });
});
