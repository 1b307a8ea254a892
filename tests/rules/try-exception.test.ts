import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { FactName, Facts, FactValue, RuleException } from "../../src/rules/rule-set.ts";
import { findRuleSet, ruleSets } from "../../src/rules/rule-sets.ts";
import { isRuledOut, tryException } from "../../src/rules/try-exception.ts";

const facts =
  (known: Partial<Record<FactName, FactValue>>): Facts =>
  (name) => {
    const value = known[name];
    return value === undefined ? { known: false } : { known: true, value, from: "test" };
  };
const exception = (set: string, id: string): RuleException =>
  findRuleSet(set)!.exceptions.find((candidate) => candidate.id === id)!;
const inch = (value: number) => ({ value, unit: "in" }) as const;

describe("tryException", () => {
  const rigid = exception("us-2023", "rmc-imc-steel");

  it("applies when every fact is known and passes, with where each was read", () => {
    const trial = tryException(rigid, facts({ "wiring.kind": "imc", "wiring.steelFittings": true }), "imperial");
    expect(trial.outcome).toBe("applies");
    expect(trial.trail.map((step) => [step.test.fact, step.passed, step.fact.known && step.fact.from])).toEqual([
      ["wiring.kind", true, "test"],
      ["wiring.steelFittings", true, "test"],
    ]);
    expect(trial.missing).toEqual([]);
  });

  it("a failed test beats a missing one, and nothing is asked then", () => {
    const trial = tryException(rigid, facts({ "wiring.kind": "emt" }), "imperial");
    expect(trial.outcome).toBe("does not apply");
    expect(trial.missing).toEqual([]);
  });

  it("does not apply to what it asks nothing of: only a box is asked whether it is accessible", () => {
    const accessible = exception("us-2026", "in-concrete").needs.filter(({ fact }) => fact === "element.accessible");
    const raceway = facts({ "element.class": "raceway" });
    expect(tryException({ needs: accessible }, raceway, "imperial").outcome).toBe("does not apply");
    expect(isRuledOut({ needs: accessible }, raceway, "imperial")).toBe(true);
    const box = facts({ "element.class": "box", "element.accessible": true });
    expect(tryException({ needs: accessible }, box, "imperial").outcome).toBe("applies");
    expect(isRuledOut({ needs: accessible }, box, "imperial")).toBe(false);
  });

  it("names the fact that is missing, with its question", () => {
    const trial = tryException(rigid, facts({ "wiring.kind": "rmc" }), "imperial");
    expect(trial.outcome).toBe("lacks a fact");
    expect(trial.missing.map((test) => test.fact)).toEqual(["wiring.steelFittings"]);
  });

  it("takes a fact of the wrong type for a missing one", () => {
    const trial = tryException(rigid, facts({ "wiring.kind": "rmc", "wiring.steelFittings": "yes" }), "imperial");
    expect(trial.outcome).toBe("lacks a fact");
    const cover = exception("us-2023", "concrete-cover");
    expect(tryException(cover, facts({ "deck.concreteCover": inch(Number.NaN) }), "imperial").outcome).toBe(
      "lacks a fact",
    );
  });

  it("measures a thickness by the job's own units, whatever unit it was written in", () => {
    const cover = exception("us-2023", "concrete-cover");
    const outcome = (value: FactValue, units: "imperial" | "metric") =>
      tryException(cover, facts({ "deck.concreteCover": value }), units).outcome;
    expect(outcome(inch(2), "imperial")).toBe("applies");
    expect(outcome({ value: 50.8, unit: "mm" }, "imperial")).toBe("applies");
    expect(outcome({ value: 50, unit: "mm" }, "imperial")).toBe("does not apply");
    expect(outcome({ value: 50, unit: "mm" }, "metric")).toBe("applies");
    expect(outcome({ value: 49, unit: "mm" }, "metric")).toBe("does not apply");
  });

  it("asks about access for boxes and conduit bodies only, and for anything whose class is not known", () => {
    const cast = exception("us-2026", "in-concrete");
    const given = { "element.inConcrete": true, "element.concreteThickness": inch(3) } as const;
    const outcome = (more: Partial<Record<FactName, FactValue>>) =>
      tryException(cast, facts({ ...given, ...more }), "imperial").outcome;
    expect(outcome({ "element.class": "raceway" })).toBe("applies");
    expect(outcome({ "element.class": "cable" })).toBe("applies");
    expect(outcome({ "element.class": "box" })).toBe("lacks a fact");
    expect(outcome({ "element.class": "conduit-body" })).toBe("lacks a fact");
    expect(outcome({})).toBe("lacks a fact");
    expect(outcome({ "element.class": "box", "element.accessible": true })).toBe("applies");
    expect(outcome({ "element.class": "box", "element.accessible": false })).toBe("does not apply");
  });

  it("with no facts at all, no exception of any edition ever applies", () => {
    for (const set of ruleSets)
      for (const one of set.exceptions)
        for (const units of ["imperial", "metric"] as const)
          expect(tryException(one, () => ({ known: false }), units).outcome).toBe("lacks a fact");
  });

  it("taking a fact away never makes an exception apply", () => {
    const values: Record<FactName, FactValue[]> = {
      "element.class": ["cable", "raceway", "box", "conduit-body", "fitting"],
      "wiring.kind": ["emt", "rmc", "imc", "nm"],
      "wiring.steelFittings": [true, false],
      "deck.concreteCover": [inch(0), inch(2), inch(3)],
      "element.inConcrete": [true, false],
      "element.concreteThickness": [inch(1), inch(2), inch(4)],
      "element.accessible": [true, false],
    };
    const some = fc.record(
      Object.fromEntries(Object.entries(values).map(([name, list]) => [name, fc.constantFrom(...list)])) as Record<
        FactName,
        fc.Arbitrary<FactValue>
      >,
      { requiredKeys: ["element.class"] },
    );
    const names = Object.keys(values).filter((name) => name !== "element.class") as FactName[];
    fc.assert(
      fc.property(
        some,
        fc.constantFrom(...names),
        fc.constantFrom(...ruleSets.flatMap((set) => set.exceptions)),
        (all, gone, one) => {
          const { [gone]: _, ...rest } = all as Partial<Record<FactName, FactValue>>;
          const [full, less] = [all as Partial<Record<FactName, FactValue>>, rest].map(
            (known) => tryException(one, facts(known), "imperial").outcome,
          );
          if (less === "applies") expect(full).toBe("applies");
          if (full === "does not apply") expect(less).not.toBe("applies");
        },
      ),
    );
  });
});
