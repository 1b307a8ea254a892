import { describe, expect, it } from "vitest";
import { amendRuleSet } from "../../src/rules/amend.ts";
import { rulesMessage } from "../../src/rules/messages.ts";
import { findRuleSet } from "../../src/rules/rule-sets.ts";

const set = findRuleSet("us-2023")!;
const reason = "Ordinance 7";

describe("amendRuleSet", () => {
  it("asks for more, and strikes an exception, leaving the edition itself as it was", () => {
    const amended = amendRuleSet(set, [
      { kind: "larger-clearance", clearance: { value: 2, unit: "in" }, reason },
      { kind: "struck-exception", exception: "rmc-imc-steel", reason },
    ]);
    expect(amended.ok && amended.value.clearance.imperial).toEqual({ value: 2, unit: "in" });
    expect(amended.ok && amended.value.exceptions.map((exception) => exception.id)).toEqual(["concrete-cover"]);
    expect(set.exceptions).toHaveLength(2);
    expect(set.clearance.imperial.value).toBe(1.5);
  });
  it("refuses a smaller distance, an unknown exception and a missing reason, all at once", () => {
    const amended = amendRuleSet(set, [
      { kind: "larger-clearance", clearance: { value: 1, unit: "in" }, reason },
      { kind: "struck-exception", exception: "mi-cable", reason },
      { kind: "struck-exception", exception: "rmc-imc-steel", reason: " " },
      { kind: "larger-clearance", clearance: { value: Number.NaN, unit: "in" }, reason },
    ]);
    const found = amended.ok ? [] : amended.problems;
    expect(found.map((problem) => [problem.where, problem.code])).toEqual([
      ["0", "amendment.smaller-clearance"],
      ["1", "amendment.no-such-exception"],
      ["2", "amendment.no-reason"],
      ["3", "amendment.smaller-clearance"],
    ]);
    for (const problem of found) expect(rulesMessage(problem)).toBeTruthy();
    expect(rulesMessage(found[0]!)).toContain(`1 1/2", not for 1"`);
  });
});
