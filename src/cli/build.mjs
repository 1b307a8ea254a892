import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { lock } from "./lock.mjs";
import { root } from "./root.mjs";

/** What can be built: the page for the browser in dist/, the command line in build/. */
const targets = {
  page: { folder: "dist", mode: "page" },
  commands: { folder: "build", mode: "commands" },
};
const inputs = ["src", "samples", "package-lock.json", "vite.config.ts", "LICENSE"];
const stampName = ".built-from";

/**
 * Builds `dist/` or `build/` when it is missing or was built from other sources than those here now (compared by content, since
 * the times of files mean nothing after a checkout). The new folder takes the place of the old one in one step.
 */
export async function ensureBuilt(name, say = () => {}) {
  const { folder, mode } = targets[name];
  const place = join(root, folder);
  const sources = fingerprint();
  const isFresh = () => existsSync(join(place, stampName)) && readFileSync(join(place, stampName), "utf8") === sources;
  if (isFresh()) return place;
  const release = await lock(`build-${folder}`);
  try {
    if (isFresh()) return place;
    say(`Building ${folder}/…`);
    // In node_modules, where nothing is kept: what a killed build leaves behind is in nobody's way.
    const fresh = join(root, "node_modules", `.underside-${folder}-${process.pid}-new`);
    const old = join(root, "node_modules", `.underside-${folder}-${process.pid}-old`);
    try {
      await asForUse(async () => {
        const { build } = await import("vite");
        await build({
          configFile: join(root, "vite.config.ts"),
          mode,
          logLevel: "error",
          build: { outDir: fresh, emptyOutDir: true },
        });
      });
      writeFileSync(join(fresh, stampName), sources);
      if (existsSync(place)) renameSync(place, old);
      renameSync(fresh, place);
    } finally {
      for (const leftover of [fresh, old]) rmSync(leftover, { recursive: true, force: true });
    }
    return place;
  } finally {
    release();
  }
}

/**
 * Builds what people use, whoever asks for it: under a test runner, which sets this variable, the page would get the libraries' versions
 * for developers, larger and several times slower.
 */
async function asForUse(work) {
  const { NODE_ENV } = process.env;
  process.env.NODE_ENV = "production";
  try {
    await work();
  } finally {
    if (NODE_ENV === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = NODE_ENV;
  }
}

function fingerprint() {
  const hash = createHash("sha256").update(process.version);
  for (const input of inputs) for (const path of filesUnder(join(root, input))) addFile(hash, path);
  return hash.digest("hex");
}

function addFile(hash, path) {
  hash.update(`\0${relative(root, path)}\0`).update(readFileSync(path));
}

function filesUnder(path) {
  if (!existsSync(path)) return [];
  try {
    return readdirSync(path, { withFileTypes: true })
      .sort((a, b) => (a.name < b.name ? -1 : 1))
      .flatMap((entry) => (entry.isDirectory() ? filesUnder(join(path, entry.name)) : [join(path, entry.name)]));
  } catch (error) {
    if (error.code === "ENOTDIR") return [path];
    throw error;
  }
}
