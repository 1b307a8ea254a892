/**
 * Keys that stand twice in one object of a JSON text, as paths such as `elements/r14/label`; JSON.parse would keep the last and say
 * nothing. The text has to be valid JSON: parse it first.
 */
export function duplicateKeys(text: string): string[] {
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
