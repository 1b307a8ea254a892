import type { BrowserContextOptions, Page } from "playwright-core";
import { launchChromium } from "./chromium.ts";
import { servePage } from "./serve-page.ts";

/** The program open in a browser. */
export interface OpenedPage {
  readonly page: Page;
  /** Ends in a slash. */
  readonly address: string;
  /**
   * What went wrong so far: errors nobody caught, errors on the console (breaches of the content security policy among
   * them), and every request to anywhere but this program. A test ends by expecting this to be empty.
   */
  readonly problems: readonly string[];
  close(): Promise<void>;
}

/** Starts a browser of its own and opens the program, with `query` after the address (`?sample=…`). The caller closes it. */
export async function openPage(
  query = "",
  viewport = { width: 1280, height: 800 },
  more: BrowserContextOptions = {},
): Promise<OpenedPage> {
  const served = await servePage();
  const browser = await launchChromium();
  const problems: string[] = [];
  const context = await browser.newContext({ viewport, ...more });
  const page = await context.newPage();
  page.on("pageerror", (error) => problems.push(`error: ${error.stack ?? error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error") problems.push(`console: ${message.text()}`);
  });
  page.on("request", (request) => {
    const { protocol } = new URL(request.url());
    const isOwn = request.url().startsWith(served.address) || protocol === "blob:" || protocol === "data:";
    if (!isOwn) problems.push(`request: ${request.url()}`);
  });
  await page.goto(served.address + query);
  return {
    page,
    address: served.address,
    problems,
    async close() {
      await browser.close();
      await served.close();
    },
  };
}
