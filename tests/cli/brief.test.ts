import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { runCommand } from "./run-command.ts";

const sample = "samples/riverside-workshop/job.json";
const dated = ["--date", "2026-01-31"];

let folder: string;
const at = (name: string): string => join(folder, name);

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "underside-brief-"));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe("underside brief", () => {
  test("writes a PDF, the same one each time, and answers 1 while an area cannot be told", async () => {
    expect(await runCommand("brief", sample, "-o", at("a.pdf"), ...dated)).toEqual({
      status: 1,
      out: `${at("a.pdf")}\n`,
      error: "",
    });
    await runCommand("brief", sample, "-o", at("b.pdf"), ...dated);
    const written = await readFile(at("a.pdf"));
    expect(written.subarray(0, 5).toString()).toBe("%PDF-");
    expect(written.equals(await readFile(at("b.pdf")))).toBe(true);
  });

  test("answers 0 when every area is told", async () => {
    expect((await runCommand("brief", "docs/examples/hand-calculation.json", "-o", at("a.pdf"))).status).toBe(0);
  });

  test("refuses to overwrite the job", async () => {
    await writeFile(at("job.json"), await readFile(sample));
    expect((await runCommand("brief", at("job.json"), "-o", at("job.json"))).status).toBe(2);
    expect(await readFile(at("job.json"), "utf8")).toBe(await readFile(sample, "utf8"));
  });
});
