import type { Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import { nextLabel } from "../job/labels.ts";
import type { Job } from "../job/schema.ts";
import { asDisplayed } from "./parse-position.ts";

/** Where the words of a note go that shows to a point, sheet space; told by whoever knows what is drawn on the sheet. */
export type WordsRoom = (at: Point2, note: { readonly label: string; readonly text: string }) => Point2;

/** How far up and to the right words stand where nobody knows what is drawn, 1/72 in. of paper. */
const BESIDE = 36;

/** A place for the words of the next note: what `room` says, or up and to the right of the point, as displayed. */
export function placeForWords(job: Job, sheet: Id, at: Point2, text: string, room: WordsRoom | null): Point2 {
  if (room) return room(at, { label: nextLabel(job, "note"), text });
  const { rotate, userUnit } = job.sheets[sheet] ?? { rotate: 0 as const, userUnit: 1 };
  const [dx, dy] = asDisplayed([BESIDE / userUnit, BESIDE / userUnit], rotate);
  return [at[0] + dx, at[1] + dy];
}
