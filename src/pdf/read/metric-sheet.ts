import { lengthsIn } from "./lengths-in-text.ts";
import type { PageContents } from "./plan-contents.ts";
import type { FoundViewport } from "./read-viewports.ts";

const IMPERIAL = /['’′"”″]/;
const SAYS_MM = /\bmm\b|\bmillimet(?:re|er)s?\b/i;
const METRIC_UNITS = new Set(["mm", "cm", "m", "km"]);

/**
 * Whether a sheet tells that a figure without a unit is in millimetres: by a scale note that is a plain ratio, by words, or by the
 * unit of the file's own viewport; and nothing on it is in feet or inches. That bare figures of a metric drawing are millimetres is
 * common practice, no source.
 */
export function tellsMillimetres(
  { geometry, scaleNotes, texts }: Pick<PageContents, "geometry" | "scaleNotes" | "texts">,
  viewports: readonly FoundViewport[] = [],
): boolean {
  const ratios = scaleNotes.filter(({ kind }) => kind === "scale");
  if (ratios.some(({ text }) => IMPERIAL.test(text))) return false;
  const tells =
    ratios.length > 0 ||
    texts.some(({ text }) => SAYS_MM.test(text)) ||
    viewports.some(({ page, measure }) => page === geometry.page && METRIC_UNITS.has(measure?.unit ?? ""));
  return tells && !texts.some((run) => lengthsIn(run).some(({ text }) => IMPERIAL.test(text)));
}
