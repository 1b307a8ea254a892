// npm start: install and build what is missing, serve the page on this machine, say where, open the browser.
import { spawn } from "node:child_process";
import { ensureBuilt } from "./build.mjs";
import { ensureInstalled } from "./installed.mjs";
import { serveFiles } from "./serve-files.mjs";

const usualPort = 4710;
const sample = "riverside-workshop";
const say = (words) => process.stderr.write(`${words}\n`);

try {
  const { PORT } = process.env;
  const wanted = PORT === undefined || PORT === "" ? undefined : Number(PORT);
  if (wanted !== undefined && !(Number.isInteger(wanted) && wanted >= 0 && wanted <= 65535)) {
    throw new Error(`PORT is "${PORT}": give a number from 0 (any free port) to 65535.`);
  }
  await ensureInstalled(say);
  const folder = await ensureBuilt("page", say);
  const { server, port } = await serve(folder, wanted);
  const address = `http://127.0.0.1:${port}/?sample=${sample}`;
  process.stdout.write(`Underside is at ${address}\n`);
  say("Press Ctrl+C to stop it. Drawings stay on this machine.");
  openBrowser(address);
  for (const signal of ["SIGINT", "SIGTERM"]) {
    process.on(signal, () => {
      server.closeAllConnections();
      server.close(() => process.exit(0));
    });
  }
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}

/** On the port asked for; with none asked for, on the usual one, or any free one when another program has it. */
async function serve(folder, wanted) {
  try {
    return await serveFiles(folder, wanted ?? usualPort);
  } catch (error) {
    if (error.code !== "EADDRINUSE") throw error;
    if (wanted === undefined) return serveFiles(folder, 0);
    throw new Error(`Port ${wanted} is in use. Set PORT to another one, or to 0 for any free one.`);
  }
}

/** BROWSER=none opens nothing; BROWSER=COMMAND opens with that; else the system's own way. That it cannot be opened is no failure. */
function openBrowser(address) {
  const { BROWSER } = process.env;
  if (BROWSER === "none") return;
  const [command, ...args] = BROWSER
    ? [BROWSER]
    : ({ darwin: ["open"], win32: ["explorer.exe"] }[process.platform] ?? ["xdg-open"]);
  spawn(command, [...args, address], { stdio: "ignore", detached: true })
    .on("error", () => {})
    .unref();
}
