import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { Reason } from "../../src/check/finding.ts";
import { checkMessages } from "../../src/check/messages.ts";
import { verdictChanges } from "../../src/check/verdict-changes.ts";
import type { Element } from "../../src/job/elements/element.ts";
import { jobText, parseJobText } from "../../src/job/parse-job.ts";
import type { Settings } from "../../src/job/schema.ts";
import type { Amendment } from "../../src/rules/amend.ts";
import { check, facts, findingOf, inch, inchJob, roof, run, withParts } from "./inch-job.ts";

// Outside diameter of 3/4 EMT: 0.922 in. (ANSI C80.3); of 3/4 RMC: 1.050 in. (ANSI C80.1).
const grounds = { reason: "Ordinance 7", authority: "Building department of Inventedville" };
const larger: Amendment = {
  kind: "larger-clearance",
  clearance: { imperial: inch(2), metric: { value: 50, unit: "mm" } },
  ...grounds,
};
const strike = (exception: string): Amendment => ({ kind: "struck-exception", exception, ...grounds });
const amended = (amendments: NonNullable<Settings["amendments"]>, more: Partial<Settings> = {}) => {
  const base = inchJob();
  return { ...base, settings: { job: { ...base.settings.job, ...more, amendments } } };
};
const lines = (r: Reason): string[] => [
  [r.text, r.value ?? "", r.source ?? ""].join(" | "),
  ...r.children.flatMap(lines),
];
const emtAt = (gap: number) => run([10, 200].map((x) => [x, 10, 144 - gap - 0.922 / 2] as const));
const rmcAt = (gap: number) =>
  run(
    [10, 200].map((x) => [x, 10, 144 - gap - 1.05 / 2] as const),
    { wiring: { type: "rmc", tradeSize: "3/4", outsideDiameter: null }, facts: facts({ steelFittings: true }) },
  );

describe("a larger clearance", () => {
  it("is what is asked for: 1 3/4 in. is clear of the edition's 1 1/2, and too close to 2; exactly 2 passes", () => {
    expect(findingOf({ a: roof(144) }, emtAt(1.75)).verdict).toBe("clear");
    const found = findingOf({ a: roof(144) }, emtAt(1.75), amended([larger]));
    expect(found.verdict).toBe("too-close");
    expect(found.requiredIn).toBe(2);
    expect(findingOf({ a: roof(144) }, emtAt(2), amended([larger])).verdict).toBe("clear");
  });

  it("is the one stated for the unit system: 50 mm, not 2 in.", () => {
    const metric = amended([larger], { system: "metric" });
    expect(findingOf({ a: roof(144) }, emtAt(50.4 / 25.4), metric).verdict).toBe("clear");
    expect(findingOf({ a: roof(144) }, emtAt(49.9 / 25.4), metric).verdict).toBe("too-close");
  });

  it("is named in the reasons with its authority, beside what the edition asks for", () => {
    const all = lines(findingOf({ a: roof(144) }, emtAt(1.75), amended([larger])).reasons);
    expect(all).toContainEqual(
      'Required clearance, by local amendment | 2" | local amendment: Ordinance 7, by decision of Building department of Inventedville',
    );
    expect(all.some((line) => line.startsWith('The 2023 edition itself asks for | 1 1/2" | NFPA 70, 2023'))).toBe(true);
  });
});

describe("a struck exception", () => {
  it("no longer applies, and the finding says who struck it", () => {
    expect(findingOf({ a: roof(144) }, rmcAt(0.5)).verdict).toBe("not-governed");
    const found = findingOf({ a: roof(144) }, rmcAt(0.5), amended([strike("rmc-imc-steel")]));
    expect(found.verdict).toBe("too-close");
    const struck = lines(found.reasons).filter((line) => line.includes("| struck here |"));
    expect(struck).toHaveLength(1);
    expect(struck[0]).toContain("Ordinance 7, by decision of Building department of Inventedville");
    // An exception that is gone is no way out, and asks for no fact.
    expect(found.remedies.map(({ kind }) => kind)).toEqual(["lower", "support"]);
    expect(
      findingOf({ a: roof(144) }, { ...rmcAt(0.5), facts: facts({}) } as never, amended([strike("rmc-imc-steel")]))
        .verdict,
    ).toBe("too-close");
  });
});

describe("an added exception", () => {
  const added: Extract<Amendment, { kind: "added-exception" }> = {
    kind: "added-exception",
    label: "EMT with steel fittings",
    section: "Ordinance 7, paragraph 2",
    lifts: ["clearance"],
    needs: [
      { fact: "wiring.kind", test: { oneOf: ["emt"] }, question: "Which kind of raceway is it?" },
      { fact: "wiring.steelFittings", test: { is: true }, question: "Are its fittings of steel?" },
    ],
    ...grounds,
  };
  const emt = (steelFittings: boolean | null) => ({ ...emtAt(0.5), facts: facts({ steelFittings }) }) as Element;
  const found = (element: Element, amendments: NonNullable<Settings["amendments"]>) =>
    findingOf({ a: roof(144) }, element, amended(amendments));

  it("lifts the distance where every fact is met, and the finding names the amendment and its authority", () => {
    expect(findingOf({ a: roof(144) }, emt(true)).verdict).toBe("too-close");
    const finding = found(emt(true), [added]);
    expect(finding.verdict).toBe("not-governed");
    const all = lines(finding.reasons);
    expect(all.some((line) => /an exception applies: EMT with steel fittings \(local amendment: Ord/.test(line))).toBe(
      true,
    );
    expect(all).toContainEqual(
      "EMT with steel fittings | applies | Ordinance 7, paragraph 2; local amendment: Ordinance 7, by decision of Building department of Inventedville",
    );
  });

  it("is tried beside the edition's own, which settle what they did", () => {
    expect(found(rmcAt(0.5), [added]).verdict).toBe("not-governed");
    expect(lines(found(rmcAt(0.5), [added]).reasons).join("\n")).toMatch(/an exception applies: Rigid or intermediate/);
    expect(found(emt(false), [added]).verdict).toBe("too-close");
    expect(lines(found(emt(false), [added]).reasons)).toContainEqual(
      expect.stringMatching(/^EMT with steel fittings \| does not apply \| .*local amendment/),
    );
  });

  it("cannot be told while a fact is not recorded", () => {
    const finding = found(emt(null), [added]);
    expect(finding.verdict).toBe("cannot-tell");
    expect(finding.remedies.map(({ text }) => text).join()).toContain("Are its fittings of steel?");
  });

  it("lifts only what it says: not the ban on concealment", () => {
    const inFlutes = run(
      [10, 200].map((x) => [x, 10, 144.7] as const),
      { facts: facts({ steelFittings: true }) },
    );
    const judged = (lifts: typeof added.lifts) => {
      const base = inchJob("us-2026");
      const job = { ...base, settings: { job: { ...base.settings.job, amendments: [{ ...added, lifts }] } } };
      return findingOf({ a: roof(144) }, inFlutes, job).verdict;
    };
    expect([judged(["clearance"]), judged(["clearance", "concealment"])].map((v) => v === "not-governed")).toEqual([
      false,
      true,
    ]);
  });

  it.each([
    ["reason", { reason: "" }, /What reason/, /What authority|By what authority/],
    ["authority", { authority: " " }, /By what authority/, /What reason/],
  ] as const)("never passes without its %s: cannot tell, saying which is missing", (lack, bare, asks, not) => {
    const finding = found(emt(true), [{ ...added, ...bare }]);
    expect(finding.verdict).toBe("cannot-tell");
    const all = lines(finding.reasons);
    expect(all[0]).toMatch(asks);
    expect(all[0]).not.toMatch(not);
    expect(all).toContainEqual(expect.stringContaining(`EMT with steel fittings | cannot tell: no ${lack} recorded |`));
    expect(finding.remedies.map(({ text }) => text).join()).toMatch(asks);
    // Where it would not matter, nothing is kept open.
    expect(found(emt(false), [{ ...added, ...bare }]).verdict).toBe("too-close");
    expect(found(emtAt(2), [{ ...added, ...bare }]).verdict).toBe("clear");
    const result = check({ a: roof(144) }, { e1: emt(true) }, amended([{ ...added, ...bare }]));
    expect(result.notices.map(({ code }) => code)).toEqual([`amendment.added-no-${lack}`]);
    for (const { code, params, where } of result.notices) expect(checkMessages[code]?.(params, where)).toBeTruthy();
  });

  it("goes along when another edition is compared", () => {
    const job = withParts(amended([added]), { a: roof(144) }, { e1: emt(true) });
    const other = { ...job, settings: { job: { ...job.settings.job, edition: "us-2026" } } };
    expect(checkJob(other).findings.map(({ verdict }) => verdict)).toEqual(["not-governed"]);
    expect(verdictChanges(checkJob(job), checkJob(other))).toEqual([]);
  });

  it("comes back from a file as it was, and is refused without a condition, a name, or with a fact no exception asks for", () => {
    const job = withParts(amended([added]), { a: roof(144) }, { e1: emt(true) });
    const back = parseJobText(jobText(job));
    expect(back.ok && back.value).toEqual(job);
    expect(JSON.parse(jobText(job)).version).toBe(1);
    const refused = (change: object) => () => withParts(amended([{ ...added, ...change } as never]), {}, {});
    expect(refused({})).not.toThrow();
    expect(refused({ needs: [] })).toThrow(/amendments\/0\/needs/);
    expect(refused({ lifts: [] })).toThrow(/amendments\/0\/lifts/);
    expect(refused({ label: "" })).toThrow(/amendments\/0\/label/);
    expect(refused({ needs: [{ ...added.needs[0], fact: "wiring.colour" }] })).toThrow(/needs\/0\/fact/);
    expect(refused({ id: "x" })).toThrow(/amendments\/0\/id/);
  });
});

describe("an amendment without a reason or an authority", () => {
  it("applies, and both are asked for", () => {
    const bare = { ...larger, reason: "", authority: " " };
    const result = check({ a: roof(144) }, { e1: emtAt(1.75) }, amended([bare]));
    expect(result.findings[0]?.verdict).toBe("too-close");
    expect(result.notices.map(({ code }) => code)).toEqual(["amendment.no-reason", "amendment.no-authority"]);
    expect(lines(result.findings[0]!.reasons).join("\n")).toMatch(/no reason recorded, by decision of nobody recorded/);
  });
});

describe("an amendment that cannot apply", () => {
  const smaller: Amendment = { ...larger, clearance: { imperial: inch(1), metric: { value: 25, unit: "mm" } } };

  it("is a notice with its place and words, and the rest of the rule is as it was", () => {
    const result = check({ a: roof(144) }, { e1: emtAt(1.25) }, amended([strike("mi-cable"), smaller]));
    expect(result.notices.map(({ code, where }) => [code, where])).toEqual([
      ["amendment.no-such-exception", "settings/job/amendments/0"],
      ["amendment.smaller-clearance", "settings/job/amendments/1"],
    ]);
    for (const { code, params, where } of result.notices) expect(checkMessages[code]?.(params, where)).toBeTruthy();
    expect(result.findings[0]?.verdict).toBe("too-close");
    expect(result.findings[0]?.requiredIn).toBe(1.5);
  });
});

describe("a job with amendments", () => {
  it("is refused with an unknown key, a kind that is not known, or without a word on reason and authority", () => {
    const bad = (one: unknown) => () => check({ a: roof(144) }, { e1: emtAt(2) }, amended([one as never]));
    expect(bad(larger)).not.toThrow();
    expect(bad({ ...larger, note: "" })).toThrow(/amendments\/0\/note/);
    expect(bad({ kind: "larger-clearance", clearance: larger, authority: "" })).toThrow(/amendments\/0\/reason/);
    expect(bad({ kind: "struck-exception", exception: "x", reason: "y" })).toThrow(/amendments\/0\/authority/);
    expect(bad({ ...larger, kind: "added-exception" })).toThrow(/amendments\/0/);
  });
});
