import { parallelLine } from "../../geometry/parallel-line.ts";
import type { Point2 } from "../../geometry/point.ts";
import { type Edit, editOf } from "../../job/edit.ts";
import { type Element, namedBy, withoutNamed } from "../../job/elements/element.ts";
import type { Id } from "../../job/fields.ts";
import { nextLabel } from "../../job/labels.ts";
import type { Job } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import type { Inches } from "../../units/quantity.ts";
import { sheetPerInch } from "../parse-position.ts";
import { inOne } from "./change.ts";
import { moveWhole } from "./vertices.ts";

/**
 * The vertices of a run's parallel copies in sheet space, the nearest first, `apart` from centre to centre: to the left as it is traced, to the
 * right where negative. Problems: `edit.no-such-record`, `edit.not-a`, and those of `parallelLine` and of a viewport without a scale.
 */
export function parallelsOf(job: Job, id: Id, apart: Inches, count: number): Result<(readonly Point2[])[]> {
  const where = `elements/${id}`;
  const run = job.elements[id];
  if (!run) return fail("edit.no-such-record", where, { id });
  if (!("wiring" in run)) return fail("edit.not-a", where, { label: run.label });
  const perInch = sheetPerInch(job, run.viewport);
  if (!perInch.ok) return perInch;
  const points = run.vertices.map(({ at }) => at);
  const lines: (readonly Point2[])[] = [];
  for (let k = 1; k <= count; k++) {
    const line = parallelLine(points, k * apart * perInch.value);
    if (!line.ok)
      return {
        ok: false,
        problems: line.problems.map((one) => ({ ...one, where, params: { ...one.params, label: run.label } })),
      };
    lines.push(line.value);
  }
  return ok(lines);
}

/**
 * Lays runs like this one beside it, one for each id, all `apart` from centre to centre (to the left as it is traced, to the right where
 * negative), with its wiring and facts and its tags at the same vertices. Problems: those of `parallelsOf`.
 */
export function addParallels(job: Job, id: Id, ids: readonly Id[], apart: Inches): Result<Edit> {
  const lines = parallelsOf(job, id, apart, ids.length);
  if (!lines.ok) return lines;
  const run = job.elements[id]!;
  const name = `Lay ${ids.length === 1 ? "a run" : `${ids.length} runs`} beside ${run.label}`;
  const steps = lines.value.map((line, k) => (present: Job): Result<Edit> => {
    if (!("wiring" in run)) return fail("edit.not-a", `elements/${id}`, { label: run.label });
    const vertices = run.vertices.map(({ tag }, i) => ({ at: line[i]!, tag }));
    const after = { ...run, label: nextLabel(present, run.kind), vertices };
    return ok(editOf(present, name, [{ table: "elements", id: ids[k]!, after }]));
  });
  return inOne(job, name, steps);
}

/** A copy to be made: of which element, under which id, and how far from it on the sheet. */
export interface Copy {
  readonly of: Id;
  readonly id: Id;
  readonly by: Point2;
}

/**
 * Copies elements with everything that is recorded of them but what they are at: an entry's run and enclosure are not those of its copy. Labels are
 * the next ones; a copy that lands on another plan of the sheet belongs to that. Problems: `edit.no-such-record`, and those of `moveWhole`.
 */
export function addCopies(job: Job, copies: readonly Copy[]): Result<Edit> {
  const gone = copies.find(({ of }) => !job.elements[of]);
  if (gone) return fail("edit.no-such-record", `elements/${gone.of}`, { id: gone.of });
  const labels = [...new Set(copies.map(({ of }) => job.elements[of]!.label))];
  const of = labels.length === 1 ? labels[0]! : `${labels.length} elements`;
  const times = copies.length / Math.max(1, labels.length);
  const name = times === 1 ? `Copy ${of}` : `Copy ${of} ${times} times`;
  const steps = copies.flatMap(({ of, id, by }) => [
    (present: Job) => ok(editOf(present, name, [{ table: "elements", id, after: copyOf(present, job.elements[of]!) }])),
    (present: Job) => moveWhole(present, "elements", id, by),
  ]);
  return inOne(job, name, steps);
}

function copyOf(job: Job, element: Element): Element {
  const named = new Set(namedBy(element).map(({ id }) => id));
  return { ...withoutNamed(element, named), label: nextLabel(job, element.kind) };
}
