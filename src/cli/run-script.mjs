// Runs TypeScript files of this checkout in plain Node: bundles them as the command line is bundled, then imports the bundle.
import { mkdtempSync, rmSync } from "node:fs";
import { basename, join } from "node:path";
import { pathToFileURL } from "node:url";
import { ensureInstalled } from "./installed.mjs";
import { root } from "./root.mjs";

/** Bundles and imports `files` (paths from the root of the checkout), in order; resolves to their modules. */
export async function importScripts(files) {
  await ensureInstalled((words) => process.stderr.write(`${words}\n`));
  // Inside the checkout, so that the bundle finds node_modules.
  const folder = mkdtempSync(join(root, "node_modules", ".underside-script-"));
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  const { build } = await import("vite");
  const names = files.map((file, i) => `${i}-${basename(file).replace(/\.[^.]+$/, "")}`);
  await build({
    configFile: join(root, "vite.config.ts"),
    mode: "commands",
    logLevel: "error",
    build: {
      outDir: folder,
      emptyOutDir: false,
      rolldownOptions: { input: Object.fromEntries(names.map((name, i) => [name, join(root, files[i])])) },
    },
  });
  const modules = [];
  for (const name of names) modules.push(await import(pathToFileURL(join(folder, `${name}.js`)).href));
  return modules;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    process.chdir(root);
    await importScripts(process.argv.slice(2));
  } catch (error) {
    process.stderr.write(`${error instanceof Error ? (error.stack ?? error.message) : error}\n`);
    process.exitCode = 1;
  }
}
