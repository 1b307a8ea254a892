import type { Enclosure, Entry } from "../../job/elements/entry.ts";
import type { Job } from "../../job/schema.ts";
import type { RuleSet } from "../../rules/rule-set.ts";
import { ruleSets } from "../../rules/rule-sets.ts";
import { conductorSizeWords } from "../../trade/conductors.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import type { Reason, Remedy, Verdict } from "../finding.ts";
import { reason } from "../reading.ts";
import { sourceText, VERDICT_WORDS } from "../words.ts";
import { conductorStep, protectionSteps, type Step } from "./entry-steps.ts";
import type { CheckKind } from "./kind.ts";

/**
 * Entries: no distance to a deck, but whether the conductors are protected where their raceway enters, by the entry rule of the edition. Its
 * ways of protection, its smallest conductor and what else it asks for are data of the rule set.
 */
export const entryKind: CheckKind<Entry> = {
  ownVerdicts: ["entry-unprotected"],
  findings(scene, entry, id) {
    const { job, rules } = scene;
    const judged = judge(job, rules, entry);
    const section = rules?.entry?.section ?? "";
    const source = rules?.entry ? `${rules.code}, ${rules.edition} edition, ${section}` : undefined;
    return [
      {
        element: entry.label,
        elementId: id,
        kind: entry.kind,
        verdict: judged.verdict,
        section,
        edition: rules?.edition ?? "",
        requiredIn: 0,
        leastIn: null,
        intervalIn: null,
        verticalIn: null,
        sheet: job.viewports[entry.viewport]?.sheet ?? "",
        at: entry.at,
        areas: [],
        stretches: [],
        reasons: reason(
          judged.text,
          { value: VERDICT_WORDS[judged.verdict], ...(source ? { source } : {}) },
          judged.reasons,
        ),
        remedies: judged.remedies,
      },
    ];
  },
  shape: (_, entry) => ({
    elementClass: "fitting",
    root: undefined,
    pieces: [],
    gaps: [],
    reasonsAt: () => [],
    sheetAt: () => entry.at,
    planTolerance: 0,
    loweredTags: () => [],
  }),
  fact: () => undefined,
};

/** What a raceway enters, in words; undefined where it is not recorded. */
export function enclosureWords(job: Job, enclosure: Enclosure): string | undefined {
  if (enclosure.is === "box") return job.elements[enclosure.box]?.label;
  return enclosure.is === "words" && enclosure.words.trim() !== "" ? enclosure.words.trim() : undefined;
}

interface Judged {
  readonly verdict: Verdict;
  readonly text: string;
  readonly reasons: readonly Reason[];
  readonly remedies: readonly Remedy[];
}

function judge(job: Job, rules: RuleSet | undefined, entry: Entry): Judged {
  const { label } = entry;
  const rule = rules?.entry;
  const given = [wiringReason(job, entry), enclosureReason(job, entry)];
  if (!rules || !rule) return unwritten(job, rules, label, given);
  const smallest = conductorSizeWords(rule.smallestConductor);
  const asked = reason(
    `Conductors of ${smallest} and larger are to be protected where their raceway enters an enclosure`,
    { source: sourceText(rule.source) },
    rule.notes.map((note) => reason(note)),
  );

  if (isCable(job, entry))
    return {
      verdict: "not-governed",
      text: `${label} is the entry of a cable, and the rule speaks of raceways`,
      reasons: [...given, asked],
      remedies: [],
    };

  const size = conductorStep(entry, rule);
  if (size.is === "met" && size.smaller)
    return {
      verdict: "not-governed",
      text: `${label}: ${conductorSizeWords(entry.conductor ?? "")} is smaller than ${smallest}`,
      reasons: [size.why, ...given, asked],
      remedies: [],
    };
  const steps: readonly Step[] = [size, ...protectionSteps(entry, rule)];
  const missing = steps.flatMap((step) => (step.is === "missing" ? [step.missing] : []));
  const broken = steps.flatMap((step) => (step.is === "broken" ? [step] : []));
  const reasons = [
    ...steps.map((step) => (step.is === "missing" ? reason(`Missing: ${step.missing.text}`) : step.why)),
    ...given,
    asked,
  ];
  // What is broken stays broken whatever is recorded later, but only where the rule reaches the conductors at all.
  if (broken.length > 0 && size.is === "met")
    return {
      verdict: "entry-unprotected",
      text: `${label}: ${broken.map((step) => asPart(step.why.text)).join("; ")}`,
      reasons,
      remedies: [...broken.map((step) => step.remedy), ...missing.map((one) => one.remedy)],
    };
  if (missing.length > 0)
    return {
      verdict: "cannot-tell",
      text: `Cannot tell for ${label}. Missing: ${missing.map((one) => one.text).join("; ")}`,
      reasons,
      remedies: missing.map((one) => one.remedy),
    };
  return { verdict: "clear", text: `${label}: the conductors are protected as the rule asks`, reasons, remedies: [] };
}

/** A sentence as part of another. */
const asPart = (sentence: string): string => sentence.charAt(0).toLowerCase() + sentence.slice(1);

/** No edition, or one whose entry rule nobody has written down here: nothing is said either way. */
function unwritten(job: Job, rules: RuleSet | undefined, label: string, given: readonly Reason[]): Judged {
  const known = ruleSets.flatMap((set) => (set.entry ? [set.edition] : [])).join(" or ");
  const text = rules
    ? `the rule on conductor entries of the ${rules.edition} edition, which is not written down in this program`
    : `the rule edition of the job ("${job.settings.job.edition}" is not known here)`;
  const remedy = rules
    ? `Compare ${label} with the adopted text, or choose an edition whose entry rule is here: ${known}.`
    : "Choose the rule edition that applies.";
  return {
    verdict: "cannot-tell",
    text: `Cannot tell for ${label}. Missing: ${text}`,
    reasons: [reason(`Missing: ${text}`), ...given],
    remedies: [{ kind: "record-fact", text: remedy }],
  };
}

function isCable(job: Job, entry: Entry): boolean {
  const run = job.elements[entry.run ?? ""];
  return run !== undefined && "wiring" in run && findRacewayKind(run.wiring.type)?.elementClass === "cable";
}

function wiringReason(job: Job, entry: Entry): Reason {
  const run = job.elements[entry.run ?? ""];
  if (!run || !("wiring" in run)) return reason("Which run enters here is not recorded; it is taken for a raceway");
  const kind = findRacewayKind(run.wiring.type);
  const value = `${run.label}, ${run.wiring.tradeSize} ${kind?.short ?? run.wiring.type}`.trim();
  return reason("The run that enters", { value, source: `recorded for ${entry.label}` });
}

function enclosureReason(job: Job, entry: Entry): Reason {
  const value = enclosureWords(job, entry.enclosure);
  return value === undefined
    ? reason("What it enters is not recorded")
    : reason(`It enters ${value}`, { source: `recorded for ${entry.label}` });
}
