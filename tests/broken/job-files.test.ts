import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { runCommand } from "../cli/run-command.ts";

let folder: string;
let good: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "underside-broken-"));
  good = await readFile("docs/examples/hand-calculation.json", "utf8");
});
afterAll(() => rm(folder, { recursive: true, force: true }));

/** What is done to a good job, and the words that have to be told. */
const broken: readonly (readonly [what: string, change: (text: string) => string, words: RegExp])[] = [
  ["empty", () => "", /not a job/],
  ["cut short", (text) => text.slice(0, 500), /not readable JSON/],
  ["another JSON", () => '{"name": "a", "version": "1.0"}', /first key should be/],
  ["a list", () => "[]", /not a job/],
  ["no version", (text) => text.replace('"version": 1,', ""), /no whole-number version/],
  ["a version of letters", (text) => text.replace('"version": 1', '"version": "one"'), /no whole-number version/],
  ["a newer version", (text) => text.replace('"version": 1', '"version": 99'), /newer version.*99.*left as it is/],
  [
    "an unknown key",
    (text) => text.replace('"label": "R-1"', '"label": "R-1", "colour": "red"'),
    /"colour" at elements\/r1\/colour/,
  ],
  [
    "a key twice",
    (text) => text.replace('"label": "R-1"', '"label": "R-1", "label": "R-9"'),
    /elements\/r1\/label twice/,
  ],
  ["a missing key", (text) => text.replace('"label": "R-1",', ""), /elements\/r1\/label/],
  [
    "a bare number for a length",
    (text) => text.replace(/"floor": \{[^}]*\}/, '"floor": 100'),
    /storeys\/level-1\/floor/,
  ],
  ["a unit nobody knows", (text) => text.replace('"unit": "ft"', '"unit": "yd"'), /unit/],
  ["a kind nobody knows", (text) => text.replace('"kind": "box"', '"kind": "balloon"'), /elements\/b1/],
  [
    "a sheet that is not there",
    (text) => text.replace('"sheet": "sheet-1"', '"sheet": "sheet-9"'),
    /sheet that is not in the job/,
  ],
  [
    "a storey that is not there",
    (text) => text.replaceAll('"level-1"', '"level-9"').replace('"level-9": {', '"level-1": {'),
    /storey that is not in the job/,
  ],
  [
    "a number that is none",
    (text) => text.replace('"ratio": 96', '"ratio": -96'),
    /viewports\/plan\/scale\/stated\/ratio/,
  ],
  ["an id with a slash", (text) => text.replace('"r1": {', '"../r1": {'), /elements/],
];

describe("broken job files are refused with words, a place and status 2", () => {
  test.each(broken)("%s", async (what, change, words) => {
    const text = change(good);
    expect(text, "the change changed something").not.toBe(good);
    const path = join(folder, `${what.replaceAll(" ", "-")}.json`);
    await writeFile(path, text);
    const { status, out, error } = await runCommand("check", path);
    expect([status, out]).toEqual([2, ""]);
    expect(error).toMatch(words);
  });
});
