import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { jobStoreContract } from "../contract/job-store-contract.ts";
import { bundleScript } from "./bundle-script.ts";
import { launchChromium } from "./chromium.ts";

declare function runCase(name: string): Promise<void>;

let browser: Browser;
let page: Page;

beforeAll(async () => {
  browser = await launchChromium();
  page = await browser.newPage();
  // Databases need an origin; nothing is served there but an empty page.
  await page.route("http://localhost/**", (route) =>
    route.fulfill({ contentType: "text/html", body: "<!doctype html>" }),
  );
  await page.goto("http://localhost/");
  await page.addScriptTag({ content: await bundleScript("tests/browser/indexed-db-page.ts") });
}, 60_000);
afterAll(() => browser?.close());

describe("the IndexedDB store keeps the contract, in a browser", () => {
  test.each(Object.keys(jobStoreContract))("%s", async (name) => {
    await page.evaluate((each) => runCase(each), name);
  });

  test("a failing case is noticed", async () => {
    await expect(page.evaluate(() => runCase("no such case"))).rejects.toThrow();
  });
});
