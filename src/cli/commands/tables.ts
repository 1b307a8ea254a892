import type { FactTest, RuleSet, StatedLength } from "../../rules/rule-set.ts";
import { ruleSets } from "../../rules/rule-sets.ts";
import { allTables, type TableCell, type TradeTable } from "../../trade/all-tables.ts";
import { findSource, type SourceId, sources } from "../../trade/sources.ts";
import type { Length } from "../../units/length.ts";
import type { Outcome } from "../outcome.ts";
import { refuse } from "../refusal.ts";

/** How the tables are printed. */
export type TablesFormat = "text" | "json";

/** `tables [NAME]`: the trade tables and the rule sets, or the one named, with the source of every value. */
export function tablesCommand(name: string | undefined, format: TablesFormat): Outcome {
  const tables = allTables().filter((table) => name === undefined || table.name === name);
  const rules = ruleSets.filter((set) => name === undefined || set.id === name);
  if (tables.length + rules.length === 0) {
    const known = [...allTables().map((table) => table.name), ...ruleSets.map((set) => set.id)].join(", ");
    refuse("cli.no-such-table", "", { name: name ?? "", known });
  }
  const out = format === "json" ? asJson(tables, rules) : asText(tables, rules);
  return { out, status: 0 };
}

function asJson(tables: readonly TradeTable[], rules: readonly RuleSet[]): string {
  const listed = tables.map(({ name, title, columns, rows }) => ({
    name,
    title,
    rows: rows.map((row) => Object.fromEntries(columns.map((column, i) => [column, cellJson(row[i]!)]))),
  }));
  return `${JSON.stringify({ tables: listed, rules, sources }, null, 2)}\n`;
}

/** What a row goes by is a plain value; everything else carries its unit and its source. null: to be given for the job. */
function cellJson({ value, unit, source, note }: TableCell): unknown {
  if (value === undefined) return null;
  if (source === undefined) return value;
  return { value, ...(unit === "" ? {} : { unit }), source, ...(note === undefined ? {} : { note }) };
}

function asText(tables: readonly TradeTable[], rules: readonly RuleSet[]): string {
  const cited: string[] = [];
  const cite = (source: SourceId, note?: string): string => {
    const found = findSource(source);
    const words = [`${found?.title ?? source}${note ? ` — ${note}` : ""}`, found?.checked ?? ""].join("\n    ");
    if (!cited.includes(words)) cited.push(words);
    return `[${cited.indexOf(words) + 1}]`;
  };
  const parts = [...tables.map((table) => tableText(table, cite)), ...rules.map((set) => ruleText(set, cite))];
  const list = cited.map((words, i) => `[${i + 1}] ${words}`);
  return `${[...parts, ["Sources, and what was compared with what", ...list].join("\n")].join("\n\n")}\n`;
}

type Cite = (source: SourceId, note?: string) => string;

function tableText({ name, title, columns, rows }: TradeTable, cite: Cite): string {
  const lines = [
    [...columns],
    ...rows.map((row) =>
      row.map(({ value, unit, source, note }) => {
        if (value === undefined) return "—";
        const shown = unit === "" ? `${value}` : `${value} ${unit}`;
        return source === undefined ? shown : `${shown} ${cite(source, note)}`;
      }),
    ),
  ];
  const widths = columns.map((_, i) => Math.max(...lines.map((line) => line[i]!.length)));
  const rows_ = lines.map((line) =>
    line
      .map((text, i) => text.padEnd(widths[i]!))
      .join("  ")
      .trimEnd(),
  );
  return [`${title} (${name})`, ...rows_].join("\n");
}

function ruleText(set: RuleSet, cite: Cite): string {
  const { scope, clearance, concealment, provenance, entry } = set;
  const lines = [
    `Rule set ${set.id}: ${set.code}, ${set.edition}, ${set.section}. ${set.title}`,
    `  covers: ${scope.elements.join(", ")} ${cite(provenance.elements)}`,
    `  decks: ${scope.decks === "any" ? "any roof decking" : scope.decks.join(", ")} ${cite(provenance.decks)}`,
    `  clearance: not less than ${stated(clearance)} ${cite(provenance.clearance)}`,
    `  measured: ${set.measured} ${cite(provenance.measured)}`,
  ];
  if (concealment)
    lines.push(
      `  not concealed in the corrugations of: ${concealment.decks.join(", ")} (${concealment.section}) ${cite(provenance.concealment)}`,
    );
  for (const exception of set.exceptions) {
    lines.push(`  exception ${exception.id}, ${exception.section}: ${exception.label} ${cite(exception.source)}`);
    for (const need of exception.needs) lines.push(`    needs ${need.fact}: ${requirement(need)}`);
  }
  if (entry) {
    const pulling = entry.beforePulling ? ", in place before the conductors are pulled" : "";
    lines.push(`  entry, ${entry.section}: from ${entry.smallestConductor} AWG up${pulling} ${cite(entry.source)}`);
  }
  for (const { label, temperatureRated, needsFastening, source } of entry?.protections ?? []) {
    const rated = temperatureRated ? "; rated not lower than the insulation" : "";
    const fastened = needsFastening ? "; does not fasten the raceway" : "";
    lines.push(`    ${label}${rated}${fastened} ${cite(source)}`);
  }
  return lines.join("\n");
}

const lengthText = ({ value, unit }: Length): string => `${value} ${unit === "in" ? "in." : unit}`;
const stated = ({ imperial, metric }: StatedLength): string => `${lengthText(imperial)} (${lengthText(metric)})`;

function requirement({ test }: FactTest): string {
  if ("oneOf" in test) return `one of ${test.oneOf.join(", ")}`;
  if ("is" in test) return test.is ? "yes" : "no";
  return `at least ${stated(test.atLeast)}`;
}
