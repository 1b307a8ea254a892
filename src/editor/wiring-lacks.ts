import { changedIds } from "../job/changed-records.ts";
import { type Element, runsIn, tagsOf } from "../job/elements/element.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { findRacewaySize } from "../trade/raceways.ts";

/** What an element may lack, in the order it is told. */
export const WIRING_LACKS = [
  "elements-without-tag",
  "wiring-without-size",
  "entries-without-conductor",
  "entries-without-protection",
] as const;
type WiringLack = (typeof WIRING_LACKS)[number];

const isLacking: Readonly<Record<WiringLack, (element: Element) => boolean>> = {
  "elements-without-tag": (element) => {
    const tags = tagsOf(element);
    return tags.length > 0 && tags.every(({ tag }) => tag === null);
  },
  "wiring-without-size": (element) =>
    runsIn(element).some(
      ({ wiring: { type, tradeSize, outsideDiameter, section } }) =>
        outsideDiameter === null && section === undefined && findRacewaySize(type, tradeSize) === undefined,
    ),
  "entries-without-conductor": (element) => "conductor" in element && element.conductor === null,
  "entries-without-protection": (element) => "protection" in element && element.protection.is === "not-recorded",
};

/** What the elements of a job lack, and where they are. */
export interface WiringState {
  /** How many elements there are. */
  readonly count: number;
  /** The ids of those that lack something, in no order. */
  readonly lacking: Readonly<Record<WiringLack, ReadonlySet<Id>>>;
  /** How many elements lie in each viewport; one without any is absent. */
  readonly viewports: ReadonlyMap<Id, number>;
}

/** The elements of the job asked about last: after an edit only those it touched are looked at again. */
class Counted implements WiringState {
  job: Job | undefined;
  count = 0;
  readonly lacking = {
    "elements-without-tag": new Set<Id>(),
    "wiring-without-size": new Set<Id>(),
    "entries-without-conductor": new Set<Id>(),
    "entries-without-protection": new Set<Id>(),
  } satisfies Record<WiringLack, Set<Id>>;
  readonly viewports = new Map<Id, number>();

  /** Counts an element in, or out. */
  change(id: Id, element: Element | undefined, by: 1 | -1): void {
    if (!element) return;
    this.count += by;
    const there = (this.viewports.get(element.viewport) ?? 0) + by;
    if (there === 0) this.viewports.delete(element.viewport);
    else this.viewports.set(element.viewport, there);
    for (const lack of WIRING_LACKS)
      if (by === -1) this.lacking[lack].delete(id);
      else if (isLacking[lack](element)) this.lacking[lack].add(id);
  }
}
let counted = new Counted();

/** What the elements of a job lack. The answer holds until this is asked of another job. */
export function wiringState(job: Job): WiringState {
  const before = counted.job;
  if (before === job) return counted;
  if (!before) {
    counted = new Counted();
    for (const id in job.elements) counted.change(id, job.elements[id], 1);
  } else
    for (const id of changedIds(before, job, "elements")) {
      counted.change(id, before.elements[id], -1);
      counted.change(id, job.elements[id], 1);
    }
  counted.job = job;
  return counted;
}
