import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

const font = (path: string): Uint8Array =>
  new Uint8Array(readFileSync(createRequire(import.meta.url).resolve(`roboto-fontface/fonts/${path}`)));

/** The faces the program is delivered with. */
export const fontBytes = {
  regular: font("roboto/Roboto-Regular.woff"),
  bold: font("roboto/Roboto-Bold.woff"),
  condensed: font("roboto-condensed/Roboto-Condensed-Regular.woff"),
};
