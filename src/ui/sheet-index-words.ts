import { displaySize, type PageGeometry } from "../pdf/read/page-geometry.ts";
import type { PageKind } from "../pdf/read/page-survey.ts";
import { paperName } from "../pdf/read/paper-name.ts";
import type { PlanLayer } from "../pdf/read/plan-contents.ts";
import type { UnitSystem } from "../units/length.ts";
import type { IndexedPage } from "./host.ts";
import { paperSize } from "./paper-size.ts";
import { sheetNumber } from "./sheet-titles.ts";
import { counted } from "./words.ts";

/** What is on a page, as the index says it. */
export const PAGE_KIND_WORDS: Readonly<Record<PageKind, string>> = {
  drawing: "drawing",
  picture: "picture only",
  mixed: "drawing and picture",
  "no-lines": "no lines",
};

/** The size of a page: its trade size where it has exactly one, and its sides. */
export function sizeWords(geometry: PageGeometry, system: UnitSystem): string {
  const size = displaySize(geometry);
  return [paperName(size), paperSize(size, system)].filter((part) => part !== null).join(", ");
}

/** The number of a sheet for the eye: null while it is being read. */
export function numberWords({ entry }: IndexedPage): string | null {
  if (!entry) return null;
  if (entry.unreadable) return "This page cannot be read";
  return sheetNumber(entry) ?? "No sheet number found";
}

/** What is said of a page besides its number and name, each part short; what is not read yet is left out. */
export function pageFacts(
  geometry: PageGeometry,
  { entry, survey }: IndexedPage,
  layers: readonly PlanLayer[],
  system: UnitSystem,
): readonly string[] {
  const marks = entry ? Object.values(entry.annotations).reduce((sum, n) => sum + n, 0) : 0;
  const used = survey ? layersOn(survey.layers, layers).length : 0;
  return [
    sizeWords(geometry, system),
    ...(geometry.rotate === 0 ? [] : [`turned ${geometry.rotate}°`]),
    ...(survey ? [PAGE_KIND_WORDS[survey.is]] : []),
    ...(marks > 0 ? [counted(marks, "annotation")] : []),
    ...(used > 0 ? [counted(used, "layer")] : []),
  ];
}

/** The layers of a drawing that something on a page belongs to, in the order of the drawing. */
export const layersOn = (used: readonly string[], layers: readonly PlanLayer[]): readonly PlanLayer[] =>
  layers.filter(({ id }) => used.includes(id));
