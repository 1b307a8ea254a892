import type { Finding } from "./finding.ts";

/** Less than 0 where the first finding comes before the second; 0 for findings of one element, which keep their order. */
export type FindingOrder = (a: Placed, b: Placed) => number;
type Placed = Pick<Finding, "sheet" | "element" | "elementId">;

/** The order of findings: by sheet in the order of these ids, then element label, then element id. */
export function findingOrder(sheets: readonly string[]): FindingOrder {
  const places = new Map(sheets.map((id, i) => [id, i]));
  const place = (sheet: string): number => places.get(sheet) ?? places.size;
  return (a, b) =>
    (a.sheet === b.sheet ? 0 : place(a.sheet) - place(b.sheet)) ||
    byLabel(a.element, b.element) ||
    compare(a.elementId, b.elementId);
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** R-2 before R-10: letters by code point, runs of digits by value. */
export function byLabel(a: string, b: string): number {
  if (a === b) return 0;
  const shorter = Math.min(a.length, b.length);
  let at = 0;
  while (at < shorter && a.charCodeAt(at) === b.charCodeAt(at)) at++;
  // Labels differ first in the run of digits, or of other characters, that the first different character belongs to in either.
  if (at > 0 && (goesOn(a, at) || goesOn(b, at))) at--;
  while (at > 0 && goesOn(a, at)) at--;
  const [p, q] = [runAt(a, at), runAt(b, at)];
  if (p !== "" && q !== "" && isDigit(a, at) && isDigit(b, at)) return Number(p) - Number(q) || compare(p, q);
  return compare(p, q);
}

/** Whether the character at a place is of the same run as the one before it. */
const goesOn = (text: string, at: number): boolean => at < text.length && isDigit(text, at) === isDigit(text, at - 1);

function isDigit(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return code >= 48 && code <= 57;
}

function runAt(text: string, from: number): string {
  let to = from + 1;
  while (to < text.length && goesOn(text, to)) to++;
  return text.slice(from, to);
}
