import type { DeckAbove } from "../check/decks-above.ts";
import { stationText } from "../check/words.ts";
import type { Job } from "../job/schema.ts";
import { CLASSIFICATION_WORDS } from "./words.ts";

/**
 * What lies above an element where storeys above part a deck, by station: `A-1: floor above, 0" to 16'-8"`. Nothing where no
 * deck above it follows from outlines: then each is what its area is recorded as.
 */
export function decksAboveWords(job: Job, decks: readonly DeckAbove[]): string[] {
  if (!decks.some(({ fromOutline }) => fromOutline)) return [];
  const { system } = job.settings.job;
  return decks.map(({ areaId, is, stretches }) => {
    const where = stretches.map(({ fromIn, toIn }) => `${stationText(fromIn, system)} to ${stationText(toIn, system)}`);
    return [`${job.areas[areaId]?.label ?? areaId}: ${CLASSIFICATION_WORDS[is]}`, ...where].join(", ");
  });
}
