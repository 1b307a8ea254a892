/**
 * Keys that stand twice in one object of a JSON text, as paths such as `elements/r14/label`; JSON.parse would keep the last and say
 * nothing. The text has to be valid JSON: parse it first, and give what it was parsed to as `value`.
 */
export function duplicateKeys(text: string, value: unknown = JSON.parse(text)): string[] {
  // What is parsed has each key once: where the text has no more of them, as nearly always, none need be looked for.
  return keysInText(text) === keysInValue(value) ? [] : foundTwice(text);
}

/** How many keys a JSON text has: strings before a colon. */
function keysInText(text: string): number {
  let count = 0;
  for (let start = text.indexOf('"'); start >= 0; ) {
    let end = text.indexOf('"', start + 1);
    while (isEscaped(text, end)) end = text.indexOf('"', end + 1);
    let next = end + 1;
    while (text.charCodeAt(next) <= SPACE) next++;
    if (text.charCodeAt(next) === COLON) count++;
    start = text.indexOf('"', next);
  }
  return count;
}

const [SPACE, COLON, BACKSLASH] = [0x20, 0x3a, 0x5c];

/** Whether an odd number of backslashes stands before a place. */
function isEscaped(text: string, at: number): boolean {
  let first = at;
  while (text.charCodeAt(first - 1) === BACKSLASH) first--;
  return (at - first) % 2 === 1;
}

/** How many keys all objects of a parsed value have together. */
function keysInValue(value: unknown): number {
  let count = 0;
  const open = [value];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    if (typeof next !== "object" || next === null) continue;
    const isList = Array.isArray(next);
    const inside: readonly unknown[] = isList ? (next as readonly unknown[]) : Object.values(next);
    if (!isList) count += inside.length;
    for (const one of inside) if (typeof one === "object" && one !== null) open.push(one);
  }
  return count;
}

function foundTwice(text: string): string[] {
  const found: string[] = [];
  /** One entry for every object or array that is open: the keys seen in an object, the present key or place. */
  const open: { keys: Set<string> | null; at: string | number }[] = [];
  let expectsKey = false;
  for (const { 0: token } of text.matchAll(/"(?:[^"\\]|\\.)*"|[{}[\],:]/g)) {
    const inside = open.at(-1);
    switch (token[0]) {
      case "{":
        open.push({ keys: new Set(), at: "" });
        expectsKey = true;
        break;
      case "[":
        open.push({ keys: null, at: 0 });
        expectsKey = false;
        break;
      case "}":
      case "]":
        open.pop();
        expectsKey = false;
        break;
      case ",":
        if (inside && typeof inside.at === "number") inside.at += 1;
        expectsKey = inside?.keys != null;
        break;
      case ":":
        expectsKey = false;
        break;
      default:
        if (!expectsKey || !inside?.keys) break;
        inside.at = JSON.parse(token) as string;
        if (inside.keys.has(inside.at)) found.push(open.map(({ at }) => at).join("/"));
        inside.keys.add(inside.at);
        expectsKey = false;
    }
  }
  return found;
}
