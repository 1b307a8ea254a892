import { z } from "zod";
import { type SourceId, sources } from "../trade/sources.ts";
import type { Problem, Result } from "../units/problem.ts";
import type { RuleSet } from "./rule-set.ts";

const words = z.string().min(1);
const source = z.enum(sources.map((entry) => entry.id) as [SourceId, ...SourceId[]]);
const length = z.strictObject({ value: z.number().nonnegative(), unit: z.enum(["in", "ft", "mm", "m"]) }).readonly();
const stated = z.strictObject({ imperial: length, metric: length }).readonly();
const list = <T extends z.ZodType>(item: T) => z.array(item).readonly();
const element = z.enum(["cable", "raceway", "box", "conduit-body", "fitting"]);
const deck = z.enum(["metal-corrugated", "wood", "concrete", "other"]);
const fact = z.enum([
  "element.class",
  "wiring.kind",
  "wiring.steelFittings",
  "deck.concreteCover",
  "element.inConcrete",
  "element.concreteThickness",
  "element.accessible",
]);
const requirement = z.union([
  z.strictObject({ oneOf: list(words) }).readonly(),
  z.strictObject({ is: z.boolean() }).readonly(),
  z.strictObject({ atLeast: stated }).readonly(),
]);
/** One condition of an exception, as data: an edition's own states its conditions so, and so does one added locally. */
export const factTestSchema = z
  .strictObject({
    fact,
    test: requirement,
    question: words,
    when: z.strictObject({ fact, test: requirement }).readonly().exactOptional(),
  })
  .readonly();
/** What an exception may lift, as data. */
export const liftedSchema = z.enum(["clearance", "concealment"]);
const exception = z
  .strictObject({
    id: words,
    label: words,
    section: words,
    lifts: list(liftedSchema),
    needs: list(factTestSchema).refine((needs) => needs.length > 0),
    source,
  })
  .readonly();
const entryExample = z
  .strictObject({
    says: words,
    conductor: words,
    insulation: words.exactOptional(),
    wiring: words.exactOptional(),
    protection: words.exactOptional(),
    ratingC: z.number().positive().exactOptional(),
    fastened: z.boolean().exactOptional(),
    beforePulling: z.boolean().exactOptional(),
    expect: z.enum(["clear", "entry-unprotected", "not-governed", "cannot-tell"]),
    source,
  })
  .readonly();
const entry = z
  .strictObject({
    section: words,
    smallestConductor: words,
    beforePulling: z.boolean(),
    protections: list(
      z
        .strictObject({ id: words, label: words, temperatureRated: z.boolean(), needsFastening: z.boolean(), source })
        .readonly(),
    ),
    notes: list(words),
    examples: list(entryExample).refine((examples) => examples.length > 0),
    source,
  })
  .readonly();
const example = z
  .strictObject({
    says: words,
    element,
    deck,
    units: z.enum(["imperial", "metric"]),
    distance: length,
    concealed: z.boolean().exactOptional(),
    facts: z.partialRecord(fact, z.union([words, z.boolean(), length])).readonly(),
    expect: z.enum(["clear", "too-close", "concealed", "not-governed", "cannot-tell"]),
    exceptions: z
      .record(words, z.enum(["applies", "does not apply", "lacks a fact"]))
      .readonly()
      .exactOptional(),
    source,
  })
  .readonly();

const ruleSet = z
  .strictObject({
    id: z.string().regex(/^[a-z]{2}-\d{4}$/),
    edition: words,
    code: words,
    title: words,
    section: words,
    scope: z.strictObject({ elements: list(element), decks: z.union([z.literal("any"), list(deck)]) }).readonly(),
    clearance: stated,
    measured: words,
    concealment: z
      .strictObject({ decks: list(deck), section: words })
      .readonly()
      .exactOptional(),
    exceptions: list(exception),
    entry: entry.exactOptional(),
    provenance: z
      .strictObject({
        section: source,
        elements: source,
        decks: source,
        clearance: source,
        measured: source,
        concealment: source,
      })
      .readonly(),
    examples: list(example).refine((examples) => examples.length > 0),
  })
  .readonly();

/**
 * Reads a rule set from data. Everything is required but `concealment`, `entry` and what an example may leave out; an unknown key, a
 * value without a source, a source that is not listed, and a rule set without examples are problems, each with its path.
 * Codes: `rules.unknown-key`, `rules.missing`, `rules.not-allowed`; worded in `messages.ts`.
 */
export function parseRuleSet(data: unknown): Result<RuleSet> {
  const read = ruleSet.safeParse(data);
  return read.success ? { ok: true, value: read.data } : { ok: false, problems: read.error.issues.flatMap(problems) };
}

/** The rule set in `data`; throws an Error that lists every problem. For data that is part of the program. */
export function assertRuleSet(data: unknown): RuleSet {
  const read = parseRuleSet(data);
  if (read.ok) return read.value;
  throw new Error(`Not a rule set:\n${read.problems.map((p) => `${p.where}: ${p.code}`).join("\n")}`);
}

function problems(issue: z.core.$ZodIssue): Problem[] {
  const where = issue.path.map(String).join("/");
  if (issue.code === "unrecognized_keys") {
    return issue.keys.map((key) => ({ code: "rules.unknown-key", where: at(where, key), params: { key } }));
  }
  const missing = issue.code === "invalid_type" && issue.input === undefined && issue.message.includes("undefined");
  return [{ code: missing ? "rules.missing" : "rules.not-allowed", where, params: { says: issue.message } }];
}

const at = (where: string, key: string): string => (where === "" ? key : `${where}/${key}`);
