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
    expect(JSON.stringify(bare.findings)).not.toContain('"reasons"');
    expect(asRead(createExplainer()(job, bare).findings)).toEqual(asRead(result.findings));
  });
  it("come back the same after edit upon edit, each result said by what is new in it", () => {
    const checker = createChecker();
    const explained = createExplainer();
    let [present, told] = [job, checker(job)];
    const first = explained(job, structuredClone(bareResult(told)));
    asRead(first.findings.slice(0, 5));
    const ids = Object.keys(job.elements);
    for (let n = 0; n < 40; n++) {
      const id = ids[(n * 17) % ids.length]!;
      const run = present.elements[id] as Extract<Job["elements"][string], { kind: "run" }> | undefined;
      const vertices = run?.vertices.map((v) => ({ ...v, at: [v.at[0] + 12 * n, v.at[1]] as [number, number] }));
      const edit = editOf(present, "Edit", [
        { table: "elements", id, after: n % 7 === 6 || !run ? null : { ...run, vertices } },
      ]);
      present = apply(present, edit);
      const now = checker(present, edit);
      const bare = structuredClone(bareResult(now, told));
      expect(bare.findings.reduce((sum, part) => sum + ("fresh" in part ? part.fresh.length : 0), 0)).toBeLessThan(
        now.findings.length,
      );
      const result = explained(present, bare);
      told = now;
      expect(asRead(result.findings.slice(0, 8))).toEqual(asRead(now.findings.slice(0, 8)));
      expect(result.findings.map(({ element, number }) => [element, number])).toEqual(
        now.findings.map(({ element, number }) => [element, number]),
      );
      expect(result.counts).toEqual(now.counts);
      if (n % 10 === 0) expect(asRead(result.findings)).toEqual(asRead(checkJob(present).findings));
    }
    // What an older result said is still explained as it was.
    expect(asRead(first.findings)).toEqual(asRead(checkJob(job).findings));
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
