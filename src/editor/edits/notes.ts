import type { Point2 } from "../../geometry/point.ts";
import { type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import { labelled, nextLabel } from "../../job/labels.ts";
import { NOTE_LIMIT, type Note, type NoteAbout } from "../../job/note.ts";
import type { Job } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { changeRecord } from "./change.ts";
import { soundPoints } from "./sound.ts";

/** So many lines a note may have, as typed. */
const MOST_LINES = 40;

/**
 * Writes a note on a sheet: its words, the point its leader shows to, and where the words stand. What it is about is left out where the job
 * has no such thing (any more). Problems: `note.no-words`, `note.too-long`, `edit.no-such-record`, `edit.not-finite`.
 */
export function addNote(job: Job, id: Id, { sheet, text, at, place, about }: Omit<Note, "label">): Result<Edit> {
  if (!job.sheets[sheet]) return fail("edit.no-such-record", `sheets/${sheet}`, { id: sheet });
  const sound = soundPoints(`notes/${id}`, [at, place]);
  if (!sound.ok) return sound;
  const words = soundWords(`notes/${id}/text`, text);
  if (!words.ok) return words;
  const label = nextLabel(job, "note");
  const known = about && Object.hasOwn(job[about.table], about.id);
  const after: Note = { label, sheet, text: words.value, at, place, ...(known ? { about } : {}) };
  return ok(editOf(job, `Write ${label}`, [{ table: "notes", id, after }]));
}

/** Gives a note other words. Problems: `note.no-words`, `note.too-long`, `edit.no-such-record`. */
export function setNoteText(job: Job, id: Id, text: string): Result<Edit> {
  const words = soundWords(`notes/${id}/text`, text);
  if (!words.ok) return words;
  return changeRecord(
    job,
    "notes",
    id,
    ({ label }) => `Change the words of ${label}`,
    () => ({ text: words.value }),
  );
}

/** Puts the words of a note elsewhere, sheet space; what it shows to stays. Problems: `edit.no-such-record`, `edit.not-finite`. */
export function setNotePlace(job: Job, id: Id, place: Point2): Result<Edit> {
  const sound = soundPoints(`notes/${id}/place`, [place]);
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "notes",
    id,
    ({ label }) => `Move the words of ${label}`,
    () => ({ place }),
  );
}

/** Says by its label what a note is about; "" for nothing in particular. Problems: `note.no-such-label`, `edit.no-such-record`. */
export function setNoteAbout(job: Job, id: Id, label: string): Result<Edit> {
  const note = job.notes[id];
  if (!note) return fail("edit.no-such-record", `notes/${id}`, { id });
  const wanted = label.trim();
  const { about: before, ...rest } = note;
  const found = wanted === "" ? undefined : labelled(job, wanted);
  if (wanted !== "" && (!found || found.table === "notes"))
    return fail("note.no-such-label", `notes/${id}/about`, { label: wanted });
  const about = found as NoteAbout | undefined;
  if (before?.table === about?.table && before?.id === about?.id) return ok({ name: note.label, changes: [] });
  const after: Note = about ? { ...rest, about } : rest;
  const name = about ? `Say that ${note.label} is about ${wanted}` : `Say that ${note.label} is about no thing`;
  return ok(editOf(job, name, [{ table: "notes", id, after }]));
}

/** The words with line feeds between their lines and nothing around them. */
function soundWords(where: string, text: string): Result<string> {
  const words = text.replace(/\r\n?/g, "\n").trim();
  if (words === "") return fail("note.no-words", where);
  if (words.length > NOTE_LIMIT || words.split("\n").length > MOST_LINES)
    return fail("note.too-long", where, { limit: NOTE_LIMIT, lines: MOST_LINES });
  return ok(words);
}
