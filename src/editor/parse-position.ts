import type { Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import { sheetToBuilding } from "../job/registration.ts";
import type { Job } from "../job/schema.ts";
import { type Length, toInches, type UnitSystem } from "../units/length.ts";
import { parseLength } from "../units/parse-length.ts";
import { fail, ok, type Result } from "../units/problem.ts";

/** A position as it was typed. */
export type Position =
  /** In sheet space. */
  | { readonly is: "sheet"; readonly at: Point2 }
  /** From the last point, in the building; right and up as the sheet is displayed. */
  | { readonly is: "from-last"; readonly right: Length; readonly up: Length };

/** Whether a text is meant as a position: `@…`, or two parts with a comma between. */
export const isPositionText = (text: string): boolean => /^\s*@/.test(text) || /^[^,]+,[^,]+$/.test(text);

/**
 * Reads `12'-6", -4'-0"` (right and up from the last point, in the building) or `@100, 200` (sheet space). A zero needs no unit.
 * Problems: `position.not-a-position`, and those of `parseLength`.
 */
export function parsePosition(text: string, system: UnitSystem): Result<Position> {
  const exact = /^\s*@\s*(-?\d+(?:\.\d+)?)\s*,\s*(-?\d+(?:\.\d+)?)\s*$/.exec(text);
  if (exact) return ok({ is: "sheet", at: [Number(exact[1]), Number(exact[2])] });
  const parts = text.split(",");
  if (parts.length !== 2 || /^\s*@/.test(text)) return fail("position.not-a-position", "", { text: text.trim() });
  const [right, up] = parts.map((part) => lengthOrZero(part, system));
  if (!right!.ok) return right!;
  if (!up!.ok) return up!;
  return ok({ is: "from-last", right: right!.value, up: up!.value });
}

const lengthOrZero = (text: string, system: UnitSystem): Result<Length> =>
  /^\s*[-+]?0\s*$/.test(text)
    ? ok({ value: 0, unit: system === "metric" ? "mm" : "in" })
    : parseLength(text, system === "metric" ? "mm" : undefined);

/**
 * The place a typed position names, in sheet space. Problems: `position.no-start` without a point to start from, and those of
 * `sheetToBuilding` where the viewport has no scale.
 */
export function placeOf(job: Job, viewport: Id | null, from: Point2 | null, position: Position): Result<Point2> {
  if (position.is === "sheet") return ok(position.at);
  if (from === null) return fail("position.no-start");
  const perInch = sheetPerInch(job, viewport);
  if (!perInch.ok) return perInch;
  const [dx, dy] = asDisplayed(
    [toInches(position.right) * perInch.value, toInches(position.up) * perInch.value],
    job.sheets[job.viewports[viewport ?? ""]?.sheet ?? ""]?.rotate ?? 0,
  );
  return ok([from[0] + dx, from[1] + dy]);
}

/** How many units of its sheet an inch of the building is in a viewport. Problems: `tool.no-viewport`, and those of `sheetToBuilding`. */
export function sheetPerInch(job: Job, viewport: Id | null): Result<number> {
  if (viewport === null || !job.viewports[viewport]) return fail("tool.no-viewport");
  const registration = sheetToBuilding(job, viewport);
  return registration.ok ? ok(1 / registration.value.sim.scale) : registration;
}

/** A step right and up as a page with /Rotate `rotate` (clockwise) is displayed, as a step in its sheet space. Exact. */
export function asDisplayed([right, up]: Point2, rotate: 0 | 90 | 180 | 270): Point2 {
  if (rotate === 90) return [-up, right];
  if (rotate === 180) return [-right, -up];
  if (rotate === 270) return [up, -right];
  return [right, up];
}
