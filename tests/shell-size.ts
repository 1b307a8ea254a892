import { readFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

/**
 * What the page loads by itself before it can show anything: the document, and every script and stylesheet it names, with all they
 * import. Bytes after gzip at its best. Parts that come later, the sheet's own among them, and workers are not of it.
 */
export function shellSize(folder: string): number {
  const page = readFileSync(join(folder, "index.html"), "utf8");
  const named = [...page.matchAll(/(?:src|href)="(\.\/[^"]+\.(?:js|css))"/g)].map(([, path]) => path!);
  const files = new Set(named);
  // A script's imports are named by the page as well; those it may have missed are followed.
  for (const file of files)
    if (file.endsWith(".js"))
      for (const [, path] of readFileSync(join(folder, file), "utf8").matchAll(
        /(?:from|import)\s*["`](\.\/[^"`]+\.js)["`]/g,
      ))
        files.add(`./assets/${path!.slice(2)}`);
  return [...files].reduce((sum, file) => sum + zipped(readFileSync(join(folder, file))), zipped(page));
}

const zipped = (content: Buffer | string): number => gzipSync(content, { level: 9 }).length;
