import type { Region } from "../editor/region.ts";
import type { Sheet } from "../job/schema.ts";
import type { FoundViewport } from "../pdf/read/read-viewports.ts";
import { parseScaleNote, type ScaleNote } from "../units/scale-note.ts";
import { roundedScale } from "./cards/rounded-scale.ts";

/** A view the file names on a page, with the scale it claims for it; null where that cannot be read. */
export interface OfferedView {
  readonly name: string;
  readonly region: Region;
  readonly scale: ScaleNote | null;
}

/** Sides this near to one another are the same side, sheet units. */
const SAME = 0.5;
/** The words of a scale and its number may differ by so much and mean the same: the number is often rounded. */
const AGREES = 1e-3;

/**
 * What the file of a sheet offers as parts with a scale of their own: its viewports with a rectilinear measure, cut to the page, without those
 * the job has already. A claim of the file, to be accepted by a person.
 */
export function viewsOffered(
  found: readonly FoundViewport[],
  { page, view }: Pick<Sheet, "page" | "view">,
  present: readonly Region[],
): readonly OfferedView[] {
  return found.flatMap(({ page: on, name, box, measure }) => {
    if (on !== page || measure?.kind !== "rectilinear") return [];
    const [x0, y0] = [Math.max(box[0], view[0]), Math.max(box[1], view[1])];
    const [x1, y1] = [Math.min(box[2], view[2]), Math.min(box[3], view[3])];
    const region: Region = [x0, y0, x1, y1];
    if (x1 - x0 <= SAME || y1 - y0 <= SAME || present.some((one) => isSame(one, region))) return [];
    return [{ name, region, scale: scaleOf(measure.text, measure.ratio) }];
  });
}

const isSame = (a: Region, b: Region): boolean => a.every((side, i) => Math.abs(side - b[i]!) <= SAME);

/** The scale in the file's own words where they agree with its numbers, else in ours. */
function scaleOf(text: string, ratio: number | undefined): ScaleNote | null {
  if (ratio === undefined || !(ratio > 0) || !Number.isFinite(ratio)) return null;
  const worded = parseScaleNote(text);
  if (worded.ok && Math.abs(worded.value.ratio / ratio - 1) < AGREES) return worded.value;
  return { text: roundedScale(ratio), ratio };
}
