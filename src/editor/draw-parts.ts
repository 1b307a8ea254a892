import type { Picture } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { DraftPen } from "./draft.ts";
import { partsOf } from "./edits/sheets.ts";
import { asDisplayed } from "./parse-position.ts";
import { cornersOf } from "./region.ts";

/** The parts of a sheet with a scale of their own: a faint dashed rectangle and a name each, a solid one where it is the selected viewport. Sheet space. */
export function drawParts(job: Job, sheet: Id, selected: Id | null, pixel: number): Picture {
  const pen = new DraftPen(pixel);
  const rotate = job.sheets[sheet]?.rotate ?? 0;
  const [right, up] = [asDisplayed([1, 0], rotate), asDisplayed([0, 1], rotate)];
  return partsOf(job, sheet).flatMap(([id, { name, region }]) => {
    const [x0, y0, x1, y1] = region!;
    // The name stands at the upper left corner as the page is displayed.
    const [x, y] = [right[0] < 0 || up[0] > 0 ? x1 : x0, right[1] < 0 || up[1] > 0 ? y1 : y0];
    const place = (along: number, down: number): Point2 => [
      x + along * right[0] - down * up[0],
      y + along * right[1] - down * up[1],
    ];
    const style = id === selected ? { closed: true } : { closed: true, dashed: true, faint: true };
    return [...pen.line(cornersOf(region!), style), ...pen.text(name, place(6 * pixel, 15 * pixel), right)];
  });
}
