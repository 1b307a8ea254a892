import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { drawWorkshop } from "./draw/draw-workshop.ts";
import { drawStore } from "./draw/store/draw-store.ts";

/** Draws the sheets of the samples and writes them with their jobs. Run by `npm run samples` from the root; the files are committed. */
const folder = join(process.cwd(), "samples");
for (const { path, bytes } of [...(await drawWorkshop()), ...(await drawStore())]) {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), bytes);
  process.stdout.write(`${path}: ${bytes.length} bytes\n`);
}
