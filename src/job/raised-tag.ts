import { type Length, settle } from "../units/length.ts";
import { MM_PER_INCH } from "../units/quantity.ts";
import type { Tag } from "./fields.ts";

/** How many of a unit make an inch. */
const perInch: Readonly<Record<Length["unit"], number>> = { in: 1, ft: 1 / 12, mm: MM_PER_INCH, m: MM_PER_INCH / 1000 };

/**
 * A tag with what it names so many inches higher, lower where negative, in the unit it was given in; feet in inches, of which fractions are
 * exact. A tag below the deck counts downwards: higher means less.
 */
export function raisedTag(tag: Tag, byIn: number): Tag {
  const by = tag.datum.from === "below-deck" ? -byIn : byIn;
  const { value, unit } = tag.length;
  const length: Length =
    unit === "ft"
      ? { value: settle(value * 12 + by), unit: "in" }
      : { value: settle(value + by * perInch[unit]), unit };
  return { ...tag, length };
}
