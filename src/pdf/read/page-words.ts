import type { WrittenElevation } from "./elevation-tags.ts";
import { type FoundGrid, findGrid } from "./find-grid.ts";
import { lineAbove } from "./find-notes.ts";
import type { Linework } from "./linework.ts";
import { type NearestLine, nearestLine } from "./nearest-line.ts";
import type { PageContents, TextRun } from "./plan-contents.ts";
import { type RunNote, runNoteIn } from "./run-notes.ts";
import { type ScaleWitness, scaleWitnesses } from "./scale-witnesses.ts";
import { tagsIn } from "./stacked-tags.ts";
import { type TextKind, textKind } from "./text-kind.ts";

/** Where a line of text stands among the others and among the lines of the drawing. */
interface Standing {
  /** The line of text right above it; null where there is none. `heads`: the two begin at one place, as the lines of one note do. */
  readonly above: string | null;
  readonly heads: boolean;
  readonly line: NearestLine | null;
}

/** An elevation on a page. What its own line does not say of the surface is taken from the line above: T.O. STEEL AT GRID D. */
export type TagOnPage = WrittenElevation & Standing;

/** What is written of a raceway on a page. */
export interface NoteOnPage extends RunNote, Standing {
  /** Whether its line names more than one size, as that of a rack does. */
  readonly several: boolean;
}

/** What the text of a page says, for the words of it that wiring and decks can be recorded by. Suggestions, all of them. */
export interface PageWords {
  readonly tags: readonly TagOnPage[];
  readonly notes: readonly NoteOnPage[];
  /** What tells the scale of parts of the page, but for the viewports of the file. */
  readonly scales: readonly ScaleWitness[];
  readonly text: TextKind;
}

/** How reading goes on beside other work. */
interface Reading {
  readonly signal?: AbortSignal;
  /** Awaited now and then, so that whoever asked can stop it. */
  readonly pause?: () => Promise<void>;
  /** The grids of the page, where they are known already. */
  readonly grids?: readonly FoundGrid[];
}

/** Lines of text between two pauses. */
const BETWEEN = 200;

const NAMED =
  /^\s*(?:(?<top>top(?:\s+of)?|t\.\s?o\.?(?:\s?of)?|t\s?\/)|(?<bottom>bottom(?:\s+of)?|bot\.?|b\.\s?o\.?|b\s?\/|u\s?\/\s?s|underside(?:\s+of)?))\s*(?<surface>steel|stl|deck|dk|slab|concrete|conc|joist|beam|roofing|roof|conduit|raceway|wall|parapet|footing|masonry)\b/i;
const WHOLE: Readonly<Record<string, string>> = { stl: "steel", dk: "deck", conc: "concrete" };

/** The elevations, the notes of raceways and the witnesses of the scale on a page. Rejects with the signal's reason. */
export async function readWords(
  contents: PageContents,
  linework: Linework,
  { signal, pause = async () => undefined, grids = findGrid(linework, contents.texts) }: Reading = {},
): Promise<PageWords> {
  const { texts } = contents;
  const scales = scaleWitnesses({ contents, linework }, signal);
  await pause();
  const tags: TagOnPage[] = [];
  const notes: NoteOnPage[] = [];
  for (const [i, run] of texts.entries()) {
    if (i % BETWEEN === BETWEEN - 1) await pause();
    signal?.throwIfAborted();
    const found = tagsIn(run, texts);
    const note = runNoteIn(run);
    if (found.length === 0 && !note) continue;
    const above = lineAbove(run, texts);
    const heads = above !== null && texts.some((other) => other.text === above && beginsOver(other, run));
    const standing = { above, heads, line: nearestLine(linework, run, grids) ?? null };
    tags.push(...found.map((tag) => ({ ...tag, ...surfaceOf(tag, standing.above), ...standing })));
    if (note) notes.push({ ...note, ...standing, several: namesSeveral(note) });
  }
  return { tags, notes, scales, text: textKind(contents, linework) };
}

/** Whether a line of text begins where the one below it does, and close above it. */
function beginsOver(head: TextRun, { at, angle, height }: TextRun): boolean {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [dx, dy] = [head.at[0] - at[0], head.at[1] - at[1]];
  const [along, up] = [dx * c + dy * s, dy * c - dx * s];
  return Math.abs(along) <= 0.6 * height && up > 0 && up <= 2.4 * Math.max(height, head.height);
}

/** The surface a tag is of, by the line above where the tag itself names none. */
function surfaceOf(
  { basis, surface }: WrittenElevation,
  above: string | null,
): Pick<WrittenElevation, "basis" | "surface"> {
  const words = basis === null && surface === null && above !== null ? NAMED.exec(above)?.groups : undefined;
  if (!words) return { basis, surface };
  const name = words.surface!.toLowerCase();
  return { basis: words.top ? "top" : "bottom", surface: WHOLE[name] ?? name };
}

/** Whether a line says of more than one raceway what it is. */
function namesSeveral({ run, text, size }: RunNote): boolean {
  if (size === null) return false;
  const rest: TextRun = { ...run, text: run.text.slice(run.text.indexOf(text) + text.length) };
  // The note reaches to its last conductor: another size may stand inside it.
  const inside: TextRun = { ...run, text: text.slice(size.length + 2) };
  return [rest, inside].some((part) => (runNoteIn(part)?.size ?? null) !== null);
}
