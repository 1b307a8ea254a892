import { describe, expect, it } from "vitest";
import { deleteRecords } from "../../src/editor/edits/delete-records.ts";
import { addNote, setNoteAbout, setNotePlace, setNoteText } from "../../src/editor/edits/notes.ts";
import { rename } from "../../src/editor/edits/rename.ts";
import { replaceSheet } from "../../src/editor/edits/replace-sheet.ts";
import { addViewport } from "../../src/editor/edits/sheets.ts";
import { deleteVertex, insertVertex, moveVertex, moveWhole } from "../../src/editor/edits/vertices.ts";
import { snapped } from "../../src/editor/snap.ts";
import { mapBy } from "../../src/geometry/similarity.ts";
import { NOTE_LIMIT } from "../../src/job/note.ts";
import { jobText, parseJob, parseJobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { radians } from "../../src/units/quantity.ts";
import { applyChecked, editIn, refusals } from "../job/apply-checked.ts";
import { furnished, sheetOf } from "./sample-job.ts";

const NOTE = { sheet: "s-ceiling", text: "Which circuit?", at: [300, 200], place: [360, 260] } as const;
const ABOUT_RUN = { table: "elements", id: "r1" } as const;

/** The furnished job with a note "n1" about the run. */
function noted(more: Partial<Parameters<typeof addNote>[2]> = {}): Job {
  const job = furnished();
  return applyChecked(job, addNote(job, "n1", { ...NOTE, about: ABOUT_RUN, ...more }));
}

describe("a note in the job", () => {
  it("is written with a label of its own, and read back the same", () => {
    const job = noted();
    expect(job.notes.n1).toEqual({ label: "N-1", ...NOTE, about: ABOUT_RUN });
    const read = parseJobText(jobText(job));
    expect(read.ok && read.value.notes).toEqual(job.notes);
    expect(editIn(addNote(job, "n2", NOTE)).name).toBe("Write N-2");
  });

  it("leaves a job without notes the file it was before there were any", () => {
    const before = furnished();
    expect(Object.keys(JSON.parse(jobText(before)))).not.toContain("notes");
    const { notes: _, ...older } = before;
    const read = parseJob(older);
    expect(read.ok && read.value.notes).toEqual({});
    const job = noted();
    expect(jobText(applyChecked(job, deleteRecords(job, [{ table: "notes", id: "n1" }])))).toBe(jobText(before));
  });

  it("is refused where it names what the job has not", () => {
    const job = noted();
    const broken = (note: object) => {
      const read = parseJob({ ...job, notes: { n1: { ...job.notes.n1, ...note } } });
      return read.ok ? [] : read.problems.map(({ code, where }) => `${code} ${where}`);
    };
    expect(broken({ sheet: "gone" })).toEqual(["job.no-such-sheet notes/n1/sheet"]);
    expect(broken({ about: { table: "areas", id: "gone" } })).toEqual(["job.no-such-area notes/n1/about/id"]);
    expect(broken({ colour: "red" })).toEqual(["job.unknown-key notes/n1/colour"]);
    expect(broken({ text: "x".repeat(NOTE_LIMIT + 1) })).toEqual(["job.bad-value notes/n1/text"]);
    expect(broken({ about: { table: "notes", id: "n1" } })).toEqual(["job.bad-value notes/n1/about/table"]);
  });

  it("keeps its words as typed, within bounds", () => {
    const job = noted({ text: "  one\r\ntwo\rthree <b>\u202e \n" });
    expect(job.notes.n1?.text).toBe("one\ntwo\nthree <b>\u202e");
    expect(refusals(addNote(job, "n2", { ...NOTE, text: " \n " }))).toEqual(["note.no-words"]);
    expect(refusals(setNoteText(job, "n1", ""))).toEqual(["note.no-words"]);
    expect(refusals(setNoteText(job, "n1", "x".repeat(NOTE_LIMIT + 1)))).toEqual(["note.too-long"]);
    expect(refusals(setNoteText(job, "n1", "x\n".repeat(41)))).toEqual(["note.too-long"]);
    expect(applyChecked(job, setNoteText(job, "n1", "x".repeat(NOTE_LIMIT))).notes.n1?.text).toHaveLength(NOTE_LIMIT);
    expect(editIn(setNoteText(job, "n1", "one\ntwo\nthree <b>\u202e")).changes).toEqual([]);
  });

  it("is about a thing by its label, or about none", () => {
    const job = noted();
    const other = applyChecked(job, setNoteAbout(job, "n1", " A-1 "));
    expect(other.notes.n1?.about).toEqual({ table: "areas", id: "a1" });
    expect(applyChecked(other, setNoteAbout(other, "n1", "")).notes.n1).not.toHaveProperty("about");
    expect(refusals(setNoteAbout(job, "n1", "R-99"))).toEqual(["note.no-such-label"]);
    expect(refusals(setNoteAbout(job, "n1", "N-1"))).toEqual(["note.no-such-label"]);
    expect(editIn(setNoteAbout(job, "n1", "R-1")).changes).toEqual([]);
  });

  it("stays when what it is about goes, and goes with its sheet", () => {
    const job = noted();
    const without = applyChecked(job, deleteRecords(job, [{ table: "elements", id: "r1" }]));
    expect(without.notes.n1).toEqual({ label: "N-1", ...NOTE });
    const gone = applyChecked(job, deleteRecords(job, [{ table: "sheets", id: "s-ceiling" }]));
    expect(gone.notes).toEqual({});
    const parts = applyChecked(
      job,
      addViewport(job, "v-part", { sheet: "s-ceiling", name: "Part", region: [0, 0, 900, 900] }),
    );
    expect(parts.notes.n1).toBe(job.notes.n1);
    expect(applyChecked(parts, deleteRecords(parts, [{ table: "viewports", id: "v-part" }])).notes.n1).toEqual({
      label: "N-1",
      ...NOTE,
    });
  });

  it("has a label that nothing else may have", () => {
    const job = noted();
    expect(refusals(rename(job, "elements", "r1", "N-1"))).toEqual(["edit.label-taken"]);
    expect(applyChecked(job, rename(job, "notes", "n1", "To the designer")).notes.n1?.label).toBe("To the designer");
  });
});

describe("the leader of a note", () => {
  it("is moved by either end or as a whole, each under its own name", () => {
    const job = noted();
    const leader = editIn(moveVertex(job, "notes", "n1", 0, [310, 210]));
    expect(leader.name).toBe("Move the leader of N-1");
    expect(applyChecked(job, leader).notes.n1).toMatchObject({ at: [310, 210], place: [360, 260] });
    const words = editIn(moveVertex(job, "notes", "n1", 1, [400, 100]));
    expect(words.name).toBe("Move the words of N-1");
    expect(applyChecked(job, words).notes.n1).toMatchObject({ at: [300, 200], place: [400, 100] });
    expect(applyChecked(job, moveWhole(job, "notes", "n1", [5, -5])).notes.n1).toMatchObject({
      at: [305, 195],
      place: [365, 255],
    });
    expect(applyChecked(job, setNotePlace(job, "n1", [1, 2])).notes.n1?.place).toEqual([1, 2]);
    expect(refusals(moveVertex(job, "notes", "n1", 0, [Number.NaN, 0]))).toEqual(["edit.not-finite"]);
  });

  it("has two ends and no more", () => {
    const job = noted();
    expect(refusals(insertVertex(job, "notes", "n1", 0, [330, 230]))).toEqual(["edit.no-segment"]);
    expect(refusals(deleteVertex(job, "notes", "n1", 1))).toEqual(["edit.too-few-vertices"]);
  });

  it("attracts no point of what is traced", () => {
    const job = noted();
    const field = { job, sheet: "s-ceiling", reach: 8, points: [], passing: [], rightAngle: false };
    expect(snapped([362, 262], field)).toEqual({ at: [362, 262], why: null });
    expect(snapped([302, 202], field)).toEqual({ at: [300, 200], why: "Vertex of R-1" });
  });

  it("goes where a new issue puts what it shows to", () => {
    const job = noted();
    const sim = { scale: 1.5, angle: radians(Math.PI / 2), dx: 700, dy: 20 };
    const { file: _, ...page } = sheetOf("Reflected ceiling");
    const next = applyChecked(
      job,
      replaceSheet(job, "s-ceiling", {
        page: { ...page, file: { sha256: "cd".repeat(32), name: "second.pdf", bytes: 99 } },
        sim,
        by: "grid",
        residualPt: 0,
        toLookAt: [],
      }),
    );
    const map = mapBy(sim);
    expect(next.notes.n1).toEqual({ ...job.notes.n1, at: map(NOTE.at), place: map(NOTE.place) });
  });
});
