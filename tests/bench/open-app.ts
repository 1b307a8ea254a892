import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import react from "@vitejs/plugin-react";
import { type Browser, chromium, type Page } from "playwright-core";
import { build } from "vite";
import { serveFiles } from "../../src/cli/serve-files.mjs";
import { findChromium } from "../browser/chromium.ts";

/** Without a graphics card the browser puts its pictures together by plain software; emulating a card, as the tests do, is slower many times over. */
export const plainChromium = async (): Promise<Browser> =>
  chromium.launch({
    executablePath: await findChromium(),
    args: ["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
  });

/** Builds `empty-app` by the same vite as the program, for use, and serves it. `address` ends in a slash. The caller closes it. */
export async function serveEmptyApp(): Promise<{ readonly address: string; close(): void }> {
  const folder = mkdtempSync(join(tmpdir(), "underside-empty-"));
  const { NODE_ENV } = process.env;
  process.env.NODE_ENV = "production";
  await build({
    root: resolve("tests/bench/empty-app"),
    base: "./",
    configFile: false,
    publicDir: false,
    logLevel: "error",
    plugins: [react()],
    build: { target: "es2023", outDir: folder, emptyOutDir: true },
  });
  if (NODE_ENV === undefined) delete process.env.NODE_ENV;
  else process.env.NODE_ENV = NODE_ENV;
  const { server, port } = await serveFiles(folder, 0);
  return {
    address: `http://127.0.0.1:${port}/`,
    close() {
      server.closeAllConnections();
      server.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

/** Puts the desk of the open program (session, host, view) where scripts of a benchmark find it, `window.desk`: React keeps it in its tree. */
export const reachDesk = (page: Page): Promise<void> =>
  page.evaluate(() => {
    interface Node {
      readonly memoizedProps?: { readonly value?: { readonly session?: unknown } } | null;
      readonly child?: Node | null;
      readonly sibling?: Node | null;
    }
    const seek = (node: Node | null | undefined): unknown =>
      node &&
      (node.memoizedProps?.value?.session ? node.memoizedProps.value : (seek(node.child) ?? seek(node.sibling)));
    const root = document.getElementById("root") as unknown as Record<
      string,
      { readonly stateNode: { current: Node } }
    >;
    const key = Object.keys(root).find((name) => name.startsWith("__reactContainer"));
    if (!key) throw new Error("React keeps its tree elsewhere");
    Object.assign(window, { desk: seek(root[key]!.stateNode.current) });
  });
