import type { Point2 } from "../../geometry/point.ts";
import { type Ring, ringProblems } from "../../geometry/polygon.ts";
import type { Length } from "../../units/length.ts";
import { fail, ok, type Result } from "../../units/problem.ts";

/** Refuses points with a coordinate that is no number: `edit.not-finite`. */
export const soundPoints = (where: string, points: readonly Point2[]): Result<null> =>
  points.every((point) => point.every(Number.isFinite)) ? ok(null) : fail("edit.not-finite", where);

/** Refuses a ring that crosses itself, repeats a point, has fewer than three points or no area (codes of `ringProblems`). */
export function soundRing(where: string, ring: Ring): Result<null> {
  const problems = ringProblems(ring);
  return problems.length === 0 ? ok(null) : { ok: false, problems: problems.map((one) => ({ ...one, where })) };
}

/** Refuses a length that is no number (`edit.not-finite`) or is not larger than zero (`edit.not-positive`); null is let through. */
export function soundSize(where: string, length: Length | null): Result<null> {
  if (length === null) return ok(null);
  if (!Number.isFinite(length.value)) return fail("edit.not-finite", where);
  return length.value > 0 ? ok(null) : fail("edit.not-positive", where);
}

/** Refuses a length that is no number (`edit.not-finite`) or is below zero (`edit.negative`); null is let through. */
export function soundThickness(where: string, length: Length | null): Result<null> {
  if (length === null) return ok(null);
  if (!Number.isFinite(length.value)) return fail("edit.not-finite", where);
  return length.value >= 0 ? ok(null) : fail("edit.negative", where);
}

/** Refuses an elevation that is no number (`edit.not-finite`); null is let through. */
export const soundElevation = (where: string, length: Length | null): Result<null> =>
  length === null || Number.isFinite(length.value) ? ok(null) : fail("edit.not-finite", where);

/** The problems of all, or nothing wrong. */
export function allSound(...results: readonly Result<null>[]): Result<null> {
  const problems = results.flatMap((result) => (result.ok ? [] : result.problems));
  return problems.length === 0 ? ok(null) : { ok: false, problems };
}
