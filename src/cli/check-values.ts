import { LIMIT_TOLERANCE } from "../geometry/tolerance.ts";
import { emptyJob } from "../job/schema.ts";
import type { FactTest, RuleSet, StatedLength } from "../rules/rule-set.ts";
import { ruleSets } from "../rules/rule-sets.ts";
import { allTables, type TradeTable } from "../trade/all-tables.ts";
import type { SourceId } from "../trade/sources.ts";
import type { Length } from "../units/length.ts";
import { MM_PER_INCH } from "../units/quantity.ts";

/** Where a value comes from that no source outside the program states: the program's own choice, to be changed in a job or in the code. */
export const OWN_CHOICE = "own choice";

/** One value that a check may read. */
export interface CheckValue {
  readonly table: string;
  /** What the value is of, in words of its table: `emt 3/4, outside`. */
  readonly row: string;
  /** Undefined: it has no default and is given for each job. */
  readonly value: string | number | undefined;
  readonly unit: string;
  readonly source: SourceId | typeof OWN_CHOICE;
  readonly note?: string;
}

/** Every value that a check may read: rule sets, trade tables, and what the program itself chose, in the order they are listed in. */
export const checkValues = (): readonly CheckValue[] => [
  ...ruleSets.flatMap(ofRuleSet),
  ...allTables().flatMap(ofTable),
  ...own(),
];

function ofRuleSet(set: RuleSet): CheckValue[] {
  const { scope, provenance, concealment, entry } = set;
  const table = `rule set ${set.id}`;
  const word = (row: string, value: string, source: SourceId): CheckValue => ({ table, row, value, unit: "", source });
  const stated = (row: string, { imperial, metric }: StatedLength, source: SourceId): CheckValue[] => [
    length(table, `${row}, US customary`, imperial, source),
    length(table, `${row}, metric`, metric, source),
  ];
  const need = (id: string, { fact, test, when }: FactTest, source: SourceId): CheckValue[] => {
    const row = `exception ${id}, ${fact}${when ? ` (asked where ${when.fact} fits)` : ""}`;
    if ("atLeast" in test) return stated(row, test.atLeast, source);
    return [word(row, "oneOf" in test ? test.oneOf.join(", ") : test.is ? "yes" : "no", source)];
  };
  return [
    word("section", set.section, provenance.section),
    word("elements", scope.elements.join(", "), provenance.elements),
    word("decks", scope.decks === "any" ? "any roof decking" : scope.decks.join(", "), provenance.decks),
    ...stated("clearance", set.clearance, provenance.clearance),
    word("measured", set.measured, provenance.measured),
    ...(concealment ? [word("not concealed in", concealment.decks.join(", "), provenance.concealment)] : []),
    ...set.exceptions.flatMap(({ id, lifts, needs, source }) => [
      word(`exception ${id}, lifts`, lifts.join(", "), source),
      ...needs.flatMap((each) => need(id, each, source)),
    ]),
    ...(entry
      ? [
          word("entry, section", entry.section, entry.source),
          word("entry, smallest conductor", entry.smallestConductor, entry.source),
          word("entry, before pulling", entry.beforePulling ? "yes" : "no", entry.source),
          ...entry.protections.map(({ id, temperatureRated, needsFastening, source }) =>
            word(
              `entry, protection ${id}`,
              `${temperatureRated ? "rated" : "not rated"} for temperature, ${needsFastening ? "fastening asked for" : "secures itself"}`,
              source,
            ),
          ),
        ]
      : []),
  ];
}

/** The cells with a source, and those to be given for a job; the others are what rows go by. */
function ofTable({ name, columns, rows }: TradeTable): CheckValue[] {
  return rows.flatMap((row) => {
    const key = row.filter(({ source, value }) => source === undefined && value !== undefined);
    // The first names are short ids; longer words behind them only say the same again.
    const goesBy = key.map(({ value }) => `${value}`).filter((text, i) => i === 0 || !/ /.test(text));
    return row.flatMap(({ value, unit, source, note }, i): CheckValue[] => {
      if (source === undefined && value !== undefined) return [];
      const cell = {
        table: name,
        row: `${goesBy.join(" ")}, ${columns[i]}`,
        value,
        unit: value === undefined ? "" : unit,
      };
      return [{ ...cell, source: source ?? OWN_CHOICE, ...(note === undefined ? {} : { note }) }];
    });
  });
}

/** What the program chose for itself; a job may say otherwise where it has a field for it. */
function own(): CheckValue[] {
  const table = "the program's own";
  const { tolerances } = emptyJob("", "").settings.job;
  return [
    ...Object.entries(tolerances).map(([name, value]) =>
      length(table, `tolerance of a new job, ${name}`, value, OWN_CHOICE),
    ),
    { table, row: "distances count as equal within", value: LIMIT_TOLERANCE, unit: "in", source: OWN_CHOICE },
    { table, row: "one inch", value: MM_PER_INCH, unit: "mm", source: "nist-sp-811" },
  ];
}

const length = (table: string, row: string, { value, unit }: Length, source: CheckValue["source"]): CheckValue => ({
  table,
  row,
  value,
  unit,
  source,
});
