import { describe, expect, test } from "vitest";
import { ruleSets } from "../../src/rules/rule-sets.ts";
import { allTables } from "../../src/trade/all-tables.ts";
import { runCommand } from "./run-command.ts";

interface Listed {
  readonly tables: {
    readonly name: string;
    readonly rows: Record<string, { value: number; unit: string; source: string }>[];
  }[];
  readonly rules: { readonly id: string }[];
  readonly sources: { readonly id: string }[];
}

describe("underside tables", () => {
  test("lists every table and every rule set, and every source they name", async () => {
    const ran = await runCommand("tables", "--format", "json");
    expect(ran).toMatchObject({ status: 0, error: "" });
    const listed = JSON.parse(ran.out) as Listed;
    expect(listed.tables.map(({ name }) => name)).toEqual(allTables().map(({ name }) => name));
    expect(listed.rules.map(({ id }) => id)).toEqual(ruleSets.map(({ id }) => id));
    const known = new Set(listed.sources.map(({ id }) => id));
    const named = [...ran.out.matchAll(/"source": "([^"]+)"/g)].map((match) => match[1]);
    expect(named.length).toBeGreaterThan(50);
    expect(named.filter((id) => !known.has(id!))).toEqual([]);
  });

  // ANSI C80.3: trade size 3/4 is 0.922 in. across (a known misprint says 0.992).
  test("gives a value with its unit and source", async () => {
    const { tables } = JSON.parse((await runCommand("tables", "raceways", "--format", "json")).out) as Listed;
    const row = tables[0]!.rows.find(({ kind, size }) => `${kind} ${size}` === "emt 3/4");
    expect(row?.outside).toMatchObject({ value: 0.922, unit: "in", source: "ansi-c80.3" });
  });

  test("prints one table as text, with its sources below", async () => {
    const { out, status } = await runCommand("tables", "raceways");
    expect(status).toBe(0);
    const cited = /^emt .* 3\/4 +0\.922 in \[(\d+)\]$/m.exec(out);
    expect(out).toContain(`\n[${cited?.[1]}] ANSI C80.3`);
    expect(out).not.toContain("Deck profiles");
  });

  test("prints a rule set as text", async () => {
    const { out } = await runCommand("tables", "us-2026");
    expect(out).toContain("300.6(E)");
    expect(out).toContain("not less than 1.5 in. (38 mm)");
    expect(out).not.toContain("us-2023");
  });

  test("refuses an unknown name and names the known ones", async () => {
    const { status, out, error } = await runCommand("tables", "nothing");
    expect([status, out]).toEqual([2, ""]);
    expect(error).toMatch(/no table "nothing".*raceways/);
  });

  test("gives the same bytes twice", async () => {
    expect((await runCommand("tables")).out).toBe((await runCommand("tables")).out);
  });
});
