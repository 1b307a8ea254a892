import { describe, expect, it } from "vitest";
import { type Amendment, amendRuleSet } from "../../src/rules/amend.ts";
import { conditionChoices } from "../../src/rules/condition-choices.ts";
import { rulesMessage } from "../../src/rules/messages.ts";
import { findRuleSet } from "../../src/rules/rule-sets.ts";

const set = findRuleSet("us-2023")!;
const grounds = { reason: "Ordinance 7", authority: "Building department of Inventedville" };
const larger = (imperial: number, metric: number): Amendment => ({
  kind: "larger-clearance",
  clearance: { imperial: { value: imperial, unit: "in" }, metric: { value: metric, unit: "mm" } },
  ...grounds,
});
const strike = (exception: string): Amendment => ({ kind: "struck-exception", exception, ...grounds });

describe("amendRuleSet", () => {
  it("asks for more, and strikes an exception, leaving the edition itself as it was", () => {
    const amended = amendRuleSet(set, [larger(2, 50), strike("rmc-imc-steel")]);
    expect(amended.problems).toEqual([]);
    expect(amended.rules.clearance.imperial).toEqual({ value: 2, unit: "in" });
    expect(amended.rules.clearance.metric).toEqual({ value: 50, unit: "mm" });
    expect(amended.clearanceBy).toEqual(larger(2, 50));
    expect(amended.rules.exceptions.map((exception) => exception.id)).toEqual(["concrete-cover"]);
    expect(amended.struck.map(({ exception }) => exception.id)).toEqual(["rmc-imc-steel"]);
    expect(amended.unamended).toBe(set);
    expect(set.exceptions).toHaveLength(2);
    expect(set.clearance.imperial.value).toBe(1.5);
  });

  it("leaves out and names what asks for less in either unit system or strikes nothing, and applies the others", () => {
    const amended = amendRuleSet(set, [
      larger(1, 50),
      larger(2, 37),
      strike("mi-cable"),
      larger(2, 50),
      larger(1.75, 60),
    ]);
    expect(amended.problems.map((problem) => [problem.where, problem.code])).toEqual([
      ["0", "amendment.smaller-clearance"],
      ["1", "amendment.smaller-clearance"],
      ["2", "amendment.no-such-exception"],
      ["4", "amendment.smaller-clearance"],
    ]);
    expect(amended.applied).toEqual([false, false, false, true, false]);
    expect(amended.rules.clearance.imperial.value).toBe(2);
    expect(amended.rules.exceptions).toEqual(set.exceptions);
    const words = amended.problems.map((problem) => rulesMessage(problem));
    expect(words[0]).toContain(`more than 1 1/2", not for 1"`);
    expect(words[1]).toContain("more than 38 mm, not for 37 mm");
    expect(words[2]).toContain('"mi-cable"');
  });

  it("refuses a clearance that is no number", () => {
    expect(amendRuleSet(set, [larger(Number.NaN, 50)]).problems.map(({ code }) => code)).toEqual([
      "amendment.smaller-clearance",
    ]);
  });

  it("applies one without a reason or an authority, since it is stricter, and names the lack", () => {
    const amended = amendRuleSet(set, [{ ...larger(2, 50), reason: " ", authority: "" }]);
    expect(amended.problems.map(({ code }) => code)).toEqual(["amendment.no-reason", "amendment.no-authority"]);
    expect(amended.problems.map((problem) => rulesMessage(problem)).every(Boolean)).toBe(true);
    expect(amended.rules.clearance.imperial.value).toBe(2);
  });

  it("puts an exception in beside the edition's own, and none that lacks its reason or authority is applied", () => {
    const add: Amendment = {
      kind: "added-exception",
      label: "EMT",
      section: "Ordinance 7, paragraph 2",
      lifts: ["clearance"],
      needs: [{ fact: "wiring.kind", test: { oneOf: ["emt"] }, question: "Which kind?" }],
      ...grounds,
    };
    const bare = { ...add, reason: " ", authority: "" };
    const amended = amendRuleSet(set, [add, bare, { ...add, authority: "" }]);
    expect(amended.added).toEqual([
      { by: add, lacks: [] },
      { by: bare, lacks: ["reason", "authority"] },
      { by: { ...add, authority: "" }, lacks: ["authority"] },
    ]);
    expect(amended.applied).toEqual([true, false, false]);
    expect(amended.rules).toBe(set);
    expect(amended.problems.map(({ where, code }) => [where, code])).toEqual([
      ["1", "amendment.added-no-reason"],
      ["1", "amendment.added-no-authority"],
      ["2", "amendment.added-no-authority"],
    ]);
    for (const problem of amended.problems) expect(rulesMessage(problem)).toMatch(/"EMT".*not applied/);
  });
});

describe("conditionChoices", () => {
  it("are the facts that exceptions of the editions ask for, each once", () => {
    expect(conditionChoices.map(({ fact }) => fact).toSorted()).toEqual([
      "deck.concreteCover",
      "element.accessible",
      "element.concreteThickness",
      "element.inConcrete",
      "wiring.kind",
      "wiring.steelFittings",
    ]);
  });
});
