import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { beforeAll, describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { findingsJson } from "../../src/issue/findings-json.ts";
import { reportPdf } from "../../src/issue/issue-sheets.ts";
import { parseJobText } from "../../src/job/parse-job.ts";
import { fontBytes } from "./font-bytes.ts";

/** What is compared of a finding's JSON. */
interface Told {
  readonly number: number | null;
  readonly element: string;
  readonly requiredIn: number;
  readonly leastIn: number | null;
  readonly verticalIn: number | null;
  readonly intervalIn: readonly [number | null, number | null] | null;
}

interface Json {
  readonly counts: Readonly<Record<string, number>>;
  readonly findings: readonly Told[];
}

/** Feet, inches and sixteenths in a text, in inches; what stands in brackets is the same said again. */
function inchesIn(text: string): number[] {
  const lengths = /(-)?(?:(\d+)'-)?(?:(\d+(?:\.\d+)?)(?: (\d+)\/(\d+))?|(\d+)\/(\d+))"/g;
  return [...text.replace(/\([^)]*\)/g, "").matchAll(lengths)].map(([, minus, feet, whole, a, b, c, d]) => {
    const parts = [
      Number(feet ?? 0) * 12,
      Number(whole ?? 0),
      a ? Number(a) / Number(b) : 0,
      c ? Number(c) / Number(d) : 0,
    ];
    return (minus ? -1 : 1) * parts.reduce((sum, part) => sum + part, 0);
  });
}

/** The words of a report between its entries' titles, by number. */
function entriesOf(text: string, findings: readonly Told[]): Map<number, string> {
  const entries = new Map<number, string>();
  let at = text.indexOf("Findings that need attention");
  const titles = findings.flatMap(({ number, element }) => {
    if (number === null) return [];
    const title = new RegExp(`(?<!\\d)${number} ${element.replace(/[^\w\s]/g, "\\$&")} (?:(?! Where ).){0,90} Where `);
    const found = title.exec(text.slice(at));
    if (!found) throw new Error(`no entry ${number} ${element}`);
    at += found.index + found[0].length;
    return [{ number, from: at }];
  });
  for (const [i, { number, from }] of titles.entries()) entries.set(number, text.slice(from, titles[i + 1]?.from));
  return entries;
}

/** Of an entry, what stands behind a label and before what follows it. */
const behind = (entry: string, label: string): string | undefined =>
  new RegExp(
    ` ${label} (.*?)(?= (?:Required|Least distance|Straight up, by tape|Deck|Above it|What would settle it|Why) )`,
  ).exec(entry)?.[1];

/** A distance to the deck; what is said to lie above its lowest surface is below nought. */
const distanceIn = (text: string): number | undefined => {
  const found = inchesIn(text)[0];
  return found !== undefined && text.includes("above the lowest surface") ? -found : found;
};

/** The report writes three decimals where a sixteenth does not say it. */
const NEAR = 0.0006;

function expectSame(text: string, { counts, findings }: Json): void {
  const flat = text.replace(/\s+/g, " ");
  const entries = entriesOf(flat, findings);
  let compared = 0;
  const same = (said: number | undefined, value: number, what: string) => {
    expect(said, what).toBeDefined();
    expect(Math.abs((said as number) - value), `${what}: ${said} for ${value}`).toBeLessThan(NEAR);
    compared++;
  };
  for (const finding of findings) {
    if (finding.number === null) continue;
    const entry = entries.get(finding.number)!;
    const name = `${finding.number} ${finding.element}`;
    const least = behind(entry, "Least distance");
    if (finding.requiredIn > 0)
      same(inchesIn(behind(entry, "Required") ?? "")[0], finding.requiredIn, `${name} required`);
    if (finding.leastIn === null) expect(least ?? "cannot be told", name).toBe("cannot be told");
    else {
      const [said, between] = least!.split(", by the tolerances ");
      same(distanceIn(said!), finding.leastIn, `${name} least`);
      for (const [i, end] of (finding.intervalIn ?? []).entries())
        if (end !== null && between !== undefined) same(inchesIn(between)[i], end, `${name} interval ${i}`);
      if (finding.intervalIn && finding.intervalIn[0] !== finding.intervalIn[1]) expect(between, name).toBeDefined();
    }
    if (finding.verticalIn !== null)
      same(distanceIn(behind(entry, "Straight up, by tape") ?? ""), finding.verticalIn, `${name} by tape`);
  }
  const quiet = findings.filter(({ number }) => number === null);
  let at = flat.indexOf("Clear, or not governed");
  for (const { element, leastIn } of quiet) {
    const line = new RegExp(
      ` ${element} (?:(?! (?:Clear|Not governed|clear|not governed) ).)*? (?:Clear|Not governed|clear|not governed) (\\S* ?\\S*)`,
      "i",
    );
    const found = line.exec(flat.slice(at));
    expect(found, element).not.toBeNull();
    at += found!.index + found![0].length - found![1]!.length - 1;
    if (leastIn !== null) same(inchesIn(found![1]!)[0], leastIn, `${element} least`);
  }
  const summary = flat.slice(flat.indexOf(" Summary "), flat.indexOf("Findings that need attention"));
  for (const [verdict, count] of Object.entries(counts))
    if (count > 0) expect(summary, verdict).toMatch(new RegExp(` ${count} ${LEGEND_STARTS[verdict]}`));
  expect(compared).toBeGreaterThan(2 * findings.filter(({ number }) => number !== null).length);
}

const LEGEND_STARTS: Readonly<Record<string, string>> = {
  concealed: "Concealed",
  "entry-unprotected": "Conductors",
  "too-close": "Too close",
  "cannot-tell": "Cannot tell",
  borderline: "Borderline",
  clear: "Clear",
  "not-governed": "Not governed",
};

const hasPdftotext = spawnSync("pdftotext", ["-v"]).error === undefined;

describe.each(["riverside-workshop", "fennick-lane-store"])("the text of the report of %s", (sample) => {
  let pdf = new Uint8Array();
  let told: Json = { counts: {}, findings: [] };
  beforeAll(async () => {
    const job = parseJobText(readFileSync(`samples/${sample}/job.json`, "utf8"));
    if (!job.ok) throw new Error(sample);
    const result = checkJob(job.value);
    told = JSON.parse(findingsJson(job.value, result)) as Json;
    const facts = { fonts: fontBytes, now: new Date("2026-11-25T10:00:00Z"), author: "P. Ternhill" };
    const made = await reportPdf(job.value, result, facts);
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
    pdf = made.value.slice();
  }, 60_000);

  it("has every number of the findings as JSON, as pdf.js reads it", async () => {
    const document = await getDocument({ data: pdf.slice(), verbosity: 0 }).promise;
    const texts: string[] = [];
    for (let n = 1; n <= document.numPages; n++) {
      const { items } = await (await document.getPage(n)).getTextContent();
      texts.push(items.map((item) => ("str" in item ? item.str : "")).join(" "));
    }
    await document.destroy();
    expectSame(texts.join(" "), told);
  }, 60_000);

  it.skipIf(!hasPdftotext)(
    "has every number of the findings as JSON, as poppler's pdftotext reads it (skipped without it)",
    () => {
      const folder = mkdtempSync(join(tmpdir(), "report-"));
      const file = join(folder, "report.pdf");
      writeFileSync(file, pdf);
      const { stdout } = spawnSync("pdftotext", ["-raw", file, "-"], { encoding: "utf8", maxBuffer: 1 << 26 });
      rmSync(folder, { recursive: true });
      expectSame(stdout, told);
    },
    60_000,
  );
});
