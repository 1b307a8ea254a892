import { distance2, type Point2 } from "../../geometry/point.ts";
import { type Edit, editOf } from "../../job/edit.ts";
import type { Entry } from "../../job/elements/entry.ts";
import type { Run } from "../../job/elements/run.ts";
import type { Id } from "../../job/fields.ts";
import { nextLabel } from "../../job/labels.ts";
import type { Job } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { sameData } from "./change.ts";

/** Ends of two runs count as one place within this part of a sheet unit. */
const SAME_PLACE = 1e-3;

/**
 * Splits a run in two at one of its inner vertices: the first part keeps label and id, the second is a run of its own with the same
 * wiring and facts, and takes along the entries nearer to its end. Problems: `edit.no-such-record`, `edit.not-a`, `edit.not-inside`;
 * `edit.split-untagged` where the vertex has its elevation from its neighbours, since neither part would have it then.
 */
export function splitRun(job: Job, id: Id, vertex: number, second: Id): Result<Edit> {
  const found = runOf(job, id);
  if (!found.ok) return found;
  const run = found.value;
  if (!(vertex > 0 && vertex < run.vertices.length - 1))
    return fail("edit.not-inside", `elements/${id}`, { label: run.label });
  if (run.vertices[vertex]!.tag === null && run.vertices.some(({ tag }) => tag !== null))
    return fail("edit.split-untagged", `elements/${id}`, { label: run.label, vertex: vertex + 1 });
  const label = nextLabel(job, "run");
  const [front, back] = [run.vertices.slice(0, vertex + 1), run.vertices.slice(vertex)];
  const apart = (at: Point2, vertices: Run["vertices"]) => Math.min(...vertices.map((each) => distance2(at, each.at)));
  const moved = entriesAt(job, id).filter(([, entry]) => apart(entry.at, back) < apart(entry.at, front));
  return ok(
    editOf(job, `Split ${run.label} in two`, [
      { table: "elements", id, after: { ...run, vertices: front } },
      { table: "elements", id: second, after: { ...run, label, vertices: back } },
      ...moved.map(([entry, record]) => ({ table: "elements" as const, id: entry, after: { ...record, run: second } })),
    ]),
  );
}

/**
 * Joins another run to this one where an end of each is at one place: this one keeps label and id, the other is gone, and its entries are this
 * one's. Problems: `edit.no-such-record`, `edit.not-a`, `edit.ends-apart`, `edit.not-alike` where wiring, facts or tags at the place differ.
 */
export function joinRuns(job: Job, id: Id, other: Id): Result<Edit> {
  const [first, second] = [runOf(job, id), runOf(job, other)];
  if (!first.ok) return first;
  if (!second.ok) return second;
  const where = `elements/${other}`;
  const names = { label: first.value.label, other: second.value.label };
  const strands = id === other ? undefined : endToEnd(first.value.vertices, second.value.vertices);
  if (!strands || first.value.viewport !== second.value.viewport) return fail("edit.ends-apart", where, names);
  const [front, back] = strands;
  const [a, b] = [front.at(-1)!.tag, back[0]!.tag];
  const { vertices: _, label: _own, ...like } = first.value;
  const { vertices: _theirs, label: _other, ...their } = second.value;
  if (!sameData(like, their) || (a !== null && b !== null && !sameData(a, b)))
    return fail("edit.not-alike", where, names);
  const meeting = { ...front.at(-1)!, tag: a ?? b };
  const vertices = [...front.slice(0, -1), meeting, ...back.slice(1)];
  return ok(
    editOf(job, `Join ${names.other} to ${names.label}`, [
      { table: "elements", id, after: { ...first.value, vertices } },
      { table: "elements", id: other, after: null },
      ...entriesAt(job, other).map(([entry, record]) => ({
        table: "elements" as const,
        id: entry,
        after: { ...record, run: id },
      })),
    ]),
  );
}

/** The runs that have an end where this one has one, by id: those it may be joined to. */
export function meetingRuns(job: Job, id: Id): Id[] {
  const run = runOf(job, id);
  if (!run.ok) return [];
  const { viewport, vertices } = run.value;
  return Object.entries(job.elements).flatMap(([other, element]) =>
    other !== id && "wiring" in element && element.viewport === viewport && endToEnd(vertices, element.vertices)
      ? [other]
      : [],
  );
}

/** The vertices of one and then of another, each turned as needed, so that they meet; undefined where no ends do. */
function endToEnd(one: Run["vertices"], other: Run["vertices"]): [Run["vertices"], Run["vertices"]] | undefined {
  const meets = (a: Run["vertices"][number] | undefined, b: Run["vertices"][number] | undefined): boolean =>
    a !== undefined && b !== undefined && distance2(a.at, b.at) <= SAME_PLACE;
  if (meets(one.at(-1), other[0])) return [one, other];
  if (meets(one.at(-1), other.at(-1))) return [one, other.toReversed()];
  if (meets(one[0], other.at(-1))) return [other, one];
  if (meets(one[0], other[0])) return [other.toReversed(), one];
  return undefined;
}

const entriesAt = (job: Job, run: Id): [Id, Entry][] =>
  Object.entries(job.elements).filter((pair): pair is [Id, Entry] => "run" in pair[1] && pair[1].run === run);

function runOf(job: Job, id: Id): Result<Run> {
  const run = job.elements[id];
  if (!run) return fail("edit.no-such-record", `elements/${id}`, { id });
  return "wiring" in run ? ok(run) : fail("edit.not-a", `elements/${id}`, { label: run.label });
}
