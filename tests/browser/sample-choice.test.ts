import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page.ts";

let opened: OpenedPage;

beforeAll(async () => {
  opened = await openPage();
}, 180_000);
afterAll(() => opened?.close());

describe("the samples on the start page", () => {
  test("are both there, and each opens checked", async () => {
    const { page, address, problems } = opened;
    for (const [name, sheets, findings] of [
      ["Fennick Lane Store", "8 sheets", "72 findings need attention"],
      ["Riverside Workshop", "2 sheets", "10 findings need attention"],
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
