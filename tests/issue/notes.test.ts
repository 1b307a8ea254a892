import { createHash } from "node:crypto";
import { PDFDocument } from "@cantoo/pdf-lib";
import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { describe, expect, it } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import type { TextItem } from "../../src/geometry/picture.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { issueFile, jobFromIssued } from "../../src/issue/issue-sheets.ts";
import { legendMark } from "../../src/issue/legend-picture.ts";
import type { Mark } from "../../src/issue/mark.ts";
import { marksOf } from "../../src/issue/marks-of.ts";
import { noteRoom } from "../../src/issue/note-room.ts";
import { pictureBounds } from "../../src/issue/place-picture.ts";
import { reportPages } from "../../src/issue/report/report-pages.ts";
import { shownText } from "../../src/issue/shown-text.ts";
import { textCorners } from "../../src/issue/text-width.ts";
import type { Note } from "../../src/job/note.ts";
import type { Job } from "../../src/job/schema.ts";
import { fontBytes } from "./font-bytes.ts";
import { sampleJob, sampleResult } from "./sample-job.ts";

const NOW = new Date("2026-11-25T10:00:00Z");
const RUN = Object.entries(sampleJob().elements).find(([, { kind }]) => kind === "run")![0];
const note = (more: Partial<Note> = {}): Note => ({
  label: "N-1",
  sheet: "wiring-sheet",
  text: "Which circuit is this?\nSee panel LP-2.",
  at: [400, 300],
  place: [460, 350],
  about: { table: "elements", id: RUN },
  ...more,
});
const withNotes = (notes: Job["notes"], job: Job = sampleJob()): Job => ({ ...job, notes });
const markOf = (job: Job, key = "note:n1"): Mark => marksOf(job, undefined).find((mark) => mark.key === key)!;
const textsOf = ({ picture }: Mark): TextItem[] => picture.filter((item): item is TextItem => item.type === "text");
const textOn = (pages: ReturnType<typeof reportPages>["pages"]): string =>
  pages.flatMap((page) => page.flatMap((item) => (item.type === "text" ? [item.text] : []))).join(" ");

describe("a note on the sheet", () => {
  it("is its label and words in ink, with a leader and an arrowhead at the very spot", () => {
    const mark = markOf(withNotes({ n1: note() }));
    expect([mark.layer, mark.sheet]).toEqual(["notes", "wiring-sheet"]);
    expect(textsOf(mark).map(({ text }) => text)).toEqual(["N-1", "Which circuit is this?", "See panel LP-2."]);
    const inks = mark.picture.flatMap((item) =>
      item.type === "text" ? [item.fill] : item.stroke ? [item.stroke] : [],
    );
    // Dark enough to be read in grey: every component below a fifth.
    for (const { r, g, b } of inks) expect(Math.max(r, g, b)).toBeLessThan(0.2);
    const starts = mark.picture.flatMap((item) => (item.type === "path" ? [item.steps[0]] : []));
    expect(starts.filter((step) => step?.[1] === 400 && step?.[2] === 300)).toHaveLength(2);
  });

  it("stands on the side away from its spot, upright however the page is turned", () => {
    for (const rotate of [0, 90, 180, 270] as const) {
      const job = sampleJob();
      const sheet = { ...job.sheets["wiring-sheet"]!, rotate };
      const turned = { ...job, sheets: { ...job.sheets, "wiring-sheet": sheet } };
      const [c, s] = [Math.cos((rotate * Math.PI) / 180), Math.sin((rotate * Math.PI) / 180)];
      for (const right of [60, -60]) {
        const place: Point2 = [400 + right * c - 30 * s, 300 + right * s + 30 * c];
        const mark = markOf(withNotes({ n1: note({ place }) }, turned));
        for (const item of textsOf(mark)) {
          expect(item.angle).toBeCloseTo((rotate * Math.PI) / 180, 12);
          for (const [x, y] of textCorners(item)) {
            const beyond = ((x - place[0]) * c + (y - place[1]) * s) * Math.sign(right);
            expect(beyond).toBeGreaterThan(8);
          }
        }
      }
    }
  });

  it("shows what is hidden in its words, and markup as it was typed", () => {
    expect(shownText("a\u202eb\u200bc\u0007d\u2028e\tf\ng\ufeff <b>&amp;</b>")).toBe(
      "a[U+202E]b[U+200B]c[U+0007]d[U+2028]e  f\ng[U+FEFF] <b>&amp;</b>",
    );
    const mark = markOf(withNotes({ n1: note({ text: "<b>x</b>\u202ey" }) }));
    expect(textsOf(mark)[1]?.text).toBe("<b>x</b>[U+202E]y");
    expect(mark.annotation.contents).toBe("N-1\n<b>x</b>[U+202E]y");
  });

  it("keeps labels and symbols off its words", () => {
    const result = checkJob(sampleJob());
    const bare = marksOf(sampleJob(), result, { sheets: new Set(["wiring-sheet"]) });
    const finding = bare.find(({ layer }) => layer === "findings")!;
    const [x0, , , y1] = pictureBounds(finding.picture)!;
    // Just where a symbol would stand.
    const job = withNotes({ n1: note({ at: [x0 - 60, y1 - 40], place: [x0 - 12, y1 - 4] }) });
    const marks = marksOf(job, checkJob(job), { sheets: new Set(["wiring-sheet"]) });
    const words = textsOf(marks.find(({ key }) => key === "note:n1")!).map(boxOf);
    const moved = marks.find(({ key }) => key === finding.key)!;
    expect(words.some((box) => overlap(box, pictureBounds(finding.picture)!))).toBe(true);
    expect(words.some((box) => textsOf(moved).some((item) => overlap(box, boxOf(item))))).toBe(false);
  });

  it("is in the legend of a sheet that has one, and of no other", () => {
    const job = withNotes({ n1: note() });
    const words = (id: string) => textsOf(legendMark(job, id, [10, 10])!).map(({ text }) => text);
    expect(words("wiring-sheet").at(-1)).toMatch(/note of the reviewer/);
    expect(words("roof-sheet").join()).not.toMatch(/note/);
  });
});

const boxOf = (item: TextItem) => pictureBounds([item])!;
type Box = ReturnType<typeof boxOf>;
const overlap = (a: Box, b: Box): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

describe("the place found for the words of a note", () => {
  const job = sampleJob();
  const sheet = job.sheets["wiring-sheet"]!;
  const marks = marksOf(job, sampleResult(), { sheets: new Set(["wiring-sheet"]) });
  const room = noteRoom(sheet, marks, []);
  const texts = marks.flatMap(textsOf).map(boxOf);
  const spots: Point2[] = marks.flatMap(({ hit }) =>
    hit.kind === "spot" ? [hit.at] : hit.kind === "line" ? hit.points : [],
  );

  it("covers no word and no symbol of any mark, lies on the page, and is the same each time", () => {
    expect(spots.length).toBeGreaterThanOrEqual(20);
    for (const at of spots) {
      const place = room(at, note());
      expect(noteRoom(sheet, marks, [])(at, note())).toEqual(place);
      const set = textsOf(markOf(withNotes({ n1: note({ at, place }) }))).map(boxOf);
      for (const box of set) {
        expect(texts.filter((text) => overlap(box, text))).toEqual([]);
        for (const { hit } of marks)
          if (hit.kind === "spot") {
            const [[x, y], r] = [hit.at, hit.radius];
            expect(overlap(box, [x - r, y - r, x + r, y + r])).toBe(false);
          }
        expect([box[0] >= 0, box[1] >= 0, box[2] <= 1224, box[3] <= 792]).toEqual([true, true, true, true]);
      }
    }
  });

  it("keeps off the words of the drawing", () => {
    const at: Point2 = [600, 700];
    const free = room(at, note());
    const word = { text: "GENERAL NOTES", at: [free[0] - 5, free[1] - 15] as Point2, angle: 0, width: 120, height: 30 };
    const beside = noteRoom(sheet, marks, [word as never])(at, note());
    expect(beside).not.toEqual(free);
  });

  it("is on the page even where nothing fits", () => {
    const tiny = { view: [0, 0, 40, 30] as [number, number, number, number], rotate: 0 as const, userUnit: 1 };
    expect(noteRoom(tiny, [], [])([20, 15], note())).toEqual([40, 30]);
  });
});

describe("a note in the report", () => {
  it("is listed by its label with its sheet, what it is about and its words", () => {
    const job = withNotes({
      n1: note({ label: "N-10", text: "Ten\u200b" }),
      n2: note({ label: "N-2", text: "=2+2 <i>", sheet: "roof-sheet" }),
    });
    const { about: _, ...plain } = job.notes.n2!;
    const { pages } = reportPages({ ...job, notes: { ...job.notes, n2: plain } }, sampleResult(), {
      now: NOW,
      author: "",
    });
    const words = textOn(pages);
    const run = job.elements[RUN]!.label;
    expect(words).toContain("Notes of the reviewer");
    expect(words).toMatch(new RegExp(`N-2 .* – =2\\+2 <i> N-10 .* ${run} Ten\\[U\\+200B\\]`));
  });

  it("has no heading where there is none", () => {
    expect(textOn(reportPages(sampleJob(), sampleResult(), { now: NOW, author: "" }).pages)).not.toContain(
      "Notes of the",
    );
  });
});

describe("a note on the issued sheet", async () => {
  const drawing = await PDFDocument.create({ updateMetadata: false });
  for (let i = 0; i < 2; i++) drawing.addPage([1224, 792]).drawLine({ start: { x: 9, y: 9 }, end: { x: 99, y: 99 } });
  const bytes = await drawing.save();
  const hash = createHash("sha256").update(bytes).digest("hex");
  const base = sampleJob();
  const job = withNotes(
    { n1: note(), n2: note({ label: "N-2", text: '7/8" ≥ 3/8 — ′″', at: [200, 200], place: [150, 240] }) },
    {
      ...base,
      sheets: Object.fromEntries(
        Object.entries(base.sheets).map(([id, sheet], i) => [
          id,
          { ...sheet, page: i + 1, file: { sha256: hash, name: "tern.pdf", bytes: bytes.length } },
        ]),
      ),
    },
  );
  const issue = async (of: Job) => {
    const options = { fonts: fontBytes, now: NOW, author: "P. Ternhill", report: "none" } as const;
    const issued = await issueFile(of, checkJob(of), { sha256: hash, bytes }, options);
    if (!issued.ok) throw new Error(JSON.stringify(issued.problems));
    return issued.value.bytes;
  };
  const issued = await issue(job);

  it("is a text annotation with its leader, which an independent reader finds with author, date, subject and words", async () => {
    const document = await getDocument({ data: issued.slice(), verbosity: 0 }).promise;
    const annotations = await (await document.getPage(2)).getAnnotations();
    const found = annotations.filter(
      ({ titleObj, contentsObj }) => titleObj.str === "P. Ternhill" && /^N-/.test(contentsObj.str),
    );
    const run = job.elements[RUN]!.label;
    expect(found.map(({ subtype, contentsObj }) => [subtype, contentsObj.str])).toEqual([
      ["FreeText", "N-1\nWhich circuit is this?\nSee panel LP-2."],
      ["FreeText", 'N-2\n7/8" ≥ 3/8 — ′″'],
    ]);
    expect(found[0]!.modificationDate).toBe("D:20261125100000Z");
    const layers = await document.getOptionalContentConfig();
    expect([...layers].map(([, group]) => (group as { name: string | null }).name)).toContain("Underside: notes");
    await document.destroy();
    const read = await PDFDocument.load(issued, { updateMetadata: false });
    const dicts = read
      .getPage(1)
      .node.Annots()!
      .asArray()
      .map((ref) => String(read.context.lookup(ref)));
    const callouts = dicts.filter((text) => text.includes("/FreeTextCallout"));
    expect(callouts).toHaveLength(2);
    expect(callouts[0]).toMatch(/\/CL \[ ?400 300 460 350 467 350 ?\]/);
    expect(callouts[0]).toMatch(/\/LE \/ClosedArrow/);
    expect(callouts[0]).toMatch(/\/RD \[/);
    expect(callouts[0]).toMatch(/\/AP/);
    expect(callouts[0]).toContain(`/Subj (Note N-1, about ${run})`);
    const names = callouts.map((text) => /\/NM \(([^)]*)\)/.exec(text)?.[1]);
    expect(names).toEqual(["underside:note:n1", "underside:note:n2"]);
  });

  it("comes back with the job inside", () => {
    const carried = jobFromIssued(issued);
    expect(carried.ok && carried.value?.job.notes).toEqual(job.notes);
  });

  it("leaves no layer behind where there is none", async () => {
    const document = await getDocument({ data: (await issue({ ...job, notes: {} })).slice(), verbosity: 0 }).promise;
    const layers = await document.getOptionalContentConfig();
    expect([...layers].map(([, group]) => (group as { name: string | null }).name)).not.toContain("Underside: notes");
    await document.destroy();
  });
});
