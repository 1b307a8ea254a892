import type { Mark } from "./mark.ts";

/** New marks with the old one in the place of each that is the same in all it says, so that only what changed is a new object. */
export function* sameMarks(before: readonly Mark[], now: readonly Mark[]): Generator<undefined, Mark[], void> {
  const known = new Map(before.map((mark) => [mark.key, mark]));
  const marks: Mark[] = [];
  for (const mark of now) {
    const old = known.get(mark.key);
    marks.push(old && isSame(old, mark) ? old : mark);
    yield;
  }
  return marks;
}

/** Whether two plain values say the same. */
function isSame(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (typeof a !== "object" || typeof b !== "object" || a === null || b === null) return false;
  if (Array.isArray(a)) return Array.isArray(b) && a.length === b.length && a.every((item, i) => isSame(item, b[i]));
  const [one, other] = [a as Record<string, unknown>, b as Record<string, unknown>];
  const keys = Object.keys(one);
  return (
    keys.length === Object.keys(other).length &&
    keys.every((key) => Object.hasOwn(other, key) && isSame(one[key], other[key]))
  );
}
