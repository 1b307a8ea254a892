import type { Id } from "../job/fields.ts";
import { type Inches, inches } from "../units/quantity.ts";

/** The deck that elevations are counted from ("so much below deck"): the id of its area, and how far its own elevation may be off, each way, inches. */
export interface CountedFrom {
  readonly area: Id;
  readonly tolerance: Inches;
}

/** How far an elevation may be off by its tag, each way, inches, and the deck that the tag is counted from, if it is. */
export interface LevelDoubt {
  readonly tolerance: Inches;
  readonly counted?: CountedFrom | undefined;
}

/**
 * What is in doubt of elevations between several that were read. Where all are counted from one deck they still are; else what that deck may be off
 * by is a doubt like any other.
 */
export function doubtBetween(levels: readonly LevelDoubt[]): LevelDoubt {
  const counted = levels[0]?.counted;
  if (counted && levels.every((level) => level.counted?.area === counted.area))
    return { tolerance: inches(Math.max(...levels.map(({ tolerance }) => tolerance))), counted };
  let most = 0;
  for (const level of levels) most = Math.max(most, level.tolerance + (level.counted?.tolerance ?? 0));
  return { tolerance: inches(most) };
}

/** The same between two. Most are read off tags as good as each other. */
export const doubtOf = (one: LevelDoubt, other: LevelDoubt): LevelDoubt =>
  one.counted === undefined && other.counted === undefined && one.tolerance === other.tolerance
    ? one
    : doubtBetween([one, other]);
