import { tagsOf } from "../../job/elements/element.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { DrawnNote, DrawnTag, DrawnWords } from "./drawn-words.ts";
import { middleOf } from "./near-text.ts";
import { meaningsOfNote, takesSize } from "./notes-of-wiring.ts";
import { isOfStructure } from "./read-tag.ts";
import { isSetAside } from "./set-aside.ts";
import { type Assumed, type Meaning, NOTHING_ASSUMED, type Suggestion } from "./suggestion.ts";
import { meaningsForDecks, meaningsForStoreys } from "./tags-of-decks.ts";
import { meaningsOfTags } from "./tags-of-wiring.ts";
import { labelsIn, speakable, tie } from "./tie.ts";

/** What is worth looking at first: what contradicts the job, then what can be taken, then what needs a word. */
const ORDER: Readonly<Record<Suggestion["state"], number>> = {
  disagrees: 0,
  offered: 1,
  unsure: 2,
  agrees: 3,
  loose: 4,
};

const known = new WeakMap<DrawnWords, { job: Job; sheet: Id; assumed: Assumed; found: readonly Suggestion[] }>();

/**
 * What the text of a sheet may mean in a job, the most telling first, without what was set aside. Nothing of it is recorded: each is taken by a
 * person. The same list while nothing it follows from has changed.
 */
export function suggestions(
  job: Job,
  sheet: Id,
  words: DrawnWords,
  assumed: Assumed = NOTHING_ASSUMED,
): readonly Suggestion[] {
  const before = known.get(words);
  if (before?.job === job && before.sheet === sheet && before.assumed === assumed) return before.found;
  const found = [...fromTags(job, sheet, words, assumed), ...fromNotes(job, sheet, words, assumed)]
    .filter((one) => !isSetAside(job, sheet, one))
    .map((one, i) => ({ one, i }))
    .toSorted((a, b) => ORDER[a.one.state] - ORDER[b.one.state] || a.i - b.i)
    .map(({ one }) => one);
  known.set(words, { job, sheet, assumed, found });
  return found;
}

function fromTags(job: Job, sheet: Id, words: DrawnWords, assumed: Assumed): readonly Suggestion[] {
  const among = speakable(job, sheet, [...words.tags, ...words.notes], (element) => tagsOf(element).length > 0);
  // A surface without its top or bottom, in a line that names an element, is a word of that line: AT EDGE OF LOW ROOF EL. 14'-6".
  const ofWiring = words.tags.filter(
    (tag) =>
      !isOfStructure(tag) || (tag.basis === null && labelsIn(tag.run.text).some((label) => among.byLabel.has(label))),
  );
  const tied = ofWiring.map((tag) => ({ tag, tie: tie(tag, among) })).filter((one) => one.tie.ids.length > 0);
  const means = meaningsOfTags(job, tied, assumed);
  return words.tags.map((tag) => {
    const wiring = means.get(tag);
    if (wiring) return suggestion("elevation", tag, tag.middle, wiring.meanings, wiring.sure);
    const storeys = meaningsForStoreys(job, tag);
    if (storeys.length > 0) return suggestion("elevation", tag, tag.middle, storeys, storeys.length === 1);
    const decks = meaningsForDecks(job, sheet, tag, assumed);
    return suggestion(
      "elevation",
      tag,
      tag.middle,
      decks,
      decks.length === 1 && !isContested(job, sheet, words, tag, decks[0]!, assumed),
    );
  });
}

/** Whether another tag in the same level deck says something else: it is then no one elevation of that deck. */
function isContested(
  job: Job,
  sheet: Id,
  words: DrawnWords,
  tag: DrawnTag,
  { target, stands }: Meaning,
  assumed: Assumed,
): boolean {
  if (target.is !== "area" || target.spot !== null || stands !== "open") return false;
  return words.tags.some(
    (other) =>
      other.value !== tag.value &&
      meaningsForDecks(job, sheet, other, assumed).some(
        (one) => one.target.is === "area" && one.target.id === target.id,
      ),
  );
}

function fromNotes(job: Job, sheet: Id, words: DrawnWords, assumed: Assumed): readonly Suggestion[] {
  // Racks and boxes stand between a note and the runs beside it: they take part in what is near, and take no size.
  const among = speakable(job, sheet, [...words.tags, ...words.notes], (element) => tagsOf(element).length > 0);
  return words.notes.map((note) => {
    const tied = tie(note, among);
    const meanings = meaningsOfNote(job, note, tied, assumed);
    const sure = tied.sure && meanings.length === 1 && takesSize(job.elements[tied.ids[0]!]!);
    return suggestion(note.size === null ? "conductors" : "size", note, middleOf(note.run), meanings, sure);
  });
}

function suggestion(
  kind: Suggestion["kind"],
  found: DrawnTag | DrawnNote,
  at: Suggestion["at"],
  meanings: readonly Meaning[],
  sure: boolean,
): Suggestion {
  const { text, run } = found;
  const [only] = meanings;
  const ofDecks = only ? only.target.is !== "element" : "surface" in found && isOfStructure(found);
  const state: Suggestion["state"] = !only
    ? "loose"
    : meanings.some(({ stands }) => stands === "same")
      ? "agrees"
      : !sure
        ? "unsure"
        : only.stands === "other"
          ? "disagrees"
          : "offered";
  return {
    key: `${kind} ${text} @${at.map((n) => n.toFixed(1)).join(",")}`,
    kind,
    about: ofDecks ? "roof" : "wiring",
    text,
    run,
    at,
    existing: "existing" in found && found.existing,
    approximate: "approximate" in found && found.approximate,
    state,
    meanings,
  };
}
