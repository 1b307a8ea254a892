import { readFileSync } from "node:fs";
import { expect } from "vitest";
import type { Box } from "../../src/job/elements/box.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Entry } from "../../src/job/elements/entry.ts";
import type { Fitting } from "../../src/job/elements/fitting.ts";
import type { Run } from "../../src/job/elements/run.ts";
import type { ElementFacts, Tag } from "../../src/job/fields.ts";
import { parseJobText } from "../../src/job/parse-job.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { readJobFile } from "../../src/store/job-file.ts";
import { formatLength } from "../../src/units/format-length.ts";
import { type Length, toInches } from "../../src/units/length.ts";

const parsed = parseJobText(readFileSync("samples/riverside-workshop/job.json", "utf8"));
if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
/** The sample's own job: what a person who does it again puts in. */
export const SAMPLE: Job = parsed.value;
export const SETTINGS = SAMPLE.settings.job;
/** The four areas, in the order of the table. */
export const AREAS: readonly Area[] = Object.values(SAMPLE.areas);
export const CEILING_PLAN = SAMPLE.viewports["ceiling-plan"]!;
export const FRAMING_PLAN = SAMPLE.viewports["framing-plan"]!;

/** Elements of a kind in the order of their labels, which is the order the program gives new ones their labels in. */
const ofKind = <K extends Element["kind"]>(kind: K) =>
  Object.values(SAMPLE.elements)
    .filter((element): element is Extract<Element, { kind: K }> => element.kind === kind)
    .sort((a, b) => a.label.localeCompare(b.label, "en", { numeric: true }));
export const RUNS: readonly Run[] = ofKind("run");
export const BOXES: readonly Box[] = ofKind("box");
export const FITTINGS: readonly Fitting[] = ofKind("fitting");
export const ENTRIES: readonly Entry[] = ofKind("entry");

/** A length as it is typed. */
export const lengthText = (length: Length): string => formatLength(toInches(length), "imperial");

/** A tag as it is typed: `15'-3 3/4" AFF top`, `4" below deck centre`, `11'-10" AFF centre ± 1/4"`. */
export function tagText({ length, datum, basis, plusMinus }: Tag): string {
  const from = datum.from === "below-deck" ? "below deck" : datum.from === "storey" ? "AFF" : "EL";
  return `${lengthText(length)} ${from} ${basis}${plusMinus ? ` ± ${lengthText(plusMinus)}` : ""}`;
}

const ASKED: Readonly<Record<keyof Omit<ElementFacts, "concreteThickness">, RegExp>> = {
  steelFittings: /Fittings and boxes of steel/,
  inConcrete: /Cast in concrete/,
  accessible: /Accessible/,
};
/** The facts that are recorded, each as the question on the card and its answer. */
export const factsOf = ({ facts }: { readonly facts: ElementFacts }) =>
  (Object.keys(ASKED) as (keyof typeof ASKED)[]).flatMap((fact) =>
    facts[fact] === null ? [] : [{ question: ASKED[fact], answer: facts[fact] ? "Yes" : "No" }],
  );

/** The job in a job file saved on the screen. */
export async function jobInFile(bytes: Uint8Array): Promise<Job> {
  const read = await readJobFile(bytes);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value.job;
}

/**
 * The job says what the sample's own says: settings, and every area and element by its label, ids apart. Places within so many
 * points of the sheet. Numbers that were given on the way, and whose labels were changed since, are not compared.
 */
export function expectSampleJob(job: Job, withinPoints: number): void {
  const { labelsGiven: _, ...settings } = job.settings.job;
  expect({ job: settings }).toEqual(SAMPLE.settings);
  for (const table of ["areas", "elements"] as const) {
    const [mine, theirs] = [spoken(job, table), spoken(SAMPLE, table)];
    expect(mine.said).toEqual(theirs.said);
    for (const [label, places] of Object.entries(theirs.places))
      places.forEach((place, i) => {
        const off = Math.abs(place - (mine.places[label]?.[i] ?? Number.NaN));
        expect(off, `${label} on the sheet`).toBeLessThanOrEqual(withinPoints);
      });
  }
}

/** The records of a table by label: what each says without its places and with labels and names for ids, and its places. */
function spoken(job: Job, table: "areas" | "elements") {
  const labels: Record<string, string> = {};
  for (const [id, { floor }] of Object.entries(job.storeys)) labels[id] = `storey at ${lengthText(floor)}`;
  for (const [id, { sheet }] of Object.entries(job.viewports)) labels[id] = `page ${job.sheets[sheet]!.page}`;
  for (const [id, { label }] of [...Object.entries(job.areas), ...Object.entries(job.elements)]) labels[id] = label;
  const places: Record<string, number[]> = {};
  const said: Record<string, unknown> = {};
  for (const record of Object.values(job[table])) {
    const own: number[] = [];
    said[record.label] = JSON.parse(JSON.stringify(record), (_key, value) => {
      if (typeof value === "string") return labels[value] ?? value;
      const isPlace = Array.isArray(value) && value.length === 2 && value.every((part) => typeof part === "number");
      if (!isPlace) return value;
      own.push(...(value as number[]));
      return "a place";
    });
    places[record.label] = own;
  }
  return { said, places };
}
