import { closeSync, fsyncSync, mkdtempSync, openSync, readFileSync, rmSync, writeFileSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { plainBytes } from "../../src/cli/files.ts";
import { appendUpdate } from "../../src/pdf/write/append-update.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { fonts, job, layers, mark, report, squareAt, tradeText } from "../pdf/write/fixtures.ts";
import { type BenchRow, benchRow, leastTimes } from "./bench-row.ts";

const SEED = 61;

/** A one-page drawing of so many megabytes, in objects of 1,600 bytes, with a classic table. */
function bulkyDrawing(megabytes: number): Uint8Array {
  const random = seeded(SEED);
  const count = Math.floor((megabytes * 1e6) / 1680);
  const parts: Buffer[] = [];
  const offsets: number[] = [];
  let length = 0;
  const add = (part: Buffer): void => {
    parts.push(part);
    length += part.length;
  };
  const object = (number: number, body: Buffer): void => {
    offsets[number] = length;
    add(Buffer.concat([Buffer.from(`${number} 0 obj\n`), body, Buffer.from("\nendobj\n")]));
  };
  add(Buffer.from("%PDF-1.7\n"));
  object(1, Buffer.from("<</Type /Catalog /Pages 2 0 R>>"));
  object(2, Buffer.from("<</Type /Pages /Kids [3 0 R] /Count 1>>"));
  object(3, Buffer.from("<</Type /Page /Parent 2 0 R /MediaBox [0 0 3024 2160]>>"));
  for (let number = 4; number <= count; number++) {
    const data = Buffer.alloc(1600, 65 + Math.floor(random() * 26));
    object(number, Buffer.concat([Buffer.from("<</Length 1600>>\nstream\n"), data, Buffer.from("\nendstream")]));
  }
  const start = length;
  const rows = offsets.slice(1).map((offset) => `${String(offset).padStart(10, "0")} 00000 n \n`);
  add(Buffer.from(`xref\n0 ${count + 1}\n0000000000 65535 f \n${rows.join("")}`));
  add(Buffer.from(`trailer\n<</Root 1 0 R /Size ${count + 1}>>\nstartxref\n${start}\n%%EOF\n`));
  return new Uint8Array(Buffer.concat(parts));
}

/** What is issued: how large the drawing is, how many marks, whether the report goes with it, and how often that is timed. */
const CASES = [
  { megabytes: 1, marks: 1, whole: false, rounds: 60 },
  { megabytes: 100, marks: 1000, whole: false, rounds: 15 },
  { megabytes: 3, marks: 20, whole: true, rounds: 30 },
  { megabytes: 25, marks: 20, whole: true, rounds: 15 },
  { megabytes: 100, marks: 1000, whole: true, rounds: 15 },
] as const;

/** Issuing, from file to file, against reading the drawing's bytes and writing them to another file; both are seen to the disk, as the commands do. */
export async function run(): Promise<BenchRow[]> {
  const folder = mkdtempSync(join(tmpdir(), "underside-bench-"));
  const freshPages = await report();
  const rows: BenchRow[] = [];
  let sink = 0;
  const keep = (result: number): void => {
    sink += result;
  };
  try {
    for (const { megabytes, marks, whole, rounds } of CASES) {
      const path = join(folder, `${megabytes}.pdf`);
      writeFileSync(path, bulkyDrawing(megabytes));
      const annotations = Array.from({ length: marks }, (_, i) =>
        mark({ name: `m-${i}`, picture: [...squareAt(100 + i, 100), ...tradeText(120 + i, 100)] }),
      );
      const pages = [{ page: 1, annotations }];
      const request = { pages, layers, fonts, ...(whole ? { freshPages, attachment: job } : {}) };
      const write = (...parts: readonly Uint8Array[]): number => {
        const file = openSync(join(folder, "out.pdf"), "w");
        for (const part of parts) writeSync(file, part);
        fsyncSync(file);
        closeSync(file);
        return parts.length;
      };
      const copy = (): number => write(readFileSync(path));
      const issue = (): number => {
        const drawing = plainBytes(readFileSync(path));
        const update = appendUpdate(drawing, request);
        if (!update.ok) throw new Error(update.problems[0]!.code);
        return write(drawing, update.value.increment);
      };
      const [ms, floor] = leastTimes(rounds, [issue, copy], keep);
      const what = `${marks.toLocaleString("en")} ${marks === 1 ? "mark" : "marks"}${whole ? ", report and job" : ""}`;
      rows.push(benchRow(`issue ${what} on a drawing of ${megabytes} MB`, ms!, "read and write its bytes", floor!));
    }
  } finally {
    rmSync(folder, { recursive: true });
  }
  if (!(sink > 0)) throw new Error("nothing was measured");
  return rows;
}
