// npm run bench: every tests/bench/*.bench.ts (or those whose name holds a word given), each figure beside its floor.
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { root } from "./root.mjs";
import { importScripts } from "./run-script.mjs";

const words = process.argv.slice(2);
const files = readdirSync(join(root, "tests/bench"))
  .filter((name) => /\.bench\.m?ts$/.test(name) && (words.length === 0 || words.some((word) => name.includes(word))))
  .sort();

try {
  process.chdir(root);
  if (files.length === 0) throw new Error(`No benchmark is called ${words.join(" or ")}.`);
  const modules = await importScripts(files.map((name) => `tests/bench/${name}`));
  const lines = [["what", "ms", "floor", "ms", "ratio", ""]];
  for (const { run } of modules) {
    for (const { name, ms, floorName, floorMs, ratio, note } of await run()) {
      lines.push([name, shown(ms), floorName, shown(floorMs), `${ratio.toPrecision(3)}x`, note ?? ""]);
    }
  }
  const widths = lines[0].map((_, i) => Math.max(...lines.map((line) => line[i].length)));
  const isNumber = [false, true, false, true, true, false];
  for (const line of lines) {
    const cells = line.map((text, i) => (isNumber[i] ? text.padStart(widths[i]) : text.padEnd(widths[i])));
    process.stdout.write(`${cells.join("  ").trimEnd()}\n`);
  }
} catch (error) {
  process.stderr.write(`${error instanceof Error ? (error.stack ?? error.message) : error}\n`);
  process.exitCode = 1;
}

function shown(ms) {
  return ms >= 100 ? ms.toFixed(0) : ms.toPrecision(3);
}
