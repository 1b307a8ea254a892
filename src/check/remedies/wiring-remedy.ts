import type { Element } from "../../job/elements/element.ts";
import type { Run } from "../../job/elements/run.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { FactTest } from "../../rules/rule-set.ts";
import { findRacewayKind, findRacewaySize } from "../../trade/raceways.ts";
import { toInches } from "../../units/length.ts";
import type { Remedy, Verdict } from "../finding.ts";
import { recordedKey } from "../kinds/facts.ts";
import { type Case, settles } from "./recheck.ts";
import { wiringText } from "./wiring-text.ts";

/**
 * A change of wiring with only those types left that settle the finding, each checked again with the facts it asks for answered as an
 * exception needs them; undefined where none does. A box is spoken for by the runs traced up to it, so their wiring is changed.
 */
export function workingWiring(about: Case, verdict: Verdict, remedy: Remedy): Remedy | undefined {
  if (!remedy.wiring) return undefined;
  const { types, needs } = remedy.wiring;
  const working = types.filter((type) => {
    const after = rewiredJob(about.scene.job, about.id, type, needs);
    const element = after?.elements[about.id];
    return after && element && settles(about, verdict, element, after);
  });
  if (working.length === 0) return undefined;
  return { ...remedy, text: wiringText(working, needs), wiring: { types: working, needs } };
}

/**
 * The job with the wiring that speaks for an element changed to a type, and the facts it needs recorded on that element as they
 * have to be: a run's own wiring; for anything else that of the runs of its viewport. Undefined where a fact is not one that is recorded on elements.
 */
export function rewiredJob(job: Job, id: Id, type: string, needs: readonly FactTest[]): Job | undefined {
  const element = job.elements[id];
  const answered = element && withAnswers(element, needs, job.settings.job.system);
  if (!answered) return undefined;
  if ("vertices" in answered) return { ...job, elements: { ...job.elements, [id]: rewired(answered, type) } };
  const elements = { ...job.elements, [id]: answered };
  for (const [other, run] of Object.entries(job.elements))
    if ("vertices" in run && run.viewport === element.viewport) elements[other] = rewired(run, type);
  return { ...job, elements };
}

function withAnswers(element: Element, needs: readonly FactTest[], system: "imperial" | "metric"): Element | undefined {
  if (!("facts" in element)) return undefined;
  const facts: Record<string, unknown> = { ...element.facts };
  for (const { fact, test } of needs) {
    const key = recordedKey(fact);
    if (!key || "oneOf" in test) return undefined;
    facts[key] = "is" in test ? test.is : test.atLeast[system];
  }
  return { ...element, facts: facts as typeof element.facts };
}

/** A run of another type: in the same trade size, or where that type does not come in it, in the least one that is not thinner. */
function rewired(run: Run, type: string): Run {
  const { tradeSize, outsideDiameter } = run.wiring;
  const own = outsideDiameter
    ? toInches(outsideDiameter)
    : (findRacewaySize(run.wiring.type, tradeSize)?.outside.value ?? 0);
  const sizes = findRacewayKind(type)?.sizes ?? [];
  const size =
    sizes.find((row) => row.size === tradeSize) ?? sizes.find((row) => row.outside.value >= own) ?? sizes.at(-1);
  if (!size) return { ...run, wiring: { ...run.wiring, type } };
  return { ...run, wiring: { type, tradeSize: size.size, outsideDiameter: null } };
}
