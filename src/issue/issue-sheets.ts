import type { CheckResult } from "../check/finding.ts";
import type { FontFace } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import { jobText, parseJobText } from "../job/parse-job.ts";
import type { Job } from "../job/schema.ts";
import type { AnnotationSpec } from "../pdf/write/annotations.ts";
import { appendUpdate, type CopyKind, issuedBytes } from "../pdf/write/append-update.ts";
import { archivalBreaches } from "../pdf/write/archival.ts";
import { sha256 } from "../pdf/write/crypto/sha2.ts";
import { inspectPdf, isWhole, type PdfFacts } from "../pdf/write/inspect-pdf.ts";
import { readAttachment } from "../pdf/write/read-attachment.ts";
import type { SheetLink } from "../pdf/write/sheet-links.ts";
import { fail, ok, type Problem, type Result } from "../units/problem.ts";
import { copyLabel } from "./copy-label.ts";
import { type IssuedChange, issuedChanges } from "./issued-changes.ts";
import { legendMark } from "./legend-picture.ts";
import type { MarkLayer } from "./mark.ts";
import { MARK_NAME, markAnnotations, markLinks } from "./mark-annotations.ts";
import { type MarkOptions, marksOf } from "./marks-of.ts";
import type { AboutPages } from "./report/about-pages.ts";
import { reportPages } from "./report/report-pages.ts";
import { pagesPdf } from "./report/report-pdf.ts";
import { sheetFrame } from "./sheet-frame.ts";
import { attachmentWords, LAYER_NAMES, reportTitle } from "./words.ts";

/** The name under which a job travels inside an issued PDF. */
export const JOB_ATTACHMENT = "underside-job.json";

/** A drawing: its bytes, and the hash by which the job's sheets name it. */
export interface Drawing {
  readonly sha256: string;
  readonly bytes: Uint8Array;
}

/** How a drawing is issued. */
export interface IssueOptions {
  readonly fonts: Readonly<Record<FontFace, Uint8Array>>;
  /** The moment of issue, written into the file and the report. */
  readonly now: Date;
  /** Who issues; "" when not said. */
  readonly author: string;
  /** Report pages behind the drawing's own, as a file of their own, or none. A signed drawing gets a file of its own. */
  readonly report: "with" | "separate" | "none";
  /** Draw the marks into the pages instead of adding annotations. */
  readonly flatten?: boolean;
  /** Marks only on these sheets, by id; absent: on every sheet that lies on the drawing. */
  readonly only?: ReadonlySet<string>;
  readonly password?: string;
  /** Make such a copy where the drawing is signed or damaged; a drawing that is neither is issued as it is. */
  readonly copy?: CopyKind;
  /** Where a legend goes, by sheet: its lower left corner as displayed, sheet space. */
  readonly legends?: Readonly<Record<string, Point2>>;
  readonly marks?: Omit<MarkOptions, "sheets">;
}

/** An issued drawing. */
interface IssuedFile {
  /** What goes behind the drawing's own bytes. */
  readonly increment: Uint8Array;
  /** The issued file, part by part: the drawing's own bytes, not copied, and the increment. */
  readonly parts: readonly [drawing: Uint8Array, increment: Uint8Array<ArrayBuffer>];
  /** The same as one, put together anew each time it is asked for. */
  readonly bytes: Uint8Array;
  /** The report, where it is a file of its own. */
  readonly report: Uint8Array | undefined;
  /** What kind of copy was made, if the issued file is one; every marked sheet says so. */
  readonly copy: CopyKind | undefined;
  /** Of a repaired copy: how many objects the PDF refers to and does not have. */
  readonly lost: number;
  /** What a person should be told of the file: that it is a copy, or no longer what an archive asks for. */
  readonly notes: readonly Problem[];
}

/**
 * Issues one drawing: its sheets' marks as annotations on our layers, the report, and the job inside. The drawing's bytes
 * stay an untouched prefix. Problems: `issue.no-sheet` (no sheet of the job lies on this drawing), `issue.missing-glyph`,
 * `issue.bad-font`, and `pdf.*` for what the drawing does not allow.
 */
export async function issueFile(
  job: Job,
  result: CheckResult,
  drawing: Drawing,
  options: IssueOptions,
): Promise<Result<IssuedFile>> {
  const sheets = Object.entries(job.sheets)
    .filter(([, sheet]) => sheet.file.sha256 === drawing.sha256)
    .sort(([a, x], [b, y]) => x.page - y.page || compare(a, b));
  if (sheets.length === 0) return fail("issue.no-sheet", "", { sha256: drawing.sha256 });
  const facts = inspectPdf(drawing.bytes, options.password);
  if (!facts.ok) return facts;
  const copy = copyOf(drawing, facts.value, options);
  // Pages put behind a signature break it: a signed drawing keeps its pages, and the report stands alone.
  const apart = options.report === "separate" || (facts.value.signed && copy !== "unsigned");
  let report: Uint8Array | undefined;
  if (options.report !== "none") {
    const made = await reportPdf(job, result, { ...options, behind: !apart });
    if (!made.ok) return made;
    report = made.value;
  }
  const chosen = new Set(sheets.flatMap(([id]) => ((options.only?.has(id) ?? true) ? [id] : [])));
  const marks = marksOf(job, result, { ...options.marks, sheets: chosen });
  for (const [id, at] of Object.entries(options.legends ?? {})) {
    const legend = chosen.has(id) ? legendMark(job, id, at) : undefined;
    if (legend) marks.push(legend);
  }
  const pages = sheets.map(([id, sheet]) => ({
    page: sheet.page,
    annotations: [
      ...marks.filter((mark) => mark.sheet === id).flatMap((mark) => markAnnotations(mark, options)),
      ...(copy && chosen.has(id) ? [copyLabel(copy, id, sheet, options)] : []),
    ],
    links: marks.filter((mark) => mark.sheet === id).flatMap((mark) => markLinks(mark, sheetFrame(sheet))),
  }));
  const update = appendUpdate(drawing.bytes, {
    pages: mergePages(pages),
    layers: (["areas", "wiring", "notes", "findings"] satisfies MarkLayer[])
      .filter((id) => id !== "notes" || marks.some(({ layer }) => layer === id))
      .map((id) => ({ id, name: LAYER_NAMES[id] })),
    fonts: options.fonts,
    ...(report && !apart ? { freshPages: report } : {}),
    attachment: {
      name: JOB_ATTACHMENT,
      mime: "application/json",
      description: attachmentWords(drawing.bytes.length, drawing.sha256),
      bytes: new TextEncoder().encode(jobText(job)),
      modified: options.now,
    },
    attachmentName: `${MARK_NAME}job`,
    ...(copy === undefined ? {} : { copy }),
    removeNames: (name) => name.startsWith(MARK_NAME),
    ...(options.flatten === undefined ? {} : { flatten: options.flatten }),
    ...(options.password === undefined ? {} : { password: options.password }),
  });
  if (!update.ok) return update;
  const { increment, lost } = update.value;
  return ok({
    increment,
    parts: [drawing.bytes, increment],
    get bytes() {
      return issuedBytes(drawing.bytes, increment);
    },
    report: apart ? report : undefined,
    copy,
    lost,
    notes: [
      ...(copy ? [{ code: `issue.${copy}-copy`, where: "", params: { lost } }] : []),
      ...archivalNotes(facts.value.archival),
    ],
  });
}

/** What issuing breaks of the archival standard that a drawing keeps. */
function archivalNotes(archival: PdfFacts["archival"]): Problem[] {
  const breaches = archival ? archivalBreaches(archival) : [];
  if (!archival || breaches.length === 0) return [];
  const standard = `PDF/A-${archival.part}${archival.level.toLowerCase()}`;
  return [{ code: "issue.not-archival", where: "", params: { standard, breaches: breaches.join(", ") } }];
}

/** The copy to make of a drawing: the one asked for, if the drawing gives cause for it. */
function copyOf(
  { bytes }: Drawing,
  { signed }: Pick<PdfFacts, "signed">,
  { copy, password }: IssueOptions,
): CopyKind | undefined {
  const cause = copy === "unsigned" ? signed : copy === "repaired" && !isWhole(bytes, password);
  return cause ? copy : undefined;
}

/** The report as a PDF of its own, or made to go behind a drawing. Problems: `issue.missing-glyph`, `issue.bad-font`. */
export function reportPdf(
  job: Job,
  result: CheckResult,
  options: Pick<IssueOptions, "fonts" | "now" | "author" | "marks"> & Pick<AboutPages, "behind">,
): Promise<Result<Uint8Array>> {
  const { fonts, now, author, marks = {}, behind = false } = options;
  return pagesPdf(reportPages(job, result, { now, author, marks }), fonts, {
    title: reportTitle(job),
    author,
    now,
    behind,
  });
}

/** One drawing of an issued job, under the name of the drawing. */
interface IssuedDrawing extends Pick<IssuedFile, "parts" | "bytes" | "copy" | "lost" | "notes"> {
  readonly sha256: string;
  readonly name: string;
}

/** Every drawing of a job, issued; the report goes with the first one, or alone. */
export interface IssuedJob {
  readonly files: readonly IssuedDrawing[];
  readonly report: Uint8Array | undefined;
}

/**
 * Issues every drawing of a job (with `only`: every one that such a sheet lies on) that is at hand, by SHA-256, in the order of their names. Problems as with `issueFile`,
 * and `issue.drawing-missing` (name, sha256) for each drawing that is not at hand: then nothing is issued.
 */
export async function issueJob(
  job: Job,
  result: CheckResult,
  drawings: ReadonlyMap<string, Uint8Array>,
  options: IssueOptions,
): Promise<Result<IssuedJob>> {
  const wanted = Object.entries(job.sheets).filter(([id]) => options.only?.has(id) ?? true);
  const names = new Map(wanted.map(([, { file }]) => [file.sha256, file.name] as const));
  if (names.size === 0) return fail("issue.no-sheet");
  const missing = [...names].filter(([hash]) => !drawings.has(hash));
  if (missing.length > 0) {
    return {
      ok: false,
      problems: missing.map(([hash, name]) => ({
        code: "issue.drawing-missing",
        where: name,
        params: { name, sha256: hash },
      })),
    };
  }
  const order = [...names].sort(([a, x], [b, y]) => compare(x, y) || compare(a, b));
  const files: IssuedDrawing[] = [];
  let report: Uint8Array | undefined;
  for (const [i, [hash, name]] of order.entries()) {
    const bytes = drawings.get(hash) as Uint8Array;
    const wanted = i === 0 ? options.report : "none";
    const issued = await issueFile(job, result, { sha256: hash, bytes }, { ...options, report: wanted });
    if (!issued.ok) {
      return { ok: false, problems: issued.problems.map((problem) => ({ ...problem, where: problem.where || name })) };
    }
    const { value } = issued;
    files.push({
      sha256: hash,
      name,
      parts: value.parts,
      get bytes() {
        return value.bytes;
      },
      copy: value.copy,
      lost: value.lost,
      notes: value.notes,
    });
    report ??= issued.value.report;
  }
  return ok({ files, report });
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** What an issued PDF carries: the job, and of its drawings the one the file was made from, as it was. */
export interface CarriedJob {
  readonly job: Job;
  /** By SHA-256. Empty when the file's start is no longer the drawing it was issued from. */
  readonly drawings: ReadonlyMap<string, Uint8Array>;
  /** What other programs did to our marks since: moved, deleted, answered. */
  readonly changes: readonly IssuedChange[];
}

/**
 * The job inside an issued PDF, and the original drawing cut from its start; undefined when the PDF carries none.
 * Problems: `pdf.*` when the file cannot be read, those of `parseJobText` when the job cannot.
 */
export function jobFromIssued(bytes: Uint8Array, password?: string): Result<CarriedJob | undefined> {
  const held = readAttachment(bytes, JOB_ATTACHMENT, password);
  if (!held.ok) return held;
  if (!held.value) return ok(undefined);
  const job = parseJobText(new TextDecoder().decode(held.value));
  if (!job.ok) return job;
  const drawings = new Map<string, Uint8Array>();
  const files = new Map(Object.values(job.value.sheets).map(({ file }) => [file.sha256, file.bytes] as const));
  for (const [hash, length] of files) {
    if (length === 0 || length > bytes.length) continue;
    const start = bytes.subarray(0, length);
    if (hexadecimal(sha256(start)) === hash) drawings.set(hash, start.slice());
  }
  const changes = issuedChanges(bytes, job.value, JOB_ATTACHMENT, password);
  return changes.ok ? ok({ job: job.value, drawings, changes: changes.value }) : changes;
}

const hexadecimal = (bytes: Uint8Array): string =>
  [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");

type PageMarks = {
  readonly page: number;
  readonly annotations: readonly AnnotationSpec[];
  readonly links: readonly SheetLink[];
};

/** Sheets that are one page twice in the job: their marks go to that page together. */
function mergePages(pages: readonly PageMarks[]): PageMarks[] {
  const merged = new Map<number, PageMarks>();
  for (const { page, annotations, links } of pages) {
    const there = merged.get(page);
    merged.set(page, {
      page,
      annotations: [...(there?.annotations ?? []), ...annotations],
      links: [...(there?.links ?? []), ...links],
    });
  }
  return [...merged.values()];
}
