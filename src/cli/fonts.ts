import bold from "roboto-fontface/fonts/roboto/Roboto-Bold.woff?inline";
import regular from "roboto-fontface/fonts/roboto/Roboto-Regular.woff?inline";
import condensed from "roboto-fontface/fonts/roboto-condensed/Roboto-Condensed-Regular.woff?inline";
import type { FontFace } from "../geometry/picture.ts";

/** The faces that marks and reports are set in (Roboto and Roboto Condensed, Apache 2.0), carried inside the program. */
export function loadFonts(): Readonly<Record<FontFace, Uint8Array>> {
  return { regular: decode(regular), bold: decode(bold), condensed: decode(condensed) };
}

const decode = (address: string): Uint8Array =>
  new Uint8Array(Buffer.from(address.slice(address.indexOf(",") + 1), "base64"));
