import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { verdictChanges } from "../../src/check/verdict-changes.ts";
import { assertRuleSet, parseRuleSet } from "../../src/rules/rule-set-schema.ts";
import { findRuleSet } from "../../src/rules/rule-sets.ts";
import { facts, inchJob, roof, run, withParts } from "../check/inch-job.ts";

/**
 * An imaginary edition of 2029, as the data of one file and nothing else: another section, a larger clearance, wood decks only, and an
 * exception of its own. Invented; no edition says so.
 */
const data = {
  id: "us-2029",
  edition: "2029",
  code: "NFPA 70",
  title: "An imaginary edition",
  section: "300.99(Z)",
  scope: { elements: ["cable", "raceway"], decks: ["wood"] },
  clearance: { imperial: { value: 2.25, unit: "in" }, metric: { value: 57, unit: "mm" } },
  measured: "From the lowest surface of the deck to the nearest surface of the raceway or cable.",
  exceptions: [
    {
      id: "concrete-raceway",
      label: "Raceway cast in at least 3 in. of concrete",
      section: "300.99(Z), exception",
      lifts: ["clearance"],
      needs: [
        { fact: "element.inConcrete", test: { is: true }, question: "Is it cast in concrete?" },
        {
          fact: "element.concreteThickness",
          test: { atLeast: { imperial: { value: 3, unit: "in" }, metric: { value: 75, unit: "mm" } } },
          question: "How thick is the concrete?",
        },
      ],
      source: "common-practice",
    },
  ],
  provenance: {
    section: "common-practice",
    elements: "common-practice",
    decks: "common-practice",
    clearance: "common-practice",
    measured: "common-practice",
    concealment: "common-practice",
  },
  examples: [
    {
      says: "a raceway 2 in. under a wood deck",
      element: "raceway",
      deck: "wood",
      units: "imperial",
      distance: { value: 2, unit: "in" },
      facts: { "element.inConcrete": false },
      expect: "too-close",
      source: "common-practice",
    },
  ],
};

const set = assertRuleSet(data);
const find = (id: string) => (id === set.id ? set : findRuleSet(id));

// Outside diameter of 3/4 EMT: 0.922 in. (ANSI C80.3).
const wood = roof(144, { deck: { profile: "wood", depth: null, concreteCover: { is: "none" } } });
const emtAt = (gap: number, more: Parameters<typeof facts>[0] = {}) =>
  run(
    [10, 200].map((x) => [x, 10, 144 - gap - 0.461] as const),
    { facts: facts(more) },
  );
const under = (deck: typeof wood, element: ReturnType<typeof emtAt>, edition = "us-2029") =>
  checkJob(withParts(inchJob(edition), { a: deck }, { e: element }), find);
const verdictOf = (...args: Parameters<typeof under>) => under(...args).findings[0]?.verdict;

describe("an edition that nobody has written code for", () => {
  it("settles jobs by its own distance, scope, exceptions and section", () => {
    expect(verdictOf(wood, emtAt(2.25))).toBe("clear");
    expect(verdictOf(wood, emtAt(2.2))).toBe("too-close");
    expect(verdictOf(roof(144), emtAt(2.2))).toBe("not-governed");
    const [finding] = under(wood, emtAt(2.2)).findings;
    expect(finding).toMatchObject({ section: "300.99(Z)", edition: "2029", requiredIn: 2.25 });
    expect(JSON.stringify(finding?.reasons)).toContain("NFPA 70, 2029 edition, 300.99(Z)");
    expect(JSON.stringify(finding?.reasons)).toContain("Raceway cast in at least 3 in. of concrete");
  });

  it("asks for the facts its exception needs, and applies it on them", () => {
    // Reaching into the deck, where it may be cast in concrete.
    const inside = (more: Parameters<typeof facts>[0]) => verdictOf(wood, emtAt(-0.3, more));
    expect(inside({ inConcrete: true, concreteThickness: { value: 3, unit: "in" } })).toBe("not-governed");
    expect(inside({ inConcrete: true, concreteThickness: { value: 2.9, unit: "in" } })).toBe("too-close");
    expect(inside({ inConcrete: true })).toBe("cannot-tell");
  });

  it("can be amended, and compared with the editions before it", () => {
    const job = withParts(inchJob("us-2026"), { a: wood }, { e: emtAt(2) });
    const later = { ...job, settings: { job: { ...job.settings.job, edition: "us-2029" } } };
    const [change] = verdictChanges(checkJob(job, find), checkJob(later, find));
    expect([change?.before, change?.after]).toEqual([["clear"], ["too-close"]]);
    expect(change?.whyAfter.join()).toContain(`2 1/4" is asked for`);
    const strike = { kind: "struck-exception" as const, exception: "concrete-raceway", reason: "r", authority: "a" };
    const amended = { ...later, settings: { job: { ...later.settings.job, amendments: [strike] } } };
    expect(checkJob(amended, find).notices).toEqual([]);
  });

  it("is not known without its file, and then nothing is told", () => {
    const job = withParts(inchJob("us-2029"), { a: wood }, { e: emtAt(9) });
    expect(checkJob(job).findings.map(({ verdict }) => verdict)).toEqual(["cannot-tell"]);
  });

  it("needs a source on every value", () => {
    const { clearance: _gone, ...provenance } = data.provenance;
    const read = parseRuleSet({ ...data, provenance });
    expect(read.ok ? [] : read.problems.map(({ where }) => where)).toEqual(["provenance/clearance"]);
  });
});
