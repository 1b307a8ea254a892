import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { parseJobText } from "../../src/job/parse-job.ts";
import { type OpenedPage, openPage } from "./open-page.ts";

let opened: OpenedPage;

beforeAll(async () => {
  opened = await openPage();
}, 180_000);
afterAll(() => opened?.close());

/** What the Check stage says of a sample: how many of its findings have a number. */
function attention(folder: string): string {
  const job = parseJobText(readFileSync(`samples/${folder}/job.json`, "utf8"));
  if (!job.ok) throw new Error(`the sample ${folder} cannot be read`);
  return `${checkJob(job.value).findings.filter(({ number }) => number !== null).length} findings need attention`;
}

describe("the samples on the start page", () => {
  test("are both there, and each opens checked", async () => {
    const { page, address, problems } = opened;
    for (const [name, sheets, findings] of [
      ["Fennick Lane Store", "8 sheets", attention("fennick-lane-store")],
      ["Riverside Workshop", "2 sheets", attention("riverside-workshop")],
    ] as const) {
      await page.goto(address);
      // Once opened it is kept, and offered again under its name: the sample is the first of that name.
      await page.getByRole("button", { name }).first().click();
      await page.getByText(findings).waitFor();
      await page.getByText(sheets, { exact: true }).waitFor();
    }
    expect(problems).toEqual([]);
  }, 120_000);
});
