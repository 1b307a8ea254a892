import { createRequire } from "node:module";
import { dirname, join } from "node:path";

/** Where pdf.js finds its character maps and fonts: in its own package. */
export function engineSettings(): Record<string, unknown> {
  const folder = dirname(createRequire(import.meta.url).resolve("pdfjs-dist/package.json"));
  return {
    cMapUrl: `${join(folder, "cmaps")}/`,
    cMapPacked: true,
    standardFontDataUrl: `${join(folder, "standard_fonts")}/`,
  };
}
