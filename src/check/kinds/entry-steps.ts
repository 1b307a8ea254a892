import type { Entry } from "../../job/elements/entry.ts";
import type { EntryProtection, EntryRule } from "../../rules/rule-set.ts";
import { compareConductors, conductorSizeWords, findConductorSize, findInsulation } from "../../trade/conductors.ts";
import type { Reason, Remedy } from "../finding.ts";
import { type Missing, reason } from "../reading.ts";
import { sourceText } from "../words.ts";

/** One thing the rule asks for: met, broken (with what would mend it), or not to be told. */
export type Step =
  | { readonly is: "met"; readonly why: Reason }
  | { readonly is: "broken"; readonly why: Reason; readonly remedy: Remedy }
  | { readonly is: "missing"; readonly missing: Missing };

const record = (text: string, remedy: string): Step => ({
  is: "missing",
  missing: { text, remedy: { kind: "record-fact", text: remedy } },
});

/** Whether the rule reaches the conductors: the size of the largest, in the order of sizes. `smaller` where it does not. */
export function conductorStep({ label, conductor }: Entry, rule: EntryRule): Step & { readonly smaller?: boolean } {
  const order = conductor === null ? undefined : compareConductors(conductor, rule.smallestConductor);
  if (conductor === null || order === undefined) {
    const text =
      conductor === null
        ? `${label}: the size of its largest conductor`
        : `${label}: the size of its largest conductor ("${conductor}" is not in the table)`;
    return record(text, `Record the largest conductor of ${label}.`);
  }
  const words = conductorSizeWords(conductor);
  const smallest = conductorSizeWords(rule.smallestConductor);
  const relation = order < 0 ? "smaller than" : order === 0 ? "just the size of" : "larger than";
  const gauge = conductor !== findConductorSize(conductor) ? `, written "${conductor}"` : "";
  return {
    is: "met",
    smaller: order < 0,
    why: reason(`Largest conductor: ${words} is ${relation} ${smallest}`, {
      value: words,
      source: `recorded for ${label}${gauge}; by the order of sizes, in which 4, 3, 2, 1, 1/0 … 4/0, 250 kcmil grow`,
    }),
  };
}

/** Everything the rule asks of the protection, one by one, as far as what is recorded goes. */
export function protectionSteps(entry: Entry, rule: EntryRule): Step[] {
  const { label, protection } = entry;
  const from = `recorded for ${label}`;
  if (protection.is === "not-recorded")
    return [
      record(`${label}: how its conductors are protected`, `Record how the conductors are protected at ${label}.`),
    ];
  if (protection.is === "none")
    return [
      {
        is: "broken",
        why: reason("Nothing protects the conductors where they enter", { value: "none", source: from }),
        remedy: { kind: "protect", text: waysOf(entry, rule) },
      },
    ];
  const method = rule.protections.find(({ id }) => id === protection.method);
  if (!method)
    return [
      record(
        `${label}: which of the rule's ways its protection is ("${protection.method}" is none of them)`,
        `Choose how the conductors are protected at ${label}.`,
      ),
    ];
  const named: Step = {
    is: "met",
    why: reason(`Protected by: ${method.label}`, { source: `${from}; ${sourceText(method.source)}` }),
  };
  return [
    named,
    ...ratingSteps(entry, method, protection.ratingC),
    ...fasteningSteps(entry, method),
    ...(rule.beforePulling ? [pullingStep(entry)] : []),
  ];
}

const degrees = (rating: number): string => `${rating} °C`;

/** The fitting's or insert's rating must not be lower than the insulation's; equal passes. */
function ratingSteps({ label, insulation }: Entry, method: EntryProtection, ratingC: number | null): Step[] {
  if (!method.temperatureRated) return [];
  const row = insulation === null ? undefined : findInsulation(insulation);
  if (!row) {
    const unknown = insulation === null ? "" : ` ("${insulation}" is not in the table)`;
    const steps = [
      record(`${label}: the insulation of its conductors${unknown}`, `Record the insulation at ${label}.`),
    ];
    return ratingC === null ? [...steps, ratingMissing(label)] : steps;
  }
  const needed = row.ratingC.value;
  const insulated = reason("Temperature rating of the insulation", {
    value: `${row.id}, ${degrees(needed)}${row.where === "wet" ? " in wet places" : ""}`,
    source: sourceText(row.ratingC.source),
  });
  if (ratingC === null) return [{ is: "met", why: insulated }, ratingMissing(label)];
  const rated = { value: degrees(ratingC), source: `recorded for ${label}` };
  if (ratingC < needed)
    return [
      {
        is: "broken",
        why: reason(
          `The protection is rated ${degrees(ratingC)}, lower than the insulation's ${degrees(needed)}`,
          rated,
          [insulated],
        ),
        remedy: { kind: "protect", text: `Use a fitting or insert rated ${degrees(needed)} or higher at ${label}.` },
      },
    ];
  if (row.where === "wet")
    return [
      { is: "met", why: insulated },
      record(
        `${label}: the rating of ${row.id} in dry places, where it may be higher; the table has the one in wet places`,
        `Record insulation whose letters give one rating at ${label}, such as ${row.id}-2, if that is what is printed on it.`,
      ),
    ];
  const text = `The protection is rated ${degrees(ratingC)}, not lower than the insulation's ${degrees(needed)}`;
  return [{ is: "met", why: reason(text, rated, [insulated]) }];
}

const ratingMissing = (label: string): Step =>
  record(
    `${label}: the temperature rating of its fitting or insert`,
    `Record the temperature rating printed on the fitting or insert at ${label}.`,
  );

/** A bushing never counts as the fastening; other ways are part of what fastens, and a recorded "no" contradicts them. */
function fasteningSteps({ label, fastened }: Entry, method: EntryProtection): Step[] {
  const source = `recorded for ${label}`;
  const text = "The raceway is held by a locknut or another mechanical fastening";
  if (fastened) return [{ is: "met", why: reason(text, { value: "yes", source }) }];
  if (!method.needsFastening)
    return fastened === null
      ? []
      : [
          record(
            `${label}: how the raceway is held; it is recorded as not fastened, though its protection is part of a fastening`,
            `Record how the raceway is fastened at ${label}.`,
          ),
        ];
  if (fastened === null)
    return [
      record(
        `${label}: whether a locknut or another mechanical fastening holds the raceway, since a bushing does not`,
        `Record whether the raceway is fastened at ${label}.`,
      ),
    ];
  return [
    {
      is: "broken",
      why: reason("No locknut or other mechanical fastening holds the raceway, and a bushing does not", {
        value: "no",
        source,
      }),
      remedy: {
        kind: "protect",
        text: `Fasten the raceway at ${label} with a locknut or another mechanical fastening.`,
      },
    },
  ];
}

function pullingStep({ label, beforePulling }: Entry): Step {
  const source = `recorded for ${label}`;
  if (beforePulling === null)
    return record(
      `${label}: whether the protection is in place before the conductors are pulled`,
      `Record whether the protection at ${label} is in place before the conductors are pulled.`,
    );
  if (beforePulling)
    return {
      is: "met",
      why: reason("The protection is in place before the conductors are pulled", { value: "yes", source }),
    };
  return {
    is: "broken",
    why: reason("The protection is not in place before the conductors are pulled", { value: "no", source }),
    remedy: { kind: "protect", text: `Have the protection at ${label} in place before the conductors are pulled.` },
  };
}

/** The accepted ways in one sentence, with the rating they need where it is known. */
function waysOf({ label, insulation }: Entry, rule: EntryRule): string {
  const needed = insulation === null ? undefined : findInsulation(insulation)?.ratingC.value;
  const ways = rule.protections.map(({ label: way, temperatureRated }) => {
    const rating = temperatureRated
      ? `, rated ${needed === undefined ? "as high as the insulation" : `${degrees(needed)} or higher`}`
      : "";
    return `${way.charAt(0).toLowerCase()}${way.slice(1)}${rating}`;
  });
  return `Protect the conductors at ${label} by one of: ${ways.join("; ")}.`;
}
