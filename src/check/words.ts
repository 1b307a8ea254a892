import { LIMIT_TOLERANCE } from "../geometry/tolerance.ts";
import type { Tag } from "../job/fields.ts";
import type { Area } from "../job/schema.ts";
import type { StandingThing } from "../job/storey-outline.ts";
import type { Amendment } from "../rules/amend.ts";
import { findSource } from "../trade/sources.ts";
import { formatLength } from "../units/format-length.ts";
import { type Length, toInches, type UnitSystem } from "../units/length.ts";
import { inches, MM_PER_INCH } from "../units/quantity.ts";
import type { Verdict } from "./finding.ts";

/** How the reasons of a check write numbers, and the words it uses for bases and datums. English. */

/** An elevation or length that was given: exact where it is a fraction of an inch, else to a thousandth. */
export function written(length: number, system: UnitSystem): string {
  const step = system === "metric" ? 0.01 : isFraction(length) ? undefined : 0.001;
  return formatLength(inches(length), system, step === undefined ? {} : { nearest: step });
}

/** A clearance: decimal inches, with the fraction a tape shows beside it; or millimetres. */
export function clearanceText(distance: number, system: UnitSystem): string {
  if (system === "metric") return `${trim(distance * MM_PER_INCH, 2)} mm`;
  const sign = distance < 0 ? "-" : "";
  const tape = `${sign}${formatLength(inches(Math.abs(distance)), system, { nearest: 1 / 16 })}`;
  const exact = Math.abs(distance * 16 - Math.round(distance * 16)) < 1e-6;
  return exact ? tape : `${trim(distance, 3)}" (about ${tape})`;
}

/** A clearance where there is little room: the fraction where it is one, else decimal inches; or millimetres. */
const clearanceShort = (distance: number, system: UnitSystem): string =>
  clearanceText(distance, system).replace(/ \(about .*$/, "");

/** From where to where a clearance may lie, or undefined where nothing is uncertain about it. */
export function intervalText(interval: readonly [number, number] | null, system: UnitSystem): string | undefined {
  if (!interval || interval[1] - interval[0] <= LIMIT_TOLERANCE) return undefined;
  return `${clearanceShort(interval[0], system)} to ${clearanceShort(interval[1], system)}`;
}

const isFraction = (n: number): boolean => Number.isInteger(n * 64);
const trim = (n: number, digits: number): string => String(Number(n.toFixed(digits)));

/** A length in the unit it was given in, and in inches beside it when that is another one. */
export function asGiven(length: Length, system: UnitSystem): string {
  const own: UnitSystem = length.unit === "mm" || length.unit === "m" ? "metric" : "imperial";
  const text = own === "metric" ? `${length.value} ${length.unit}` : written(toInches(length), "imperial");
  return own === system ? text : `${text} = ${written(toInches(length), system)}`;
}

/** A station along a run, as read off a tape. */
export const stationText = (station: number, system: UnitSystem): string =>
  formatLength(inches(station), system, { nearest: system === "metric" ? 1 : 1 / 2 });

/** Verdicts as reasons name them. */
export const VERDICT_WORDS: Readonly<Record<Verdict, string>> = {
  concealed: "concealed in the flutes",
  "entry-unprotected": "conductor entry not protected",
  "too-close": "too close",
  "cannot-tell": "cannot tell",
  borderline: "borderline",
  clear: "clear",
  "not-governed": "not governed",
};

/** What the basis of an elevation tag is called. */
export const basisWords: Readonly<Record<Tag["basis"], string>> = { bottom: "bottom", centre: "centre", top: "top" };

/** What the surface whose elevation is given is called. */
export const deckBasisWords: Readonly<Record<Area["elevation"]["basis"], string>> = {
  "bottom-of-deck": "bottom of deck",
  "top-of-steel": "top of steel",
  "top-of-deck": "top of deck",
  "top-of-slab": "top of slab",
  "top-of-roofing": "top of roofing",
};

/** What may stand on a deck without being an occupied storey. */
export const STANDING_WORDS: Readonly<Record<StandingThing, string>> = {
  mezzanine: "mechanical mezzanine",
  canopy: "canopy",
  "plaza-deck": "plaza deck",
  balcony: "balcony",
  "something-else": "something else",
};

/** What a local amendment rests on, and by whose decision it applies. */
export const amendmentText = ({ reason, authority }: Amendment): string =>
  `local amendment: ${reason.trim() || "no reason recorded"}, by decision of ${authority.trim() || "nobody recorded"}`;

/** Where a table value comes from, in words. */
export function sourceText(sourceId: string): string {
  const source = findSource(sourceId);
  if (!source) return sourceId;
  const said = source.kind === "published" || source.title.toLowerCase().includes(source.kind);
  return said ? source.title : `${source.title} (${source.kind})`;
}
