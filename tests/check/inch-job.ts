import { checkJob } from "../../src/check/check-job.ts";
import type { CheckResult, Finding } from "../../src/check/finding.ts";
import type { Element } from "../../src/job/elements/element.ts";
import { type ElementFacts, NO_FACTS, type Tag } from "../../src/job/fields.ts";
import { parseJob } from "../../src/job/parse-job.ts";
import { type Area, emptyJob, type Job } from "../../src/job/schema.ts";
import { plainSheet, plainViewport } from "../job/plain-records.ts";

/** A job on one sheet where one sheet unit is one inch of building (a ratio of 72), so that tests read like drawings. */
export function inchJob(edition = "us-2023"): Job {
  const job = emptyJob("Boathouse", edition);
  return {
    ...job,
    settings: { job: { ...job.settings.job, tolerances: { ...job.settings.job.tolerances, plan: inch(0) } } },
    sheets: { s1: plainSheet({ title: "RCP", view: [0, 0, 1000, 1000] }) },
    viewports: { v1: plainViewport("s1", 72, { storey: "level-1" }) },
  };
}

export const inch = (value: number) => ({ value, unit: "in" as const });

export const tag = (value: number, basis: Tag["basis"] = "centre", more: Partial<Tag> = {}): Tag => ({
  length: inch(value),
  datum: { from: "project" },
  basis,
  plusMinus: null,
  ...more,
});

/** A rectangle from (x0, y0) to (x1, y1). */
export const rectangle = (x0: number, y0: number, x1: number, y1: number): [number, number][] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** A level wide-rib steel roof whose lowest surface is at z, no concrete on it, over (0,0) to (600,600) unless said otherwise. */
export const roof = (z: number | null, more: Partial<Area> = {}): Area => ({
  label: "A-1",
  viewport: "v1",
  outline: rectangle(0, 0, 600, 600),
  holes: [],
  classification: { is: "roof", reason: "roof framing plan", by: "K. Invented" },
  deck: { profile: "wide-rib-1-1/2", depth: null, concreteCover: { is: "none" } },
  elevation: {
    datum: { from: "project" },
    basis: "bottom-of-deck",
    layers: [],
    shape: { is: "level", at: z === null ? null : inch(z) },
    plusMinus: null,
  },
  ...more,
});

type Vertex = readonly [x: number, y: number, z: number | Tag | null];

/** A 3/4 EMT run unless said otherwise; a number is an elevation to the centre above the project datum. */
export const run = (vertices: readonly Vertex[], more: Partial<Extract<Element, { kind: "run" }>> = {}): Element => ({
  kind: "run",
  label: "R-1",
  viewport: "v1",
  wiring: { type: "emt", tradeSize: "3/4", outsideDiameter: null },
  vertices: vertices.map(([x, y, z]) => ({ at: [x, y] as const, tag: typeof z === "number" ? tag(z) : z })),
  facts: NO_FACTS,
  ...more,
});

export const box = (
  x: number,
  y: number,
  t: Tag | null,
  more: Partial<Extract<Element, { kind: "box" }>> = {},
): Element => ({
  kind: "box",
  label: "B-1",
  viewport: "v1",
  at: [x, y],
  item: "4sq-1-1/2",
  size: null,
  cover: "down",
  rotationDeg: 0,
  tag: t,
  facts: NO_FACTS,
  ...more,
});

export const facts = (more: Partial<ElementFacts>): ElementFacts => ({ ...NO_FACTS, ...more });

/** The job with these areas and elements; it has to be a job the program opens. */
export function withParts(base: Job, areas: Record<string, Area>, elements: Record<string, Element>): Job {
  const job: Job = { ...base, areas, elements };
  const parsed = parseJob(JSON.parse(JSON.stringify(job)));
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}

/** Checks one element under some areas and returns its findings. */
export function findingsOf(areas: Record<string, Area>, element: Element, base: Job = inchJob()): readonly Finding[] {
  return check(areas, { e1: element }, base).findings;
}

export const check = (
  areas: Record<string, Area>,
  elements: Record<string, Element>,
  base: Job = inchJob(),
): CheckResult => checkJob(withParts(base, areas, elements));

/** The only finding of an element. */
export function findingOf(areas: Record<string, Area>, element: Element, base: Job = inchJob()): Finding {
  const [only, second] = findingsOf(areas, element, base);
  if (!only || second) throw new Error(`expected one finding, got ${JSON.stringify([only?.verdict, second?.verdict])}`);
  return only;
}

/** The spots of a hip roof over 480 by 240 in.: eaves at 120 in., a ridge at 160 in. from (120, 120) to (360, 120). */
export const hipSpots = () =>
  [
    [0, 0, 120],
    [480, 0, 120],
    [480, 240, 120],
    [0, 240, 120],
    [120, 120, 160],
    [360, 120, 160],
  ].map(([x, y, z]) => ({ at: [x!, y!] as const, elevation: inch(z!) }));
