import type { Edit } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import { type Spot, type SpotsShape, withLine, withLines, withSpots } from "../../job/fold-lines.ts";
import type { FoldLine, Job } from "../../job/schema.ts";
import { fail, type Result } from "../../units/problem.ts";
import { setElevation } from "./areas.ts";

/** The spots of an area whose deck lies through spots; `edit.no-such-record`, or `edit.not-a` for one that lies otherwise. */
function spotsOf(job: Job, id: Id): SpotsShape | { readonly fault: ReturnType<typeof fail> } {
  const area = job.areas[id];
  if (!area) return { fault: fail("edit.no-such-record", `areas/${id}`, { id }) };
  const { shape } = area.elevation;
  return shape.is === "spots" ? shape : { fault: fail("edit.not-a", `areas/${id}`, { label: area.label }) };
}

/** Gives a deck spots, in the order given; lines go with the spots that stay. `from`: where each was before, counted from 0. Problems: those of `setElevation`. */
export function setSpots(
  job: Job,
  id: Id,
  spots: readonly Spot[],
  from: readonly (number | undefined)[],
): Result<Edit> {
  const before = job.areas[id]?.elevation.shape;
  const shape = before?.is === "spots" ? before : ({ is: "spots", spots: [] } as const);
  return setElevation(job, id, { shape: withSpots({ ...shape, spots: [...shape.spots] }, spots, from) });
}

/** Takes a spot out, counted from 0, and the lines that end at it. Problems: those of `setElevation`. */
export function removeSpot(job: Job, id: Id, spot: number): Result<Edit> {
  const shape = spotsOf(job, id);
  if ("fault" in shape) return shape.fault;
  const numbers = shape.spots.map((_, i) => i).filter((i) => i !== spot);
  return setSpots(
    job,
    id,
    numbers.map((i) => shape.spots[i]!),
    numbers,
  );
}

/** Draws a line the deck folds along. Problems: those of `withLine`. */
export function addFoldLine(job: Job, id: Id, line: FoldLine): Result<Edit> {
  const shape = spotsOf(job, id);
  if ("fault" in shape) return shape.fault;
  const folded = withLine(shape, line);
  return folded.ok ? setElevation(job, id, { shape: folded.value }) : folded;
}

/** Changes what a line is called, counted from 0, or takes it out (null). */
export function setFoldLine(job: Job, id: Id, line: number, kind: FoldLine["kind"] | null): Result<Edit> {
  const shape = spotsOf(job, id);
  if ("fault" in shape) return shape.fault;
  const { lines = [] } = shape;
  const one = lines[line];
  if (!one) return fail("edit.no-such-record", `areas/${id}/elevation/shape/lines/${line}`, { id });
  const others = kind === null ? lines.toSpliced(line, 1) : lines.with(line, { ...one, kind });
  return setElevation(job, id, { shape: withLines(shape, others) });
}
