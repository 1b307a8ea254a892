// npm run -s underside -- COMMAND: builds the command line when it is missing or stale, then runs it. Says nothing of its own.
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { ensureBuilt } from "./build.mjs";
import { ensureInstalled } from "./installed.mjs";

try {
  await ensureInstalled();
  const folder = await ensureBuilt("commands");
  // npm moves to the root of the checkout; paths given to the command are from where it was given.
  if (process.env.npm_lifecycle_event === "underside" && process.env.INIT_CWD) process.chdir(process.env.INIT_CWD);
  await import(pathToFileURL(join(folder, "underside.js")).href);
} catch (error) {
  process.stderr.write(`${error instanceof Error ? (error.stack ?? error.message) : error}\n`);
  process.exitCode = 2;
}
