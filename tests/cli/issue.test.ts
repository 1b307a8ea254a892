import { spawnSync } from "node:child_process";
import { copyFile, mkdtemp, readdir, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { PDFDocument } from "@cantoo/pdf-lib";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { outputPaths } from "../../src/cli/commands/issue.ts";
import { runCommand } from "./run-command.ts";

const sample = "samples/riverside-workshop/job.json";
const drawing = "samples/riverside-workshop/riverside-workshop.pdf";
const dated = ["--date", "2026-01-31T12:00:00Z"];

let folder: string;
const at = (name: string): string => join(folder, name);

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "underside-issue-"));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe("underside issue", () => {
  test("adds to the drawing without touching its bytes, and says what it wrote", async () => {
    const { status, out, error } = await runCommand("issue", sample, "-o", at("out.pdf"), ...dated);
    expect([status, out, error]).toEqual([1, `${at("out.pdf")}\n`, ""]);
    const [before, after] = [await readFile(drawing), await readFile(at("out.pdf"))];
    expect(after.length).toBeGreaterThan(before.length);
    expect(after.subarray(0, before.length).equals(before)).toBe(true);
    expect(await readdir(folder)).toEqual(["out.pdf"]);
  });

  test("carries the job: the issued sheet checks as the job does, and issues again from itself", async () => {
    await runCommand("issue", sample, "-o", at("out.pdf"), ...dated);
    expect((await runCommand("check", at("out.pdf"))).out).toBe((await runCommand("check", sample)).out);
    expect(await runCommand("issue", at("out.pdf"), "-o", at("again.pdf"), ...dated)).toMatchObject({
      status: 1,
      error: "",
    });
    expect((await readFile(at("again.pdf"))).equals(await readFile(at("out.pdf")))).toBe(true);
  });

  test("gives the same bytes for the same job and date", async () => {
    for (const name of ["a.pdf", "b.pdf"])
      await runCommand("issue", sample, "-o", at(name), "--report", "separate", ...dated);
    expect((await readFile(at("a.pdf"))).equals(await readFile(at("b.pdf")))).toBe(true);
    expect((await readFile(at("a-report.pdf"))).equals(await readFile(at("b-report.pdf")))).toBe(true);
  });

  test("puts the report where it is asked for", async () => {
    const separate = await runCommand("issue", sample, "-o", at("a.pdf"), "--report", "separate", ...dated);
    expect(separate.out).toBe(`${at("a.pdf")}\n${at("a-report.pdf")}\n`);
    await runCommand("issue", sample, "-o", at("none.pdf"), "--report", "none", ...dated);
    await runCommand("issue", sample, "-o", at("with.pdf"), ...dated);
    expect((await readdir(folder)).sort()).toEqual(["a-report.pdf", "a.pdf", "none.pdf", "with.pdf"]);
    const sizes = await Promise.all(["none.pdf", "with.pdf"].map(async (name) => (await readFile(at(name))).length));
    expect(sizes[1]).toBeGreaterThan(sizes[0]!);
  });

  test("marks only the sheets asked for, by title or id", async () => {
    const marksOn = async (name: string) => {
      const document = await PDFDocument.load(await readFile(at(name)));
      return document.getPages().map((page) => page.node.Annots()?.size() ?? 0);
    };
    const bare = ["--report", "none", ...dated];
    await runCommand("issue", sample, "-o", at("all.pdf"), ...bare);
    await runCommand("issue", sample, "-o", at("one.pdf"), "--sheet", "S-201 Roof framing plan and details", ...bare);
    const [all, one] = [await marksOn("all.pdf"), await marksOn("one.pdf")];
    expect(all.filter((count) => count > 0)).toHaveLength(2);
    expect(one.filter((count) => count > 0)).toHaveLength(1);
    expect(all[one.findIndex((count) => count > 0)]).toBe(one.find((count) => count > 0));
    const ids = Object.keys(JSON.parse(await readFile(sample, "utf8")).sheets);
    await runCommand("issue", sample, "-o", at("both.pdf"), ...ids.flatMap((id) => ["--sheet", id]), ...bare);
    expect(await marksOn("both.pdf")).toEqual(all);
  });

  // An independent reader of PDF, where it is installed.
  test.skipIf(spawnSync("qpdf", ["--version"]).status !== 0)(
    "writes files that qpdf finds sound (skipped without qpdf)",
    async () => {
      await runCommand("issue", sample, "-o", at("a.pdf"), "--report", "separate", ...dated);
      await runCommand("issue", sample, "-o", at("flat.pdf"), "--flatten", ...dated);
      for (const name of ["a.pdf", "a-report.pdf", "flat.pdf"]) {
        const checked = spawnSync("qpdf", ["--check", at(name)], { encoding: "utf8" });
        expect(checked.status, `${name}: ${checked.stdout}${checked.stderr}`).toBe(0);
      }
    },
  );

  test("finds a drawing beside the job by its content, whatever its name", async () => {
    await copyFile(sample, at("job.json"));
    await copyFile(drawing, at("renamed.PDF"));
    await writeFile(at("other.pdf"), "%PDF-1.4 another");
    expect((await runCommand("issue", at("job.json"), "-o", at("out.pdf"), ...dated)).status).toBe(1);
  });

  test("gives several drawings their own names after the one asked for", () => {
    expect(outputPaths("x/out.pdf", ["plan.pdf"])).toEqual(["x/out.pdf"]);
    expect(outputPaths("x/out.pdf", ["roof.pdf", "../roof.PDF", "rcp"])).toEqual([
      "x/out-roof.pdf",
      "x/out-roof-2.pdf",
      "x/out-rcp.pdf",
    ]);
  });
});

describe("underside issue refuses, with status 2 and nothing written,", () => {
  const refused = async (...args: string[]): Promise<string> => {
    const before = await readdir(folder);
    const { status, out, error } = await runCommand("issue", ...args);
    expect([status, out]).toEqual([2, ""]);
    expect(await readdir(folder)).toEqual(before);
    return error;
  };

  test("a job whose drawing is not there, naming it", async () => {
    await copyFile(sample, at("job.json"));
    expect(await refused(at("job.json"), "-o", at("out.pdf"))).toMatch(
      /"riverside-workshop\.pdf" \(SHA-256 [0-9a-f]{64}\)/,
    );
    await writeFile(at("riverside-workshop.pdf"), "%PDF-1.4 changed since");
    await refused(at("job.json"), "-o", at("out.pdf"));
  });

  test("to overwrite the drawing or the job it was made from", async () => {
    await copyFile(sample, at("job.json"));
    await copyFile(drawing, at("plan.pdf"));
    expect(await refused(at("job.json"), "-o", at("plan.pdf"))).toMatch(/would be overwritten/);
    expect(await refused(at("job.json"), "-o", at("job.json"))).toMatch(/would be overwritten/);
    expect((await readFile(at("plan.pdf"))).equals(await readFile(drawing))).toBe(true);
    await runCommand("issue", at("job.json"), "-o", at("out.pdf"));
    expect(await refused(at("out.pdf"), "-o", at("out.pdf"))).toMatch(/would be overwritten/);
  });

  test("no place to write to, a folder that is not there, a date that is none", async () => {
    expect(await refused(sample)).toMatch(/--output/);
    expect(await refused(sample, "-o", at("no/out.pdf"))).toMatch(/cannot be written/);
    expect(await refused(sample, "-o", at("out.pdf"), "--date", "soon")).toMatch(/"soon" is not a date/);
    expect(await refused(sample, "-o", at("out.pdf"), "--sheet", "A-999")).toMatch(/no sheet "A-999".*A-131/);
    expect(await refused(sample, "-o", at("out.pdf"), "--report", "maybe")).toMatch(/with, separate, none/);
  });
});
