import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { drawWorkshop } from "./draw/draw-workshop.ts";

/** Draws the sample's sheets and writes them with its job. Run by `npm run samples` from the root; the files are committed. */
const folder = join(process.cwd(), "samples");
for (const { path, bytes } of await drawWorkshop()) {
  writeFileSync(join(folder, path), bytes);
  process.stdout.write(`${path}: ${bytes.length} bytes\n`);
}
