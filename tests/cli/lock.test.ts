import { spawn } from "node:child_process";
import { mkdir, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { pathToFileURL } from "node:url";
import { afterEach, beforeEach, describe, expect, test } from "vitest";

let folder: string;
let work: string;

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "underside-lock-"));
  work = `test-${Date.now()}-${Math.random().toString(36).slice(2)}`;
});
afterEach(() => rm(folder, { recursive: true, force: true }));

/** Runs `body` in a Node of its own, with `lock`, `work`, `log(text)` and `sleep(ms)` at hand. */
function inAnotherNode(body: string): Promise<number | null> {
  const script = `
    import { appendFileSync } from "node:fs";
    import { setTimeout as sleep } from "node:timers/promises";
    import { lock } from ${JSON.stringify(pathToFileURL(resolve("src/cli/lock.mjs")).href)};
    const work = ${JSON.stringify(work)};
    const log = (text) => appendFileSync(${JSON.stringify(join(folder, "log"))}, text + "\\n");
    ${body}
  `;
  const child = spawn(process.execPath, ["--input-type=module", "-e", script], { stdio: "inherit" });
  return new Promise((done) => child.on("close", done));
}

describe("the launchers' lock", () => {
  test("lets one process in at a time", async () => {
    const body = 'const release = await lock(work); log("in"); await sleep(150); log("out"); release();';
    await Promise.all([inAnotherNode(body), inAnotherNode(body), inAnotherNode(body)]);
    expect((await readFile(join(folder, "log"), "utf8")).trim().split("\n")).toEqual([
      "in",
      "out",
      "in",
      "out",
      "in",
      "out",
    ]);
  });

  test("is taken over from a process that died with it", async () => {
    await inAnotherNode("await lock(work); process.exit(0);");
    expect(await inAnotherNode('const release = await lock(work); log("in"); release();')).toBe(0);
    expect(await readFile(join(folder, "log"), "utf8")).toBe("in\n");
  });
});

describe("what is installed", () => {
  /** Is this `node_modules` good for this lock file? Asked of a checkout made up for it. */
  async function isInstalled(wanted: object, present: object | null): Promise<boolean> {
    const cli = join(folder, "src/cli");
    await mkdir(cli, { recursive: true });
    for (const name of ["installed.mjs", "lock.mjs", "root.mjs"])
      await writeFile(join(cli, name), await readFile(`src/cli/${name}`));
    await writeFile(join(folder, "package-lock.json"), JSON.stringify({ packages: { "": {}, ...wanted } }));
    await rm(join(folder, "node_modules"), { recursive: true, force: true });
    if (present) {
      await mkdir(join(folder, "node_modules"));
      await writeFile(join(folder, "node_modules/.package-lock.json"), JSON.stringify({ packages: present }));
    }
    const { isInstalled } = (await import(pathToFileURL(join(cli, "installed.mjs")).href)) as {
      isInstalled(): boolean;
    };
    return isInstalled();
  }
  const a = { "node_modules/a": { version: "1.0.0" } };
  const forAnotherMachine = { "node_modules/b": { version: "1.0.0", optional: true } };

  test("is noticed when nothing, too little or another version is there", async () => {
    expect(await isInstalled(a, null)).toBe(false);
    expect(await isInstalled(a, {})).toBe(false);
    expect(await isInstalled(a, { "node_modules/a": { version: "0.9.0" } })).toBe(false);
    expect(await isInstalled({ ...a, ...forAnotherMachine }, a)).toBe(true);
    expect(await isInstalled(a, a)).toBe(true);
    const other = { "node_modules/b": { version: "2.0.0" } };
    expect(await isInstalled({ ...a, ...forAnotherMachine }, { ...a, ...other })).toBe(false);
  });

  test("is asked of a lock file that names no registry", async () => {
    expect(await readFile("package-lock.json", "utf8")).not.toMatch(/"resolved": "https?:/);
  });
});
