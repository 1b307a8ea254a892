import type { Finding } from "../check/finding.ts";
import { clearanceText, stationText } from "../check/words.ts";
import type { UnitSystem } from "../units/length.ts";
import { findingName } from "./words.ts";

/**
 * A finding in one sentence, for annotations, lists and readers of the screen: `No. 3. Run R-14: too close between
 * 12'-4" and 19'-0". 7/8" to the deck; 1 1/2" required. 300.4(E), 2023 edition.`
 */
export function findingSentence(finding: Finding, system: UnitSystem): string {
  const number = finding.number === null ? "" : `No. ${finding.number}. `;
  const where = stretchWords(finding, system);
  const parts = [`${number}${finding.element}: ${findingName(finding)}${where ? ` ${where}` : ""}.`];
  const distance = distanceWords(finding, system);
  if (distance) parts.push(`${distance}.`);
  if (finding.section) parts.push(`${finding.section}, ${editionWords(finding.edition)}.`);
  return parts.join(" ");
}

/** "between 12'-4" and 19'-0"", for each stretch; "" where there is none. */
export function stretchWords(finding: Finding, system: UnitSystem): string {
  const parts = finding.stretches.map(({ fromIn, toIn }) =>
    toIn - fromIn < 0.5
      ? `at ${stationText(fromIn, system)}`
      : `between ${stationText(fromIn, system)} and ${stationText(toIn, system)}`,
  );
  return parts.join(" and ");
}

/** What was found and what is required; "" where neither applies. */
export function distanceWords(finding: Finding, system: UnitSystem): string {
  const required = finding.requiredIn > 0 ? `${clearanceText(finding.requiredIn, system)} required` : "";
  if (finding.leastIn === null) return required;
  const least = leastWords(finding.leastIn, system);
  return required ? `${least}; ${required}` : least;
}

/** A least distance in words; below nought the wiring reaches above the lowest surface. */
export const leastWords = (least: number, system: UnitSystem): string =>
  least < 0
    ? `${clearanceText(-least, system)} above the lowest surface of the deck`
    : `${clearanceText(least, system)} to the deck`;

/** The edition a finding names, in words: `2023 edition`. */
export const editionWords = (edition: string): string => (/^\d{4}$/.test(edition) ? `${edition} edition` : edition);
