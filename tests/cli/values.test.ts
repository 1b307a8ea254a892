import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { checkValues, OWN_CHOICE } from "../../src/cli/check-values.ts";
import { valuesDocument } from "../../src/cli/values-document.ts";
import { ruleSets } from "../../src/rules/rule-sets.ts";
import { allTables } from "../../src/trade/all-tables.ts";
import { findSource } from "../../src/trade/sources.ts";

const values = checkValues();

/** Every length with a unit in a piece of data. */
function lengths(data: unknown): number[] {
  if (typeof data !== "object" || data === null) return [];
  if ("value" in data && "unit" in data && typeof data.value === "number") return [data.value];
  return Object.values(data).flatMap(lengths);
}

describe("docs/values.md", () => {
  test("is what the data says; if not: npm run values", () => {
    // Compared as one: a list of every line that differs helps nobody.
    expect(readFileSync("docs/values.md", "utf8") === valuesDocument(), "run npm run values").toBe(true);
  });

  test("would be found stale after a change of any value", () => {
    const [emt] = values.filter(({ row }) => row === "emt raceway 3/4, outside");
    // ANSI C80.3: 0.922 in.
    expect(emt).toMatchObject({ table: "raceways", value: 0.922, unit: "in", source: "ansi-c80.3" });
    expect(valuesDocument()).toContain("| emt raceway 3/4, outside | 0.922 | in | `ansi-c80.3` | published |");
  });

  test("gives every value a source that is listed, or says that the program chose it", () => {
    const without = values.filter(({ source }) => source !== OWN_CHOICE && !findSource(source));
    expect(without).toEqual([]);
    const chosen = values.filter(({ source, value }) => source === OWN_CHOICE && value !== undefined);
    expect([...new Set(chosen.map(({ table }) => table))]).toEqual(["the program's own"]);
  });

  test("names each value once", () => {
    const names = values.map(({ table, row }) => `${table}: ${row}`);
    expect(names.filter((name, i) => names.indexOf(name) !== i)).toEqual([]);
  });

  test("leaves out no cell of a trade table", () => {
    for (const { name, rows } of allTables()) {
      const listed = values.filter(({ table }) => table === name);
      const cells = rows.flat().filter(({ source, value }) => source !== undefined || value === undefined);
      expect(listed.map(({ value }) => value)).toEqual(cells.map(({ value }) => value));
      expect(listed.length, name).toBeGreaterThan(0);
    }
  });

  test("leaves out no length of a rule set, and no exception or protection", () => {
    for (const { examples: _cases, ...set } of ruleSets) {
      const listed = values.filter(({ table }) => table === `rule set ${set.id}`);
      const { examples: _more, ...entry } = { examples: [], ...set.entry };
      const found = listed.flatMap(({ value }) => (typeof value === "number" ? [value] : []));
      expect(found).toEqual(lengths({ ...set, entry }));
      const rows = listed.map(({ row }) => row).join("\n");
      for (const { id } of set.exceptions) expect(rows).toContain(`exception ${id}, `);
      for (const { id } of set.entry?.protections ?? []) expect(rows).toContain(`protection ${id}`);
    }
  });
});
