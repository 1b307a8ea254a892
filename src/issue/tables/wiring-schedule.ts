import { sheetsInOrder } from "../../check/check-job.ts";
import { type CheckResult, type Finding, VERDICTS } from "../../check/finding.ts";
import { sceneOf } from "../../check/scene.ts";
import { memberIn, type Subject, subjectsOf } from "../../check/subject.ts";
import { type Element, tagsOf } from "../../job/elements/element.ts";
import { inLabelOrder } from "../../job/label-order.ts";
import type { Job } from "../../job/schema.ts";
import { gridOfFinding } from "../grid-words.ts";
import { elementWords } from "../kinds/kinds.ts";
import { showTag } from "../show-length.ts";
import { sheetTitle, VERDICT_WORDS } from "../words.ts";
import { type ColumnOf, lengthColumn, type Table, tableOf } from "./table.ts";

/** One line of the schedule: an element, or one raceway of a rack, with what the check says of it. */
interface Scheduled {
  readonly element: Element;
  readonly sheet: string;
  /** True length, inches; null for what has none, or none that is known. */
  readonly lengthIn: number | null;
  /** The worst first. */
  readonly findings: readonly Finding[];
}

/**
 * The schedule of the wiring: every element, and every raceway of a rack, with its tags as written, its length, the worst verdict,
 * the clearance found and required, and the numbers of its findings. By sheet, then by label, R-2 before R-10.
 */
export function wiringSchedule(job: Job, result: CheckResult): Table {
  const { system } = job.settings.job;
  const columns: readonly ColumnOf<Scheduled>[] = [
    { heading: "Element", width: 12, cell: ({ element }) => element.label },
    { heading: "What it is", width: 22, cell: ({ element }) => elementWords(element) },
    { heading: "Sheet", width: 28, cell: ({ sheet }) => sheetTitle(job, sheet) },
    { heading: "Elevation tags", width: 40, cell: ({ element }) => tagWords(job, element) },
    lengthColumn("Length", system, ({ lengthIn }) => lengthIn),
    {
      heading: "Verdict",
      width: 16,
      cell: ({ findings: [worst] }) => (worst ? VERDICT_WORDS[worst.verdict].name : null),
    },
    lengthColumn("Least clearance", system, ({ findings: [worst] }) => worst?.leastIn ?? null),
    lengthColumn("At least", system, ({ findings: [worst] }) => worst?.intervalIn?.[0] ?? null),
    lengthColumn("At most", system, ({ findings: [worst] }) => worst?.intervalIn?.[1] ?? null),
    lengthColumn("Required", system, ({ findings: [worst] }) => worst?.requiredIn || null),
    lengthColumn("Straight up", system, ({ findings: [worst] }) => worst?.verticalIn ?? null),
    { heading: "Deck areas", width: 20, cell: ({ findings: [worst] }) => areaWords(job, worst) },
    { heading: "Grid", width: 12, cell: ({ findings: [worst] }) => (worst && gridOfFinding(job, worst)) || null },
    { heading: "Section", width: 12, cell: ({ findings: [worst] }) => worst?.section || null },
    { heading: "Findings", width: 10, cell: ({ findings }) => numbersOf(findings) },
  ];
  return tableOf("Wiring", columns, scheduled(job, result));
}

function scheduled(job: Job, { findings }: CheckResult): Scheduled[] {
  const scene = sceneOf(job);
  const byElement = new Map<string, Finding[]>(Object.keys(job.elements).map((id) => [id, []]));
  for (const finding of findings) byElement.get(finding.elementId)?.push(finding);
  const places = new Map(sheetsInOrder(job).map((id, i) => [id, i]));
  const placeOf = (sheet: string): number => places.get(sheet) ?? places.size;
  return Object.entries(job.elements)
    .flatMap(([id, element]) =>
      subjectsOf(scene, id, element).map((subject) => ({
        element: subject.element,
        sheet: job.viewports[element.viewport]?.sheet ?? "",
        lengthIn: lengthOf(subject),
        findings: byElement
          .get(id)!
          .filter(({ about }) => memberIn(about) === subject.about)
          .toSorted((a, b) => VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict)),
      })),
    )
    .sort((a, b) => placeOf(a.sheet) - placeOf(b.sheet) || inLabelOrder(a.element.label, b.element.label));
}

/** Along the axis from the first vertex to the last, inches; null where any of it is not known. */
function lengthOf({ element, shape }: Subject): number | null {
  if (!("vertices" in element)) return null;
  const { root, pieces, gaps } = shape();
  return root === undefined || gaps.length > 0 ? null : Math.max(...pieces.map(({ to }) => to));
}

/** The tags in the order of the vertices, one that stands at several in a row once; a vertex without one as a dash. */
function tagWords(job: Job, element: Element): string | null {
  const { system } = job.settings.job;
  const words = tagsOf(element).map(({ tag }) => (tag ? showTag(tag, system) : "–"));
  return words.filter((text, i) => text !== words[i - 1]).join("; ") || null;
}

const areaWords = (job: Job, finding: Finding | undefined): string | null =>
  finding?.areas.map((id) => job.areas[id]?.label ?? id).join("; ") || null;

const numbersOf = (findings: readonly Finding[]): string | null =>
  findings.flatMap(({ number }) => (number === null ? [] : [number])).join(", ") || null;
