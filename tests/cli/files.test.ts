import { mkdtemp, readdir, readFile, rm, symlink, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { isSameFile, readBytes, writeFiles } from "../../src/cli/files.ts";

let folder: string;
const at = (name: string): string => join(folder, name);
const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), "underside-files-"));
});
afterEach(() => rm(folder, { recursive: true, force: true }));

describe("writing files", () => {
  test("replaces what was there and leaves nothing else behind", async () => {
    await writeFile(at("a.pdf"), "before");
    await writeFiles(
      new Map([
        [at("a.pdf"), bytes("after")],
        [at("b.pdf"), bytes("other")],
      ]),
    );
    expect(await readFile(at("a.pdf"), "utf8")).toBe("after");
    expect((await readdir(folder)).sort()).toEqual(["a.pdf", "b.pdf"]);
  });

  test("writes none when one cannot be written", async () => {
    await writeFile(at("a.pdf"), "before");
    const files = new Map([
      [at("a.pdf"), bytes("after")],
      [at("no-such-folder/b.pdf"), bytes("other")],
    ]);
    await expect(writeFiles(files)).rejects.toMatchObject({ problems: [{ code: "cli.unwritable" }] });
    expect(await readFile(at("a.pdf"), "utf8")).toBe("before");
    expect(await readdir(folder)).toEqual(["a.pdf"]);
  });
});

describe("reading files", () => {
  test("names the file that is not there, and tells a folder from a file", async () => {
    await expect(readBytes(at("x"))).rejects.toMatchObject({
      problems: [{ code: "cli.no-such-file", where: at("x") }],
    });
    await expect(readBytes(folder)).rejects.toMatchObject({ problems: [{ code: "cli.unreadable" }] });
  });

  test("knows one file by two names", async () => {
    await writeFile(at("a"), "");
    await writeFile(at("b"), "");
    await symlink(at("a"), at("c"));
    expect(await isSameFile(at("a"), at("c"))).toBe(true);
    expect(await isSameFile(at("a"), at("b"))).toBe(false);
    expect(await isSameFile(at("a"), at("none"))).toBe(false);
  });
});
