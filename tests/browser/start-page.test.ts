import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type OpenedPage, openPage } from "./open-page.ts";

let opened: OpenedPage;

beforeAll(async () => {
  opened = await openPage();
}, 180_000);
afterAll(() => opened?.close());

describe("the program in a browser", () => {
  test("shows its start page, keeps within its own policy and asks nobody else for anything", async () => {
    await opened.page.waitForSelector("#root > *");
    expect(await opened.page.title()).toMatch(/Underside/);
    expect(opened.problems).toEqual([]);
  });

  test("states its policy itself, for wherever its files are put", async () => {
    const policy = await opened.page.locator('meta[http-equiv="Content-Security-Policy"]').getAttribute("content");
    expect(policy).toMatch(/^default-src 'self'; /);
    expect(policy).not.toMatch(/frame-ancestors/);
  });

  test("a breach of the policy and a request elsewhere would be noticed", async () => {
    await opened.page.evaluate(() => fetch("http://127.0.0.1:9/elsewhere").catch(() => undefined));
    await expect.poll(() => opened.problems.join("\n")).toMatch(/Content Security Policy/);
  });
});
