import type { Point2 } from "../../geometry/point.ts";
import { type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job, RecordOf } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { handlesOf, type Knot, outlineOf, type ShapedTable, sheetOfRecord } from "../handles.ts";
import { viewportAt } from "../viewport-at.ts";
import { withoutIdle } from "./change.ts";

type Record_ = RecordOf<ShapedTable>;
type Strands = readonly (readonly Knot[])[];

/**
 * Moves a vertex to a place in sheet space. Vertices are counted through the strands of a record: a run's from its start; an area's
 * outline, then its holes, then the points of its slope or its spots. Problems: `edit.no-such-vertex`, `edit.no-such-record`,
 * `edit.not-finite`, and those of a ring where an outline would cross itself.
 */
export function moveVertex(job: Job, table: ShapedTable, id: Id, vertex: number, at: Point2): Result<Edit> {
  return reshape(
    job,
    table,
    id,
    (label, count, ends) =>
      count === 1 ? `Move ${label}` : `Move ${ends ? `the ${ends[vertex]}` : "a vertex"} of ${label}`,
    (strands, where) => atVertex(strands, vertex, where, (knots, i) => knots.with(i, { ...knots[i]!, at })),
  );
}

/** Puts a vertex, without a tag, into the segment that starts at vertex `after`. Problems: as `moveVertex`, and `edit.no-segment`. */
export function insertVertex(job: Job, table: ShapedTable, id: Id, after: number, at: Point2): Result<Edit> {
  const record = job[table][id] as Record_ | undefined;
  const whole = record && handlesOf(table, record).strands(record);
  return reshape(
    job,
    table,
    id,
    (label) => `Insert a vertex in ${label}`,
    (strands, where) =>
      atVertex(strands, after, where, (knots, i, strand) => {
        const { joined, closed, ends } = whole![strand]!;
        if (!joined || ends || (!closed && i === knots.length - 1)) return undefined;
        return knots.toSpliced(i + 1, 0, { at });
      }),
  );
}

/** Takes a vertex out, with its tag. Problems: as `moveVertex`, and `edit.too-few-vertices` when too few would be left. */
export function deleteVertex(job: Job, table: ShapedTable, id: Id, vertex: number): Result<Edit> {
  const record = job[table][id] as Record_ | undefined;
  const whole = record && handlesOf(table, record).strands(record);
  let least: number | undefined;
  const edit = reshape(
    job,
    table,
    id,
    (label) => `Delete a vertex of ${label}`,
    (strands, where) =>
      atVertex(strands, vertex, where, (knots, i, strand) => {
        if (knots.length <= whole![strand]!.least) {
          least = whole![strand]!.least;
          return undefined;
        }
        return knots.toSpliced(i, 1);
      }),
  );
  return least === undefined || !record
    ? edit
    : fail("edit.too-few-vertices", `${table}/${id}`, { label: record.label, least });
}

/** Moves a whole area or element by a distance in sheet space, with every point that belongs to it. */
export function moveWhole(job: Job, table: ShapedTable, id: Id, [dx, dy]: Point2): Result<Edit> {
  return reshape(
    job,
    table,
    id,
    (label) => `Move ${label}`,
    (strands) =>
      ok(strands.map((knots) => knots.map((knot) => ({ ...knot, at: [knot.at[0] + dx, knot.at[1] + dy] as const })))),
  );
}

function reshape(
  job: Job,
  table: ShapedTable,
  id: Id,
  name: (label: string, count: number, ends: readonly string[] | undefined) => string,
  change: (strands: Strands, where: string) => Result<Strands>,
): Result<Edit> {
  const where = `${table}/${id}`;
  const record = job[table][id] as Record_ | undefined;
  if (!record) return fail("edit.no-such-record", where, { id });
  const handles = handlesOf(table, record);
  const whole = handles.strands(record);
  const strands = change(
    whole.map(({ knots }) => knots),
    where,
  );
  if (!strands.ok) return strands;
  const after = inItsViewport(job, record, handles.rebuilt(record, strands.value), table);
  const sound = handles.sound(where, after);
  return sound.ok
    ? ok(
        withoutIdle(
          editOf(job, name(record.label, strands.value.flat().length, whole[0]?.ends), [{ table, id, after }]),
        ),
      )
    : sound;
}

/** The record in the viewport its first point lies in now, where it lay in its own before: what is moved to another plan takes that plan's scale. */
function inItsViewport(job: Job, before: Record_, after: Record_, table: ShapedTable): Record_ {
  if (!("viewport" in before && "viewport" in after)) return after;
  const sheet = sheetOfRecord(job, before);
  const [from, to] = [outlineOf(table, before).vertices[0], outlineOf(table, after).vertices[0]];
  if (sheet === undefined || !from || !to || viewportAt(job, sheet, from, before.viewport) !== before.viewport)
    return after;
  const viewport = viewportAt(job, sheet, to, before.viewport) ?? before.viewport;
  return viewport === before.viewport ? after : { ...after, viewport };
}

/** The strands with the one that holds a vertex replaced; `edit.no-such-vertex`, or `edit.no-segment` where `change` answers undefined. */
function atVertex(
  strands: Strands,
  vertex: number,
  where: string,
  change: (knots: readonly Knot[], i: number, strand: number) => readonly Knot[] | undefined,
): Result<Strands> {
  let start = 0;
  for (const [strand, knots] of strands.entries()) {
    if (vertex >= start && vertex < start + knots.length) {
      const changed = change(knots, vertex - start, strand);
      return changed ? ok(strands.with(strand, changed)) : fail("edit.no-segment", where);
    }
    start += knots.length;
  }
  return fail("edit.no-such-vertex", where, { vertex });
}
