import type { Edit } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import { fail, type Result } from "../../units/problem.ts";
import { formatScale } from "../../units/scale-note.ts";
import { type ScaleSource, setMeasuredScale, stateScale } from "../edits/scale.ts";
import type { DrawnScale } from "./drawn-words.ts";

const SOURCES: Readonly<Record<DrawnScale["kind"], ScaleSource>> = {
  note: "note",
  "sheet-note": "title-block",
  viewport: "file",
  bar: "scale-bar",
  dimensions: "dimensions",
};

/**
 * Gives a viewport the scale that something on its sheet tells, and records what that was: what is claimed as the stated scale, what is drawn to
 * be measured as the measured one, by the two places and the length written between them. Problems: those of `stateScale` and `setMeasuredScale`.
 */
export function takeScale(job: Job, viewport: Id, { kind, text, ratio, stretch }: DrawnScale): Result<Edit> {
  const source = SOURCES[kind];
  if (stretch) {
    const [a, b] = stretch.ends;
    return setMeasuredScale(job, viewport, a, b, { value: stretch.length, unit: "in" }, source);
  }
  if (!(ratio > 0)) return fail("scale.not-given", `viewports/${viewport}/scale`, { viewport, scale: "stated" });
  return stateScale(job, viewport, { text: kind === "viewport" ? formatScale(ratio) : text, ratio }, source);
}
