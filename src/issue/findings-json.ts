import { type DeckAbove, decksAbove } from "../check/decks-above.ts";
import { type Advisory, type CheckResult, type Finding, type Reason, VERDICTS } from "../check/finding.ts";
import type { Quantity } from "../check/quantity.ts";
import { rulesOfJob } from "../check/rules-of-job.ts";
import { makeScene, type Scene } from "../check/scene.ts";
import type { Job } from "../job/schema.ts";
import { amendmentWords } from "./rule-words.ts";
import { sheetTitle } from "./words.ts";

/** How many digits of an inch or of a sheet unit are written: more would differ from machine to machine. */
const DIGITS = 6;

/**
 * The findings as one JSON object, keys always in the same order, two spaces of indent, a line feed at the end; the same
 * job gives the same bytes. Lengths in inches, places in sheet space, to six decimals; null where something cannot be told.
 */
export function findingsJson(job: Job, result: CheckResult): string {
  const scene = makeScene(job);
  const whole = {
    program: "underside",
    rules: job.settings.job.edition,
    job: job.settings.job.name,
    counts: Object.fromEntries(VERDICTS.map((verdict) => [verdict, result.counts[verdict]])),
    findings: result.findings.map((finding) => findingRecord(job, scene, finding)),
    amendments: amendmentRecords(job),
    advisories: result.advisories.map(advisoryRecord),
  };
  return `${JSON.stringify(whole, null, 2)}\n`;
}

function findingRecord(job: Job, scene: Scene, finding: Finding) {
  const element = job.elements[finding.elementId];
  return {
    element: finding.element,
    kind: finding.kind,
    ...(finding.about === undefined ? {} : { about: finding.about }),
    ...(finding.penetration ? { penetration: true } : {}),
    verdict: finding.verdict,
    section: finding.section,
    edition: finding.edition,
    requiredIn: rounded(finding.requiredIn),
    leastIn: roundedOrNull(finding.leastIn),
    intervalIn: finding.intervalIn ? finding.intervalIn.map(roundedOrNull) : null,
    sheet: finding.sheet,
    at: finding.at.map(rounded),
    stretches: finding.stretches.map(({ fromIn, toIn }) => ({ fromIn: rounded(fromIn), toIn: rounded(toIn) })),
    reasons: reasonRecord(finding.reasons),
    remedies: finding.remedies.map(({ kind, text, byIn, shift }) => ({
      kind,
      text,
      ...(byIn === undefined ? {} : { byIn: rounded(byIn) }),
      ...(shift === undefined ? {} : { shift: shift.map(rounded) }),
    })),
    number: finding.number,
    elementId: finding.elementId,
    verticalIn: roundedOrNull(finding.verticalIn),
    areas: finding.areas.map((id) => job.areas[id]?.label ?? id),
    sheetTitle: sheetTitle(job, finding.sheet),
    decks: element ? decksAbove(scene, finding.elementId, element).map((deck) => deckRecord(job, deck)) : [],
  };
}

/** A deck next above an element, what it is there, and where along the element. */
const deckRecord = (job: Job, { areaId, is, fromOutline, stretches }: DeckAbove) => ({
  area: job.areas[areaId]?.label ?? areaId,
  is,
  from: fromOutline ? "storey-outlines" : "record",
  stretches: stretches.map(({ fromIn, toIn }) => ({ fromIn: rounded(fromIn), toIn: rounded(toIn) })),
});

/** The local amendments of the job as recorded, each with what it came to. */
function amendmentRecords(job: Job) {
  const words = amendmentWords(job);
  const applied = rulesOfJob(job)?.applied ?? [];
  return (job.settings.job.amendments ?? []).map((amendment, i) => ({
    kind: amendment.kind,
    applied: applied[i] ?? false,
    reason: amendment.reason,
    authority: amendment.authority,
    text: words[i],
  }));
}

/** Advice beside the code, which no verdict rests on. */
function advisoryRecord(advisory: Advisory) {
  return {
    kind: advisory.kind,
    says: advisory.says,
    area: advisory.area,
    areaId: advisory.areaId,
    text: advisory.text,
    reachIn: roundedOrNull(advisory.reachIn),
    marginIn: rounded(advisory.marginIn),
    requiredIn: rounded(advisory.requiredIn),
    missing: advisory.missing,
    elements: advisory.elements,
    reasons: reasonRecord(advisory.reasons),
  };
}

interface ReasonRecord {
  text: string;
  value?: string;
  source?: string;
  children: ReasonRecord[];
  quantity?: Quantity;
}

const reasonRecord = ({ text, value, source, children, quantity }: Reason): ReasonRecord => ({
  text,
  ...(value === undefined ? {} : { value }),
  ...(!source ? {} : { source }),
  children: children.map(reasonRecord),
  ...(quantity === undefined ? {} : { quantity: quantityRecord(quantity) }),
});

const quantityRecord = ({ is, in: from, to, given }: Quantity): Quantity => ({
  is,
  in: rounded(from),
  ...(to === undefined ? {} : { to: rounded(to) }),
  ...(given === undefined ? {} : { given: rounded(given) }),
});

/** To six decimals, never minus nought. */
const rounded = (n: number): number => Number(n.toFixed(DIGITS)) + 0;
const roundedOrNull = (n: number | null): number | null => (n === null || !Number.isFinite(n) ? null : rounded(n));
