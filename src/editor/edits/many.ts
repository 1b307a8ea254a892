import type { Edit } from "../../job/edit.ts";
import { type Element, tagsOf } from "../../job/elements/element.ts";
import type { ElementFacts, Id, Tag } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { Result } from "../../units/problem.ts";
import type { Inches } from "../../units/quantity.ts";
import { inOne } from "./change.ts";
import { setFacts, setTag } from "./elements.ts";
import { raiseTag } from "./raise-tag.ts";

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
  const steps = ids
    .filter((id) => tagsOf(job.elements[id]!).length > 0)
    .map((id) => (present: Job) => setTag(present, id, "all", tag));
  return inOne(job, `Give ${counted(job, ids)} one tag`, steps);
}

/** Records facts of several elements as one edit; those of kinds without them are left out. Problems: those of `setFacts`. */
export function factsMany(job: Job, ids: readonly Id[], facts: Partial<ElementFacts>): Result<Edit> {
  const steps = ids
    .filter((id) => "facts" in job.elements[id]!)
    .map((id) => (present: Job) => setFacts(present, id, facts));
  return inOne(job, `Record facts of ${counted(job, ids)}`, steps);
}

/** "R-4", or "12 elements". */
function counted(job: Job, ids: readonly Id[]): string {
  const only: Element | undefined = ids.length === 1 ? job.elements[ids[0]!] : undefined;
  return only ? only.label : `${ids.length} elements`;
}
