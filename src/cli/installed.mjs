// The launchers run before anything is installed: Node's own modules only, here and in every .mjs beside this file.
import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { lock } from "./lock.mjs";
import { root } from "./root.mjs";

/**
 * Does node_modules hold every package that package-lock.json asks for, in that version? Compared with the record that npm
 * keeps of what it installed. Optional packages (binaries for other machines) may be absent, not of another version.
 */
export function isInstalled() {
  try {
    const wanted = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8")).packages;
    const present = JSON.parse(readFileSync(join(root, "node_modules", ".package-lock.json"), "utf8")).packages;
    return Object.entries(wanted).every(([path, { version, optional }]) => {
      if (path === "") return true;
      const found = present[path]?.version;
      return found === version || (found === undefined && optional === true);
    });
  } catch {
    return false;
  }
}

/** Installs what package-lock.json asks for, unless it is there. Silent, except on standard error with `say`. Throws when npm fails. */
export async function ensureInstalled(say = () => {}) {
  if (isInstalled()) return;
  const release = await lock("install");
  try {
    if (isInstalled()) return;
    say("Installing packages (only needed once)…");
    await npm(["ci", "--include=dev", "--no-audit", "--no-fund", "--loglevel=error"]);
  } finally {
    release();
  }
}

function npm(args) {
  // npm names its own script when it runs one of ours; on Windows only a shell finds npm by name.
  const script = process.env.npm_execpath;
  const byName = !script || !/npm-cli\.c?js$/.test(script);
  const child = byName
    ? spawn("npm", args, { cwd: root, shell: process.platform === "win32", stdio: ["ignore", "pipe", "pipe"] })
    : spawn(process.execPath, [script, ...args], { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
  let said = "";
  for (const stream of [child.stdout, child.stderr]) {
    stream.on("data", (bytes) => {
      said += bytes;
    });
  }
  return new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", (code) => {
      if (code === 0) resolve();
      else reject(new Error(`npm ${args[0]} failed (status ${code}).\n${said.trim()}`));
    });
  });
}
