import boldUrl from "roboto-fontface/fonts/roboto/Roboto-Bold.woff2?url";
import regularUrl from "roboto-fontface/fonts/roboto/Roboto-Regular.woff2?url";
import condensedUrl from "roboto-fontface/fonts/roboto-condensed/Roboto-Condensed-Regular.woff2?url";
import type { FontFace as MarkFace } from "../geometry/picture.ts";

/** The family names the marks are set in (Roboto and Roboto Condensed, Apache 2.0), apart from those of the screens. */
export const FONT_FAMILIES = { text: "Underside Sans", condensed: "Underside Sans Condensed" } as const;

/** CSS font of each face at 100 px: text is set at this size and scaled, so that its width does not depend on the zoom. */
export const FONT_AT_100_PX: Readonly<Record<MarkFace, string>> = {
  regular: `400 100px "${FONT_FAMILIES.text}", sans-serif`,
  bold: `700 100px "${FONT_FAMILIES.text}", sans-serif`,
  condensed: `400 100px "${FONT_FAMILIES.condensed}", sans-serif`,
};

let loading: Promise<void> | undefined;

/** Makes the faces known to the document, once; resolves when marks can be drawn in them (or never will be). */
export const loadMarkFonts = (): Promise<void> => {
  loading ??= Promise.allSettled(
    [
      new FontFace(FONT_FAMILIES.text, `url("${regularUrl}")`, { weight: "400" }),
      new FontFace(FONT_FAMILIES.text, `url("${boldUrl}")`, { weight: "700" }),
      new FontFace(FONT_FAMILIES.condensed, `url("${condensedUrl}")`, { weight: "400" }),
    ].map((face) => {
      document.fonts.add(face);
      return face.load();
    }),
  ).then(() => undefined);
  return loading;
};
