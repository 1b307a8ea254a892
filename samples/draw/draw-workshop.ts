import { ceilingSheet } from "./ceiling-sheet.ts";
import { framingSheet } from "./framing-sheet.ts";
import { pdfFile } from "./pdf-file.ts";
import { loadMetrics } from "./pen.ts";

/** Layers of the set, in the order in which they are listed. */
const LAYERS = ["TITLE", "GRID", "DECK", "STEEL", "DETAILS", "WALLS", "CEILING", "LIGHTING", "RACEWAYS", "NOTES"];

/** The files of the sample, drawn anew: the same bytes each time. */
export async function drawWorkshop(): Promise<{ readonly name: string; readonly bytes: Uint8Array }[]> {
  const metrics = await loadMetrics();
  const pages = [framingSheet(metrics, LAYERS), ceilingSheet(metrics, LAYERS)];
  const bytes = pdfFile("Riverside Workshop (invented sample)", LAYERS, pages);
  return [{ name: "riverside-workshop.pdf", bytes }];
}
