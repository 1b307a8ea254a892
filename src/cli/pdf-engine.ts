import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { type OpenPlan, openPlan } from "../pdf/read/open-plan.ts";
import type { Result } from "../units/problem.ts";

/** What a drawing is called in messages, and the password that opens it, where they are known. */
export interface DrawingOptions {
  readonly name?: string | undefined;
  readonly password?: string | undefined;
}

/** Opens a drawing with pdf.js, which takes over the bytes it is given. Close what is opened. Problems: those of `openPlan`. */
export async function openDrawing(bytes: Uint8Array, { name, password }: DrawingOptions): Promise<Result<OpenPlan>> {
  const { getDocument } = await import("pdfjs-dist/legacy/build/pdf.mjs");
  return openPlan({ getDocument }, bytes, {
    engineSettings: engineSettings(),
    ...(name === undefined ? {} : { name }),
    ...(password === undefined ? {} : { password }),
  });
}

/** Where pdf.js finds its character maps and fonts: in its own package. */
function engineSettings(): Record<string, unknown> {
  const folder = dirname(createRequire(import.meta.url).resolve("pdfjs-dist/package.json"));
  return {
    cMapUrl: `${join(folder, "cmaps")}/`,
    cMapPacked: true,
    standardFontDataUrl: `${join(folder, "standard_fonts")}/`,
  };
}
