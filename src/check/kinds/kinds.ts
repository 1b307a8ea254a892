import type { Element, ElementKind } from "../../job/elements/element.ts";
import type { Job } from "../../job/schema.ts";
import { VERDICTS, type Verdict } from "../finding.ts";
import { boxKind } from "./box.ts";
import { entryKind } from "./entry.ts";
import { fittingKind } from "./fitting.ts";
import type { CheckKind } from "./kind.ts";
import { rackKind } from "./rack.ts";
import { runKind } from "./run.ts";

/** What each kind of element answers to the check. A new kind is one line. */
const kinds: { readonly [K in ElementKind]: CheckKind<Extract<Element, { kind: K }>> } = {
  run: runKind,
  rack: rackKind,
  box: boxKind,
  fitting: fittingKind,
  entry: entryKind,
};

/** The answers of an element's kind. */
export const checkKindOf = (element: Element): CheckKind => kinds[element.kind] as CheckKind;

/**
 * The verdicts that a check of this job asks for, worst first. One that only a kind it has none of could have is left out: nought of
 * them would read as if it had been looked for.
 */
export function verdictsAskedFor(job: Job): readonly Verdict[] {
  const present = new Set<CheckKind>(Object.values(job.elements).map(checkKindOf));
  const unasked = (Object.values(kinds) as CheckKind[]).flatMap((kind) =>
    present.has(kind) ? [] : (kind.ownVerdicts ?? []),
  );
  return VERDICTS.filter((verdict) => !unasked.includes(verdict));
}
