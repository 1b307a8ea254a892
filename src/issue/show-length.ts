import { deckBasisWords } from "../check/words.ts";
import type { Tag } from "../job/fields.ts";
import type { Area, Job } from "../job/schema.ts";
import { formatLength } from "../units/format-length.ts";
import { toInches, type UnitSystem } from "../units/length.ts";
import { type Inches, inches } from "../units/quantity.ts";

/** The step lengths are shown to: 1/16 in., or a millimetre. */
const STEP = { imperial: 1 / 16, metric: 1 } as const;

/** A length as outputs show it, to the nearest 1/16 in. or millimetre. */
export const showLength = (length: Inches, system: UnitSystem): string =>
  formatLength(length, system, { nearest: STEP[system] });

/** A distance that has to reach a limit, rounded down so that rounding never makes it look sufficient. */
export const showLeast = (length: Inches, system: UnitSystem): string =>
  formatLength(length, system, { nearest: STEP[system], round: "down" });

/** A limit or requirement, exact where 1/64 in. or a millimetre can write it. */
export const showRequired = (length: Inches, system: UnitSystem): string =>
  formatLength(length, system, system === "metric" ? { nearest: 1 } : {});

const BASIS = { bottom: "bottom", centre: "centre", top: "top" } as const;

/** An elevation tag in a few words: `centre 13'-2 1/8" AFF`, `top 3" below deck`, `bottom el. 113'-2"`. */
export function showTag(tag: Tag, system: UnitSystem): string {
  const length = formatLength(toInches(tag.length), system);
  const place =
    tag.datum.from === "storey"
      ? `${length} AFF`
      : tag.datum.from === "project"
        ? `el. ${length}`
        : `${length} below deck`;
  return `${BASIS[tag.basis]} ${place}`;
}

/** What is known of a deck's elevation: `top of steel el. 114'-2"`, `bottom of deck 14'-2" AFF Level 2`, `no elevation yet`. */
export function showDeckElevation(job: Job, area: Area): string {
  const given = givenElevation(job, area);
  return given === undefined ? "no elevation yet" : `${deckBasisWords[area.elevation.basis]} ${given}`;
}

function givenElevation(job: Job, area: Area): string | undefined {
  const { system } = job.settings.job;
  const datum = area.elevation.datum;
  const given = (length: Parameters<typeof toInches>[0]) =>
    datum.from === "project"
      ? `el. ${formatLength(toInches(length), system)}`
      : `${formatLength(toInches(length), system)} AFF ${job.storeys[datum.storey]?.name ?? ""}`.trim();
  const shape = area.elevation.shape;
  if (shape.is !== "spots") return shape.at ? given(shape.at) : undefined;
  const known = shape.spots.flatMap(({ elevation }) => (elevation ? [elevation] : []));
  if (known.length === 0) return undefined;
  const sorted = [...known].sort((a, b) => toInches(a) - toInches(b));
  const low = given(sorted[0]!);
  const high = given(sorted[sorted.length - 1]!);
  return low === high ? low : `${low} to ${high}`;
}

/** Inches as a brand, for values that findings carry as plain numbers. */
export const asInches = (n: number): Inches => inches(n);
