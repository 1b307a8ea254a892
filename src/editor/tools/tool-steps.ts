import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { LengthUnit } from "../../units/length.ts";
import { fail, ok, type Problem, type Result } from "../../units/problem.ts";
import type { ToolContext } from "../tool.ts";
import { viewportAt } from "../viewport-at.ts";

/** The first problem of a failed result, as part of a tool's answer. */
export const problemOf = (failed: { readonly problems: readonly Problem[] }): { readonly problem: Problem } => ({
  problem: failed.problems[0] ?? { code: "edit.no-such-record", where: "", params: {} },
});

/** The unit a bare number is in: millimetres in a metric job, none otherwise. */
export const unitOf = (job: Job): LengthUnit | undefined => (job.settings.job.system === "metric" ? "mm" : undefined);

/** The viewport asked for, or selected, or shown. */
export function chosenViewport({ job, selection, viewport, sheet }: ToolContext, asked: Id | undefined): Result<Id> {
  const selected = selection && "table" in selection && selection.table === "viewports" ? selection.id : null;
  const id = asked ?? selected ?? viewport;
  if (id !== null && id in job.viewports) return ok(id);
  return fail(sheet === null ? "tool.no-sheet" : "tool.no-viewport");
}

/** The area asked for, or selected. */
export function chosenArea({ job, selection }: ToolContext, asked: Id | undefined): Result<Id> {
  const selected = selection && "table" in selection && selection.table === "areas" ? selection.id : undefined;
  const id = asked ?? selected;
  return id !== undefined && id in job.areas ? ok(id) : fail("tool.no-area");
}

/** The sheet an area is traced on. */
export const sheetOfArea = (job: Job, area: Id): Id | null =>
  job.viewports[job.areas[area]?.viewport ?? ""]?.sheet ?? null;

/** Whether things can be put on the shown sheet at all. */
export function readySheet({ job, sheet }: ToolContext): Result<Id> {
  if (sheet === null || !(sheet in job.sheets)) return fail("tool.no-sheet");
  return Object.values(job.viewports).some((viewport) => viewport.sheet === sheet)
    ? ok(sheet)
    : fail("tool.no-viewport");
}

/** The viewport a thing belongs to whose first point is `at`. */
export function viewportFor({ job, sheet, viewport }: ToolContext, at: Point2): Result<Id> {
  const found = sheet === null ? null : viewportAt(job, sheet, at, viewport);
  return found === null ? fail("tool.no-viewport") : ok(found);
}

/** Whether a point lies in a viewport rather than in a part of the sheet with a scale of its own: `tool.other-viewport` where not. */
export function inViewport({ job, sheet }: ToolContext, viewport: Id, at: Point2): Result<null> {
  const inside = sheet !== null && viewportAt(job, sheet, at, viewport) === viewport;
  return inside ? ok(null) : fail("tool.other-viewport", "", { viewport: job.viewports[viewport]?.name ?? "" });
}

/** Where a point was asked for that went to `at`: what attracts a point must not decide what lies round it. A typed place is itself. */
export const askedFor = (at: Point2, { place, reach }: ToolContext): Point2 =>
  place && distance2(place, at) <= reach ? place : at;

/** Whether a point is the last one again: the second half of a double click, or Enter without moving. */
export const repeats = (points: readonly Point2[], at: Point2): boolean => {
  const last = points.at(-1);
  return last !== undefined && last[0] === at[0] && last[1] === at[1];
};
