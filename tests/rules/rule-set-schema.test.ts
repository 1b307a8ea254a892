import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import us2023 from "../../src/rules/editions/us-2023.json";
import { rulesMessage } from "../../src/rules/messages.ts";
import { assertRuleSet, parseRuleSet } from "../../src/rules/rule-set-schema.ts";
import { findRuleSet, ruleSets } from "../../src/rules/rule-sets.ts";
import { requiredClearance } from "../../src/rules/scope.ts";
import { findRacewayKind } from "../../src/trade/raceways.ts";
import { findSource } from "../../src/trade/sources.ts";

type Path = readonly (string | number)[];

/** A copy of the 2023 data with the value at `path` replaced, or taken out when `value` is undefined. */
function broken(path: Path, value?: unknown): unknown {
  const copy = structuredClone(us2023) as unknown;
  let holder = copy as Record<string | number, unknown>;
  for (const step of path.slice(0, -1)) holder = holder[step] as Record<string | number, unknown>;
  const last = path[path.length - 1]!;
  if (value === undefined) delete holder[last];
  else holder[last] = value;
  return copy;
}

/** Every path in a value. */
function paths(value: unknown, path: Path = []): Path[] {
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => {
    const here = [...path, Array.isArray(value) ? Number(key) : key];
    return [here, ...paths(inner, here)];
  });
}

describe("parseRuleSet", () => {
  it("reads every edition file, and every edition file is listed", () => {
    const files = readdirSync("src/rules/editions");
    expect(files.map((file) => file.replace(".json", "")).sort()).toEqual(ruleSets.map((set) => set.id).sort());
    for (const file of files) {
      const data: unknown = JSON.parse(readFileSync(`src/rules/editions/${file}`, "utf8"));
      expect(parseRuleSet(data)).toEqual({ ok: true, value: data });
    }
  });

  it("refuses an unknown key anywhere, with the path to it", () => {
    const holders = [[], ...paths(us2023)].filter((path) => {
      const value = path.reduce<unknown>((inner, step) => (inner as Record<string | number, unknown>)[step], us2023);
      return typeof value === "object" && value !== null && !Array.isArray(value);
    });
    expect(holders.length).toBeGreaterThan(50);
    for (const path of holders) {
      const read = parseRuleSet(broken([...path, "colour"], "red"));
      expect(read.ok, path.join("/")).toBe(false);
      const where = read.ok ? [] : read.problems.map((problem) => problem.where);
      // Inside a choice of shapes the path leads to the choice.
      const full = [...path, "colour"].join("/");
      expect(
        where.some((at) => at !== "" && full.startsWith(at)),
        full,
      ).toBe(true);
    }
  });

  it("refuses a missing source, wherever one belongs", () => {
    const places = paths(us2023).filter((path) => path.at(-1) === "source" || path[0] === "provenance");
    expect(places.length).toBeGreaterThan(20);
    for (const path of places) {
      expect(parseRuleSet(broken(path)).ok, path.join("/")).toBe(false);
      if (path.length > 1) expect(parseRuleSet(broken(path, "somewhere")).ok, path.join("/")).toBe(false);
    }
  });

  it("says where: missing, not allowed, unknown", () => {
    const first = (data: unknown) => {
      const read = parseRuleSet(data);
      return read.ok ? undefined : read.problems[0];
    };
    expect(first(broken(["clearance", "metric"]))).toMatchObject({ code: "rules.missing", where: "clearance/metric" });
    expect(first(broken(["provenance", "clearance"], "hearsay"))).toMatchObject({
      code: "rules.not-allowed",
      where: "provenance/clearance",
    });
    expect(first(broken(["scope", "colour"], "red"))).toMatchObject({
      code: "rules.unknown-key",
      where: "scope/colour",
    });
    expect(first(broken(["examples"], []))).toMatchObject({ where: "examples" });
    expect(first(broken(["exceptions", 0, "needs"], []))).toMatchObject({ where: "exceptions/0/needs" });
    expect(first(null)?.where).toBe("");
    expect(() => assertRuleSet({})).toThrow(/clearance: rules.missing/);
  });

  it("words its problems", () => {
    expect(rulesMessage({ code: "rules.unknown-key", where: "scope/colour", params: { key: "colour" } })).toContain(
      "colour",
    );
    expect(rulesMessage({ code: "length.empty", where: "", params: {} })).toBeUndefined();
  });
});

describe("the editions", () => {
  it("ask for 1 1/2 in., stated in metric as 38 mm", () => {
    for (const set of ruleSets) {
      expect(requiredClearance(set, "imperial")).toBe(1.5);
      expect(requiredClearance(set, "metric")).toBeCloseTo(38 / 25.4, 12);
    }
  });
  it("name raceway kinds that the raceway table has, and sources that are listed", () => {
    for (const set of ruleSets) {
      for (const test of set.exceptions.flatMap((exception) => exception.needs)) {
        if (test.fact === "wiring.kind" && "oneOf" in test.test)
          for (const kind of test.test.oneOf) expect(findRacewayKind(kind), kind).toBeDefined();
      }
      for (const source of Object.values(set.provenance)) expect(findSource(source)).toBeDefined();
    }
  });
  it("differ as published: 2026 covers any decking and conduit bodies, under 300.6(E)", () => {
    const [before, after] = [findRuleSet("us-2023")!, findRuleSet("us-2026")!];
    expect([before.section, after.section]).toEqual(["300.4(E)", "300.6(E)"]);
    expect([before.entry?.section, after.entry?.section]).toEqual(["300.4(G)", "300.6(G)"]);
    expect([before.scope.decks, after.scope.decks]).toEqual([["metal-corrugated"], "any"]);
    expect(after.scope.elements).toContain("conduit-body");
    expect(before.scope.elements).not.toContain("conduit-body");
    expect(after.concealment?.decks).toEqual(["metal-corrugated"]);
    expect([before.entry?.beforePulling, after.entry?.beforePulling]).toEqual([true, false]);
    expect(findRuleSet("us-1999")).toBeUndefined();
  });
});
