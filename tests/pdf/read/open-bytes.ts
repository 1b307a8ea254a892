import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { type OpenPlan, openPlan, type PdfEngine } from "../../../src/pdf/read/open-plan.ts";

const fonts = `${new URL("../../../node_modules/pdfjs-dist/standard_fonts/", import.meta.url).pathname}`;

/** Opens a drawing with the installed engine, uses it and lets go of it. Throws when it cannot be opened. */
export async function withPlan<T>(bytes: Uint8Array, use: (plan: OpenPlan) => Promise<T>): Promise<T> {
  const plan = await openPlan({ getDocument } as unknown as PdfEngine, bytes, {
    engineSettings: { standardFontDataUrl: fonts },
  });
  if (!plan.ok) throw new Error(JSON.stringify(plan.problems));
  try {
    return await use(plan.value);
  } finally {
    await plan.value.close();
  }
}
