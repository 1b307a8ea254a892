import { mkdtemp, readFile, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readSheet } from "read-excel-file/node";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { withPlan } from "../pdf/read/open-bytes.ts";
import { runCommand } from "./run-command.ts";

const sample = "samples/riverside-workshop/job.json";

interface Found {
  readonly number: number | null;
  readonly element: string;
  readonly verdict: string;
  readonly leastIn: number | null;
  readonly requiredIn: number;
  readonly section: string;
}

const findings = async (path: string): Promise<Found[]> =>
  (JSON.parse((await runCommand("check", path, "--format", "json")).out) as { findings: Found[] }).findings;

/** The words of a PDF as its engine reads them, page after page. */
const wordsOf = (bytes: Uint8Array): Promise<string> =>
  withPlan(new Uint8Array(bytes), async ({ document }) => {
    const words: string[] = [];
    for (let page = 1; page <= document.numPages; page++) {
      const { items } = await (await document.getPage(page)).getTextContent();
      words.push(...items.flatMap((item) => ("str" in item ? [item.str] : [])));
    }
    return words.join(" ").replace(/\s+/g, " ");
  });

let folder: string;
const at = (name: string): string => join(folder, name);

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "underside-handed-on-"));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe("underside schedule", () => {
  test("has a line for each element with the numbers of the check, as CSV", async () => {
    const { out, status } = await runCommand("schedule", sample);
    expect(status).toBe(1);
    const [head, ...lines] = out.trimEnd().split("\r\n");
    expect(head).toContain("Element,What it is,Sheet,Elevation tags,Length (in.),Verdict,Least clearance (in.)");
    const found = await findings(sample);
    expect(new Set(lines.map((line) => line.split(",")[0]))).toEqual(new Set(found.map(({ element }) => element)));
    // Hand calculation of the sample's readme: the box's top at 15'-3 3/4" under the deck of the hall.
    expect(lines.find((line) => line.startsWith("B-1,"))).toContain(",too close,1.208071,");
  });

  test("is a workbook whose numbers another library reads as numbers", async () => {
    const path = at("schedule.xlsx");
    expect(await runCommand("schedule", sample, "--format", "xlsx", "-o", path)).toMatchObject({ out: `${path}\n` });
    const [head, ...rows] = await readSheet(await readFile(path), "Wiring");
    const column = (heading: string): number => head!.indexOf(heading);
    for (const { element, leastIn, requiredIn } of await findings(sample)) {
      const row = rows.find((cells) => cells[0] === element)!;
      expect(row[column("Least clearance (in.)")], element).toEqual(
        leastIn === null ? null : expect.closeTo(leastIn, 6),
      );
      expect(row[column("Required (in.)")], element).toBe(requiredIn === 0 ? null : requiredIn);
    }
    const decks = await readSheet(await readFile(path), "Deck areas");
    expect(decks.slice(1).map(([label]) => label)).toEqual(["Canopy", "Hall roof", "Loft floor", "Store roof"]);
  });

  test("lists each raceway of a rack by itself", async () => {
    const { out } = await runCommand("schedule", "samples/fennick-lane-store/job.json");
    expect(out).toMatch(/^K-\d+\/1,/m);
    expect(out).toMatch(/^K-\d+\/2,/m);
  });
});

describe("underside comments", () => {
  test("has one comment for each finding that needs attention, by its number, with section and sheet", async () => {
    const { out, status } = await runCommand("comments", sample, "--date", "2026-01-31", "--author", "plan reviewer");
    expect(status).toBe(1);
    for (const { number, element, section } of await findings(sample)) {
      if (number === null) continue;
      const [, comment] = new RegExp(`^${number}\\. ([\\s\\S]*?)\\n\\n`, "m").exec(out) ?? [];
      expect(comment).toContain(element);
      expect(comment).toContain(section);
      expect(comment).toMatch(/Asked: \S/);
    }
    expect(out).toContain("2026-01-31, plan reviewer");
    expect(out).toContain("the authority having jurisdiction decides");
  });

  test("never asks for a distance where nobody knows whether it is kept", async () => {
    const { out } = await runCommand("comments", sample);
    expect(/R-12[\s\S]*?Asked: (.*)/.exec(out)![1]).toBe("Give R-12 an elevation tag at both ends.");
  });

  test("are the same as a letter, as a workbook and as a table", async () => {
    const made = ["--date", "2026-01-31"];
    await runCommand("comments", sample, "--format", "pdf", "-o", at("c.pdf"), ...made);
    await runCommand("comments", sample, "--format", "xlsx", "-o", at("c.xlsx"), ...made);
    const csv = (await runCommand("comments", sample, "--format", "csv")).out;
    const [, ...rows] = await readSheet(await readFile(at("c.xlsx")));
    const letter = await wordsOf(await readFile(at("c.pdf")));
    const asked = (await findings(sample)).filter(({ number }) => number !== null);
    expect(rows.map(([number]) => number)).toEqual(asked.map(({ number }) => number));
    expect(csv.trimEnd().split("\r\n")).toHaveLength(1 + asked.length);
    for (const [, , , location, remark] of rows) {
      expect(letter).toContain(location as string);
      expect(letter).toContain(remark as string);
    }
  });

  test("want a file where they are no text, and never the job's own", async () => {
    expect(await runCommand("comments", sample, "--format", "pdf")).toMatchObject({ status: 2, out: "" });
    expect(await runCommand("schedule", sample, "--format", "xlsx")).toMatchObject({ status: 2, out: "" });
    expect(await runCommand("comments", sample, "-o", sample)).toMatchObject({ status: 2 });
  });
});
