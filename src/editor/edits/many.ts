import type { Point2 } from "../../geometry/point.ts";
import { apply, type Edit } from "../../job/edit.ts";
import { type Element, tagsOf } from "../../job/elements/element.ts";
import type { Run } from "../../job/elements/run.ts";
import type { ElementFacts, Id, Tag } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import { fail, type Result } from "../../units/problem.ts";
import type { Inches } from "../../units/quantity.ts";
import type { Picked } from "../selection.ts";
import { classifyArea, type SaidOfArea } from "./areas.ts";
import { eachByItself, inOne } from "./change.ts";
import { setFacts, setTag, setWiring } from "./elements.ts";
import { raiseTag } from "./raise-tag.ts";
import { joinRuns, meetingRuns } from "./split-run.ts";
import { moveWhole } from "./vertices.ts";

/** Raises every tag of several elements by so much, lowers them where negative, as one edit. Problems: those of `raiseTag`. */
export function raiseMany(job: Job, ids: readonly Id[], by: Inches): Result<Edit> {
  const steps = ids.flatMap((id) =>
    tagsOf(job.elements[id]!).flatMap(({ tag }, vertex) =>
      tag ? [(present: Job) => raiseTag(present, id, vertex, by)] : [],
    ),
  );
  return inOne(job, `${by < 0 ? "Lower" : "Raise"} ${counted(job, ids)}`, steps);
}

/** Gives every vertex of several elements one tag, as one edit; those without room for a tag are left out. Problems: those of `setTag`. */
export function tagMany(job: Job, ids: readonly Id[], tag: Tag): Result<Edit> {
  const edits = ids.filter((id) => tagsOf(job.elements[id]!).length > 0).map((id) => setTag(job, id, "all", tag));
  return eachByItself(job, `Give ${counted(job, ids)} one tag`, edits);
}

/** Records facts of several elements as one edit; those of kinds without them are left out. Problems: those of `setFacts`. */
export function factsMany(job: Job, ids: readonly Id[], facts: Partial<ElementFacts>): Result<Edit> {
  const edits = ids.filter((id) => "facts" in job.elements[id]!).map((id) => setFacts(job, id, facts));
  return eachByItself(job, `Record facts of ${counted(job, ids)}`, edits);
}

/** Gives several runs the raceway or cable and size named, as one edit; elements that are no runs are left out. Problems: those of `setWiring`. */
export function wireMany(job: Job, ids: readonly Id[], wiring: Partial<Run["wiring"]>): Result<Edit> {
  const edits = ids.filter((id) => "wiring" in job.elements[id]!).map((id) => setWiring(job, id, wiring));
  return eachByItself(job, `Change the wiring of ${counted(job, ids)}`, edits);
}

/** Settles what several areas are, as one edit. Problems: those of `classifyArea`. */
export const settleMany = (job: Job, ids: readonly Id[], is: SaidOfArea["is"] & string): Result<Edit> =>
  eachByItself(
    job,
    `Settle what ${ids.length} areas are`,
    ids.map((id) => classifyArea(job, id, { is })),
  );

/**
 * Joins several runs that meet end to end to one, which keeps label and id of the first, as one edit. Problems: those of `joinRuns`;
 * `edit.ends-apart` where one meets none of the others.
 */
export function joinMany(job: Job, [first, ...rest]: readonly Id[]): Result<Edit> {
  if (first === undefined) return fail("edit.no-such-record", "elements");
  const label = job.elements[first]?.label ?? first;
  const steps: ((present: Job) => Result<Edit>)[] = [];
  const left = new Set(rest);
  for (let present = job; left.size > 0; ) {
    const meeting = meetingRuns(present, first).filter((id) => left.has(id));
    const other = meeting[0] ?? [...left][0]!;
    const edit = joinRuns(present, first, other);
    if (!edit.ok) return edit;
    present = apply(present, edit.value);
    steps.push((now) => joinRuns(now, first, other));
    left.delete(other);
  }
  return inOne(job, `Join ${rest.length + 1} runs to ${label}`, steps);
}

/** Moves several things by the same distance in sheet space, as one edit. Problems: those of `moveWhole`. */
export const moveMany = (job: Job, things: readonly Picked[], by: Point2): Result<Edit> =>
  eachByItself(
    job,
    `Move ${things.length} things`,
    things.map(({ table, id }) => moveWhole(job, table, id, by)),
  );

/** "R-4", or "12 elements". */
function counted(job: Job, ids: readonly Id[]): string {
  const only: Element | undefined = ids.length === 1 ? job.elements[ids[0]!] : undefined;
  return only ? only.label : `${ids.length} elements`;
}
