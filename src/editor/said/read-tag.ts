import type { Id, Tag } from "../../job/fields.ts";
import type { Area, Job } from "../../job/schema.ts";
import type { Length } from "../../units/length.ts";
import { type Inches, MM_PER_INCH } from "../../units/quantity.ts";
import type { DrawnTag } from "./drawn-words.ts";
import type { Assumed, Read } from "./suggestion.ts";

const METRIC = /\dm\b|mm\b|\d\.\d{2,3}(?!\s*(?:['’′"”″]|ft|in))/i;
/** Surfaces of a structure, which no tag of a raceway names. */
const OF_DECKS = new Set([
  "steel",
  "deck",
  "slab",
  "concrete",
  "joist",
  "beam",
  "roofing",
  "roof",
  "wall",
  "parapet",
  "footing",
  "masonry",
]);

/** A length as the sheet writes it: in inches, or in millimetres where it is metric. */
function lengthRead(value: Inches, text: string): Length {
  return METRIC.test(text)
    ? { value: Number((value * MM_PER_INCH).toFixed(3)), unit: "mm" }
    : { value: Number(value.toFixed(6)), unit: "in" };
}

/** Whether a tag names a surface of the structure, so that it is of no raceway. */
export const isOfStructure = ({ surface }: DrawnTag): boolean => surface !== null && OF_DECKS.has(surface);

/**
 * The storey whose floor a tag counts from: the one it names after AFF (A.F.F. MEZZ.), else that of the viewport, else the only one there is.
 * Null where it names one that the job does not have, or where none can be told.
 */
function floorOf(job: Job, { text, run }: DrawnTag, viewport: Id | null): Area["elevation"]["datum"] | null {
  const line = run.text.replace(/\s+/g, " ");
  const after = line.slice(line.indexOf(text) + text.length);
  const word = /^[\s,]*(?:of\s+)?([A-Z][A-Z]{2,}\.?(?:\s+\d+)?|L\d+)/i
    .exec(after)?.[1]
    ?.replace(/\.$/, "")
    .toLowerCase();
  if (word !== undefined && !/^(?:verify|typ|max|min|unless|and|or|to|at)/.test(word)) {
    const named = Object.entries(job.storeys).filter(([, { name }]) => name.toLowerCase().startsWith(word));
    return named.length === 1 ? { from: "storey", storey: named[0]![0] } : null;
  }
  const own = viewport === null ? null : (job.viewports[viewport]?.storey ?? null);
  const ids = Object.keys(job.storeys);
  const storey = own ?? (ids.length === 1 ? ids[0]! : null);
  return storey === null ? null : { from: "storey", storey };
}

/** What a tag is counted from: as it says, or else as a person has said for the sheet. */
function datumOf(job: Job, tag: DrawnTag, viewport: Id | null, assumed: Assumed): Tag["datum"] | null {
  if (tag.from === "deck") return { from: "below-deck" };
  if (tag.from === "floor")
    return floorOf(job, tag, viewport) ?? (assumed.datum?.from === "storey" ? assumed.datum : null);
  return assumed.datum;
}

/** A tag as one of an element in a viewport; what neither it nor the person says stays null. */
export function readAsTag(
  job: Job,
  tag: DrawnTag,
  viewport: Id | null,
  assumed: Assumed,
): Extract<Read, { is: "tag" }> {
  return {
    is: "tag",
    length: lengthRead(tag.value, tag.text),
    basis: tag.basis ?? assumed.basis,
    datum: datumOf(job, tag, viewport, assumed),
    plusMinus: tag.give === null ? null : lengthRead(tag.give, tag.text),
  };
}

const DECK_BASES: Readonly<Record<string, Area["elevation"]["basis"]>> = {
  "top steel": "top-of-steel",
  "top joist": "top-of-steel",
  "top beam": "top-of-steel",
  "top deck": "top-of-deck",
  "bottom deck": "bottom-of-deck",
  "top slab": "top-of-slab",
  "top concrete": "top-of-slab",
  "top roofing": "top-of-roofing",
  "top roof": "top-of-roofing",
};

/** A tag as the elevation of a deck; null where it names a surface that is none of a deck (a parapet), or hangs below one. */
export function readAsDeck(
  job: Job,
  tag: DrawnTag,
  viewport: Id | null,
  assumed: Assumed,
): Extract<Read, { is: "deck" }> | null {
  const { basis, surface } = tag;
  const named = basis === null || surface === null ? null : (DECK_BASES[`${basis} ${surface}`] ?? null);
  if (tag.from === "deck" || (surface !== null && named === null)) return null;
  // A height above the floor that names no surface is a ceiling's, or a luminaire's.
  if (named === null && tag.from === "floor") return null;
  const datum = datumOf(job, tag, viewport, assumed);
  return {
    is: "deck",
    length: lengthRead(tag.value, tag.text),
    basis: named ?? assumed.deckBasis,
    datum: datum?.from === "below-deck" ? null : datum,
  };
}
