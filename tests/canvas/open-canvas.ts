import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { build } from "vite";
import { serveFiles } from "../../src/cli/serve-files.mjs";
import { launchChromium } from "../browser/chromium.ts";

/** A page with nothing on it but a sheet view, open in a browser. */
export interface OpenedCanvas {
  readonly page: Page;
  /** Opens another page, of one picture that is moved (`empty-page.ts`), in the same browser. */
  openEmpty(): Promise<Page>;
  /** Errors nobody caught, errors on the console, and requests to anywhere else. */
  readonly problems: readonly string[];
  close(): Promise<void>;
}

/**
 * Bundles and serves `canvas-page.ts` as the program is, with the given PDF files beside it (bytes, or the path of one),
 * and opens it. The caller closes it. To be called from the root of the checkout.
 */
export async function openCanvas(
  files: Readonly<Record<string, Uint8Array | string>>,
  options: BrowserContextOptions = {},
  launch: () => Promise<Browser> = launchChromium,
): Promise<OpenedCanvas> {
  const folder = mkdtempSync(join(tmpdir(), "underside-canvas-"));
  await build({
    root: resolve("tests/canvas"),
    base: "./",
    configFile: false,
    publicDir: false,
    logLevel: "error",
    worker: { format: "es" },
    build: {
      target: "es2023",
      outDir: folder,
      emptyOutDir: false,
      rolldownOptions: {
        input: { page: resolve("tests/canvas/canvas-page.ts"), empty: resolve("tests/canvas/empty-page.ts") },
        output: { entryFileNames: "[name].js" },
      },
    },
  });
  for (const name of ["standard_fonts", "wasm", "cmaps", "iccs"]) {
    cpSync(join("node_modules/pdfjs-dist", name), join(folder, "pdfjs", name), { recursive: true });
  }
  mkdirSync(join(folder, "files"));
  for (const [name, file] of Object.entries(files)) {
    if (typeof file === "string") cpSync(file, join(folder, "files", name));
    else writeFileSync(join(folder, "files", name), file);
  }
  const html = (title: string, script: string) =>
    `<!doctype html><title>${title}</title><link rel="icon" href="data:,"><style>body{margin:0;background:#e8e2d6;overflow:hidden}#host{position:absolute;inset:0}</style><div id="host"></div><script type="module" src="./${script}"></script>`;
  writeFileSync(join(folder, "index.html"), html("Sheet view", "page.js"));
  writeFileSync(join(folder, "empty.html"), html("One picture", "empty.js"));
  const { server, port } = await serveFiles(folder, 0);
  const address = `http://127.0.0.1:${port}/`;
  const browser = await launch();
  const problems: string[] = [];
  const page = await (await browser.newContext({ viewport: { width: 900, height: 700 }, ...options })).newPage();
  page.on("pageerror", (error) => problems.push(`error: ${error.stack ?? error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") problems.push(`console: ${message.text()}`);
  });
  page.on("request", (request) => {
    if (!request.url().startsWith(address) && !/^(blob|data):/.test(request.url()))
      problems.push(`request: ${request.url()}`);
  });
  await page.goto(`${address}index.html`);
  await page.waitForFunction(() => "desk" in globalThis);
  return {
    page,
    problems,
    async openEmpty() {
      const empty = await page.context().newPage();
      await empty.goto(`${address}empty.html`);
      await empty.waitForFunction(() => "emptyDesk" in globalThis);
      return empty;
    },
    async close() {
      await browser.close();
      server.closeAllConnections();
      server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
