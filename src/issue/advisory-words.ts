import type { Advisory } from "../check/finding.ts";

/** What stands over advice wherever it is shown, so that nobody takes it for a verdict. */
export const ADVICE = "Advice, beside the code";

/** What goes with the heading where there is room for it. */
export const ADVICE_NOTE =
  "The code distance is a minimum. No verdict rests on what follows; it comes from what was recorded of the roofing, and the next roof may be held down by other fasteners.";

/** An advisory in words: what it says, and which elements lie within reach. */
export function advisoryWords({ text, elements }: Advisory): string {
  return elements.length === 0 ? text : `${text} Nearer than that: ${elements.join(", ")}.`;
}
