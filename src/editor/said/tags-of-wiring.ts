import { type Element, tagsOf } from "../../job/elements/element.ts";
import type { Id, Tag } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import { ok } from "../../units/problem.ts";
import { setTag } from "../edits/elements.ts";
import type { DrawnTag } from "./drawn-words.ts";
import { distanceToPlace, placesOf } from "./near-text.ts";
import { readAsTag } from "./read-tag.ts";
import { sameElevation } from "./same-elevation.ts";
import type { Assumed, Lacking, Meaning } from "./suggestion.ts";
import { labelsIn, type Tie } from "./tie.ts";

/** A tag with what it is tied to. */
export interface TiedTag {
  readonly tag: DrawnTag;
  readonly tie: Tie;
}

/** What the tags that are tied to wiring mean, tag by tag; `sure` where that is one thing beyond doubt. */
export function meaningsOfTags(
  job: Job,
  tied: readonly TiedTag[],
  assumed: Assumed,
): ReadonlyMap<DrawnTag, { readonly meanings: readonly Meaning[]; readonly sure: boolean }> {
  const onElement = new Map<Id, TiedTag[]>();
  for (const one of tied) for (const id of one.tie.ids) onElement.set(id, [...(onElement.get(id) ?? []), one]);
  return new Map(
    tied.map(({ tag, tie }) => {
      const places = tie.ids.flatMap((id) => {
        const element = job.elements[id]!;
        const vertices = verticesOf(element, tag, onElement.get(id)!);
        return vertices.map((vertex) => ({ id, element, vertex }));
      });
      const meanings = places.map((place) => meaningOf(job, place, tag, assumed));
      return [tag, { meanings, sure: tie.sure && meanings.length === 1 }];
    }),
  );
}

/**
 * Which vertices of an element a tag may be of: all, unless others that may be of it say something else; then the end it stands at, or either
 * end. A tag in the line that names the element is of all of it, unless another is beyond doubt of it too.
 */
function verticesOf(element: Element, tag: DrawnTag, all: readonly TiedTag[]): readonly (number | "all")[] {
  const isNamed = labelsIn(tag.run.text).includes(element.label);
  const different = all.flatMap((one) => (sameReading(one.tag, tag) || (isNamed && !one.tie.sure) ? [] : [one.tag]));
  if (!("vertices" in element) || different.length === 0) return ["all"];
  const last = element.vertices.length - 1;
  const ends = [0, last] as const;
  const places = placesOf(element);
  const endOf = (one: DrawnTag): number =>
    distanceToPlace(one.run, places[0]!) <= distanceToPlace(one.run, places[last]!) ? 0 : last;
  const own = endOf(tag);
  // Two in one line, 15'-8" TO 15'-4", stand at one end alike: which is of which is not said.
  return different.every((one) => endOf(one) !== own) ? [own] : ends;
}

const sameReading = (a: DrawnTag, b: DrawnTag): boolean =>
  a.value === b.value && a.basis === b.basis && a.from === b.from;

interface Place {
  readonly id: Id;
  readonly element: Element;
  readonly vertex: number | "all";
}

function meaningOf(job: Job, { id, element, vertex }: Place, tag: DrawnTag, assumed: Assumed): Meaning {
  const read = readAsTag(job, tag, element.viewport, assumed);
  const tags = tagsOf(element)
    .map((one) => one.tag)
    .filter((_, i) => vertex === "all" || i === vertex);
  const present = tags.filter((one): one is Tag => one !== null);
  const other = present.find((one) => !agrees(job, read, one));
  // Between two tags a run is straight: those at its ends are enough.
  const whole = tags.length > 0 && tags[0] !== null && tags.at(-1) !== null;
  const same = whole && !other;
  const recorded = other ?? present[0] ?? null;
  const { length, basis, datum, plusMinus } = read;
  const lacks: Lacking[] = [
    ...(basis === null ? (["basis"] as const) : []),
    ...(datum === null ? (["datum"] as const) : []),
  ];
  return {
    target: { is: "element", id, vertex },
    read,
    recorded: recorded && { is: "tag", ...recorded },
    stands: same ? "same" : other ? "other" : "open",
    lacks,
    accept:
      basis === null || datum === null || same
        ? null
        : (present) =>
            present.elements[id]
              ? setTag(present, id, vertex, { length, datum, basis, plusMinus })
              : ok({ name: "", changes: [] }),
  };
}

const agrees = (job: Job, read: ReturnType<typeof readAsTag>, recorded: Tag): boolean =>
  (read.basis === null || read.basis === recorded.basis) && sameElevation(job, read, recorded);
