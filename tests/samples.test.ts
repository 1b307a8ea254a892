import { readFileSync } from "node:fs";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { drawWorkshop } from "../samples/draw/draw-workshop.ts";
import { drawStore } from "../samples/draw/store/draw-store.ts";
import { checkJob } from "../src/check/check-job.ts";
import { VERDICTS, type Verdict } from "../src/check/finding.ts";
import { applyTo } from "../src/geometry/similarity.ts";
import { jobText, parseJobText } from "../src/job/parse-job.ts";
import { sheetToBuilding } from "../src/job/registration.ts";
import type { Job } from "../src/job/schema.ts";

const folder = "samples/riverside-workshop";
const file = (path: string): Uint8Array => new Uint8Array(readFileSync(`samples/${path}`));
const text = (name: string): string => readFileSync(`${folder}/${name}`, "utf8");

interface ExpectedFinding {
  readonly element: string;
  readonly verdict: Verdict;
  readonly areas: readonly string[];
  readonly leastIn: number | null;
  readonly intervalIn: readonly [number, number] | null;
  readonly verticalIn: number | null;
  readonly stretches: readonly (readonly [number, number])[];
}
const expected = JSON.parse(text("expected.json")) as {
  rules: string;
  requiredIn: number;
  toleranceIn: number;
  findings: ExpectedFinding[];
  changes: Record<string, Record<string, Verdict>>;
};

const parsed = parseJobText(text("job.json"));
if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
const job: Job = parsed.value;
const under = (edition: string): Job => ({ ...job, settings: { job: { ...job.settings.job, edition } } });
const findings = checkJob(under(expected.rules)).findings;
const one = (label: string) => findings.find((finding) => finding.element === label)!;

/** Numbers agree to the sample's tolerance; null only with null. */
function close(found: number | null, wanted: number | null, what: string): void {
  if (wanted === null || found === null) expect(found, what).toBe(wanted);
  else
    expect(Math.abs(found - wanted), `${what}: ${found}, expected ${wanted}`).toBeLessThanOrEqual(expected.toleranceIn);
}

describe("the sample's files", () => {
  it("come out of the drawing script byte for byte, and those of the larger sample", async () => {
    for (const { path, bytes } of [...(await drawWorkshop()), ...(await drawStore())]) {
      // Compared as one, since a list of every byte that differs helps nobody.
      expect(Buffer.from(bytes).equals(file(path)), `${path}: run npm run samples`).toBe(true);
    }
  });

  it("hold a job in the one way a job is written, of exactly these drawings", () => {
    expect(jobText(job)).toBe(text("job.json"));
    for (const sheet of Object.values(job.sheets))
      expect(sheet.file.bytes).toBe(file("riverside-workshop/riverside-workshop.pdf").length);
  });

  it("are one file of two sheets, the first turned, at two scales, each with its texts", async () => {
    const task = getDocument({
      data: file("riverside-workshop/riverside-workshop.pdf"),
      verbosity: 0,
      useSystemFonts: false,
    });
    const document = await task.promise;
    expect(document.numPages).toBe(2);
    expect(await document.getPageLabels()).toEqual(["S-201", "A-131"]);
    const texts: { text: string; at: number[] }[][] = [];
    for (const number of [1, 2]) {
      const page = await document.getPage(number);
      const sheet = Object.values(job.sheets).find((candidate) => candidate.page === number)!;
      expect(page.rotate).toBe(sheet.rotate);
      expect(page.view).toEqual([...sheet.view]);
      const items = (await page.getTextContent()).items;
      texts.push(items.flatMap((item) => ("str" in item ? [{ text: item.str, at: item.transform }] : [])));
    }
    const has = (page: number, wanted: string) =>
      expect(
        texts[page]!.map((item) => item.text)
          .join(" ")
          .replace(/\s+/g, " "),
      ).toContain(wanted);
    has(0, `1/8" = 1'-0"`);
    has(0, `EL. 16'-0"`);
    has(0, `EL. 12'-1 1/2"`);
    has(1, `1/4" = 1'-0"`);
    has(1, `R-2 1" EMT C.L. 14'-8" AFF`);

    // The grid bubbles are drawn; the registration is the job's. Where they agree, tracing lies on the drawing.
    const building = (viewport: string, at: readonly [number, number]) => {
      const registered = sheetToBuilding(job, viewport);
      if (!registered.ok) throw new Error("no registration");
      return applyTo(registered.value.sim, at);
    };
    const [x0, y0] = building("framing-plan", job.areas["hall-roof"]!.outline[0]!);
    for (const [page, viewport] of ["framing-plan", "ceiling-plan"].entries()) {
      const on = (name: string) =>
        texts[page]!.filter((item) => item.text === name).map((item) => building(viewport, [item.at[4]!, item.at[5]!]));
      // A letter starts left of its bubble's centre and below it, by up to 4.7 points: 6.3 in. at the smaller scale.
      const near = (a: number, b: number): boolean => Math.abs(a - b) < 6.5;
      ["1", "2", "3", "4", "5"].forEach((name, i) => {
        expect(on(name).filter(([x]) => near(x, x0 + i * 288)).length, `${viewport} ${name}`).toBeGreaterThanOrEqual(2);
      });
      ["A", "B", "C", "D"].forEach((name, i) => {
        expect(on(name).filter(([, y]) => near(y, y0 + i * 240)).length, `${viewport} ${name}`).toBe(2);
      });
    }
    await task.destroy();
  });
});

describe("the sample's findings", () => {
  it("are those expected, in order, with every verdict among them", () => {
    expect(findings.map(({ element, verdict }) => [element, verdict])).toEqual(
      expected.findings.map(({ element, verdict }) => [element, verdict]),
    );
    expect(new Set(findings.map((finding) => finding.verdict))).toEqual(new Set(VERDICTS));
    expect(checkJob(job).notices).toEqual([]);
  });

  it.each(expected.findings.map((finding) => [finding.element, finding] as const))("%s", (label, wanted) => {
    const found = one(label);
    // Entries are not measured, and nothing is asked of a distance.
    expect(found.requiredIn).toBe(found.kind === "entry" ? 0 : expected.requiredIn);
    expect(found.areas.slice(0, wanted.areas.length)).toEqual(wanted.areas);
    close(found.leastIn, wanted.leastIn, "least");
    close(found.intervalIn?.[0] ?? null, wanted.intervalIn?.[0] ?? null, "low");
    close(found.intervalIn?.[1] ?? null, wanted.intervalIn?.[1] ?? null, "high");
    close(found.verticalIn, wanted.verticalIn, "upright");
    expect(found.stretches).toHaveLength(wanted.stretches.length);
    wanted.stretches.forEach(([from, to], i) => {
      close(found.stretches[i]!.fromIn, from, "from");
      close(found.stretches[i]!.toIn, to, "to");
    });
  });

  it("name what is missing", () => {
    expect(one("R-7").remedies.map((remedy) => remedy.kind)).toContain("record-fact");
    expect(JSON.stringify(one("R-7").reasons)).toMatch(/steel or malleable iron/);
    expect(one("R-11").remedies.map((remedy) => remedy.kind)).toContain("settle");
    expect(JSON.stringify(one("R-12").reasons)).toMatch(/elevation tag/);
    expect(JSON.stringify(one("E-1").reasons)).toMatch(/75 °C, lower than the insulation's 90 °C/);
    expect(one("E-1").section).toBe("300.4(G)");
  });

  it("change under the next edition only as expected", () => {
    for (const [edition, changes] of Object.entries(expected.changes)) {
      const after = checkJob(under(edition)).findings;
      expect(after.map(({ element, verdict }) => [element, verdict])).toEqual(
        expected.findings.map(({ element, verdict }) => [element, changes[element] ?? verdict]),
      );
    }
  });

  it("agree with the arithmetic of the readme, worked here from the drawing's figures alone", () => {
    const cos = 48 / Math.hypot(48, 1);
    const hall = (y: number): number => 192 - (720 - y) / 48;
    const store = 145.5 - 1.5;
    const hand: Record<string, number> = {
      "R-1": (hall(384) - 180) * cos - 0.922 / 2,
      "R-2": (hall(24) - 176) * cos - 1.163 / 2,
      "R-3": store - 142.5,
      "R-4": store - 142 - 0.922 / 2,
      "R-5": (hall(528) - 188.75) * cos - 0.706 / 2,
      "R-6": (hall(144) - (179.875 - 1.315 / 2)) * cos - 1.315 / 2,
      "R-7": (hall(624) - (189.5 - 1.05 / 2)) * cos - 1.05 / 2,
      "R-8": Math.hypot(0.75, 144.5 - store) - 0.922 / 2,
      "R-9": store - 143,
      "R-11": 126 - 125 - 0.52 / 2,
      "B-1": (hall(382) - 183.75) * cos,
      "B-2": 4 - 1.5 / 2,
      "F-1": (hall(24 - 6.3 / 2) - (176 + 2.4 / 2)) * cos,
    };
    for (const [label, least] of Object.entries(hand)) {
      close(one(label).leastIn, least, label);
      expect(text("readme.md"), `${label} in the readme`).toContain(`**${label}**`);
    }
    close(one("R-2").stretches[0]!.fromIn, 384 - ((1.5 + 1.163 / 2) / cos - 1) * 48, "R-2 from");
    close(one("R-9").stretches[0]!.toIn, 60 + Math.sqrt((1.5 + 0.755) ** 2 - (1 + 0.755) ** 2), "R-9 to");
  });
});
