import { type Element, runsIn, tagsOf } from "../job/elements/element.ts";
import type { Id } from "../job/fields.ts";
import { inLabelOrder } from "../job/label-order.ts";
import type { Job } from "../job/schema.ts";
import { type Length, toInches } from "../units/length.ts";

/** What wiring is looked for; null asks nothing. Elevations are those of the tags as they are given, whatever surface they name. */
export interface WiringQuery {
  /** Row of the raceway table. */
  readonly type: string | null;
  readonly tradeSize: string | null;
  /** At least one tag is higher than this, or lower than that. A tag below a deck tells no elevation and is neither. */
  readonly above: Length | null;
  readonly below: Length | null;
}

/** The query that asks nothing: all wiring answers it. */
export const ANY_WIRING: WiringQuery = { type: null, tradeSize: null, above: null, below: null };

/** The elements that answer a query, in the order of their labels. A rack answers where one of its raceways does. */
export function findWiring(job: Job, query: WiringQuery): Id[] {
  return Object.entries(job.elements)
    .filter(([, element]) => isOfKind(element, query) && isAtHeight(element, query))
    .sort(([, a], [, b]) => inLabelOrder(a.label, b.label))
    .map(([id]) => id);
}

function isOfKind(element: Element, { type, tradeSize }: WiringQuery): boolean {
  if (type === null && tradeSize === null) return true;
  return runsIn(element).some(
    ({ wiring }) => (type === null || wiring.type === type) && (tradeSize === null || wiring.tradeSize === tradeSize),
  );
}

function isAtHeight(element: Element, { above, below }: WiringQuery): boolean {
  const heights = tagsOf(element).flatMap(({ tag }) =>
    tag && tag.datum.from !== "below-deck" ? [toInches(tag.length)] : [],
  );
  const [floor, ceiling] = [above && toInches(above), below && toInches(below)];
  return (
    (floor === null || heights.some((height) => height > floor)) &&
    (ceiling === null || heights.some((height) => height < ceiling))
  );
}
