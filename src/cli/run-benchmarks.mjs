// npm run bench: every tests/bench/*.bench.ts (or those whose name holds a word given), each figure beside its floor.
import { execFileSync } from "node:child_process";
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { root } from "./root.mjs";
import { importScripts } from "./run-script.mjs";

/** Says that one file is to be run, and its rows written as JSON: a process of its own for each, since what one loads may slow another's floor. */
const ROWS = "--rows";

const [first, ...rest] = process.argv.slice(2);
try {
  process.chdir(root);
  if (first === ROWS) process.stdout.write(JSON.stringify(await rowsOf(rest[0])));
  else print(chosen(process.argv.slice(2)).flatMap(rowsApart));
} catch (error) {
  process.stderr.write(`${error instanceof Error ? (error.stack ?? error.message) : error}\n`);
  process.exitCode = 1;
}

function chosen(words) {
  const files = readdirSync(join(root, "tests/bench"))
    .filter((name) => /\.bench\.m?ts$/.test(name) && (words.length === 0 || words.some((word) => name.includes(word))))
    .sort();
  if (files.length === 0) throw new Error(`No benchmark is called ${words.join(" or ")}.`);
  return files;
}

async function rowsOf(name) {
  const [{ run }] = await importScripts([`tests/bench/${name}`]);
  return run();
}

function rowsApart(name) {
  const self = fileURLToPath(import.meta.url);
  const text = execFileSync(process.execPath, [...process.execArgv, self, ROWS, name], {
    encoding: "utf8",
    stdio: ["ignore", "pipe", "inherit"],
    maxBuffer: 2 ** 26,
  });
  return JSON.parse(text);
}

function print(rows) {
  const lines = [["what", "ms", "floor", "ms", "ratio", ""]];
  for (const { name, ms, floorName, floorMs, ratio, note } of rows)
    lines.push([name, shown(ms), floorName, shown(floorMs), `${ratio.toPrecision(3)}x`, note ?? ""]);
  const widths = lines[0].map((_, i) => Math.max(...lines.map((line) => line[i].length)));
  const isNumber = [false, true, false, true, true, false];
  for (const line of lines) {
    const cells = line.map((text, i) => (isNumber[i] ? text.padStart(widths[i]) : text.padEnd(widths[i])));
    process.stdout.write(`${cells.join("  ").trimEnd()}\n`);
  }
}

function shown(ms) {
  return ms >= 100 ? ms.toFixed(0) : ms.toPrecision(3);
}
