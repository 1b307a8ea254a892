import type { Rack } from "../../job/elements/rack.ts";
import type { Run } from "../../job/elements/run.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { FactTest } from "../../rules/rule-set.ts";
import { findRacewayKind, findRacewaySize } from "../../trade/raceways.ts";
import { toInches } from "../../units/length.ts";
import type { Remedy } from "../finding.ts";
import { recordedKey } from "../kinds/facts.ts";
import { type Case, settles } from "./recheck.ts";
import { wiringText } from "./wiring-text.ts";

/**
 * A change of wiring with only those types left that settle the finding, each checked again with the facts it asks for answered as an
 * exception needs them; undefined where none does. A box is spoken for by the runs traced up to it, so their wiring is changed.
 */
export function workingWiring(about: Case, remedy: Remedy): Remedy | undefined {
  if (!remedy.wiring) return undefined;
  const { types, needs } = remedy.wiring;
  const working = types.filter((type) => {
    const after = rewiredJob(about.scene.job, about.id, type, needs, about.finding.about);
    const element = after?.elements[about.id];
    return after && element && settles(about, element, after);
  });
  if (working.length === 0) return undefined;
  return { ...remedy, text: wiringText(working, needs), wiring: { types: working, needs } };
}

/**
 * The job with the wiring that speaks for an element changed to a type, and the facts it needs recorded on that element as they
 * have to be: a run's own wiring; for anything else that of the runs of its viewport. Undefined where a fact is not one that is recorded on elements.
 */
export function rewiredJob(
  job: Job,
  id: Id,
  type: string,
  needs: readonly FactTest[],
  about?: string,
): Job | undefined {
  const element = job.elements[id];
  if (element && "raceways" in element) {
    const rack = rewiredRack(element, Number.parseInt(about ?? "", 10) - 1, type, needs, job.settings.job.system);
    return rack && { ...job, elements: { ...job.elements, [id]: rack } };
  }
  const answered = element && withAnswers(element, needs, job.settings.job.system);
  if (!answered) return undefined;
  if ("wiring" in answered) return { ...job, elements: { ...job.elements, [id]: rewired(answered, type) } };
  const elements = { ...job.elements, [id]: answered };
  for (const [other, run] of Object.entries(job.elements))
    if (run.viewport !== element.viewport) continue;
    else if ("wiring" in run) elements[other] = rewired(run, type);
    else if ("raceways" in run)
      elements[other] = { ...run, raceways: run.raceways.map((raceway) => rewired(raceway, type)) };
  return { ...job, elements };
}

/** The rack with one of its raceways rewired, and the facts it needs recorded on that one. */
function rewiredRack(
  rack: Rack,
  i: number,
  type: string,
  needs: readonly FactTest[],
  system: "imperial" | "metric",
): Rack | undefined {
  const raceway = rack.raceways[i];
  const answered = raceway && withAnswers(raceway, needs, system);
  return answered && { ...rack, raceways: rack.raceways.with(i, rewired(answered, type)) };
}

function withAnswers<T extends object>(
  element: T,
  needs: readonly FactTest[],
  system: "imperial" | "metric",
): T | undefined {
  if (!("facts" in element)) return undefined;
  const facts: Record<string, unknown> = { ...(element.facts as object) };
  for (const { fact, test } of needs) {
    const key = recordedKey(fact);
    if (!key || "oneOf" in test) return undefined;
    facts[key] = "is" in test ? test.is : test.atLeast[system];
  }
  return { ...element, facts };
}

/** A run of another type: in the same trade size, or where that type does not come in it, in the least one that is not thinner. */
function rewired<T extends Pick<Run, "wiring">>(run: T, type: string): T {
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
