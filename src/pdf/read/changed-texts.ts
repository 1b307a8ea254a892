import { distance2, type Point2 } from "../../geometry/point.ts";
import { identity, mapBy, type Similarity } from "../../geometry/similarity.ts";
import { type Radians, radians } from "../../units/quantity.ts";
import { elevationsIn } from "./elevation-tags.ts";
import type { TextRun } from "./plan-contents.ts";
import { runNoteIn } from "./run-notes.ts";

/** Where a line of text stands, in the space of the new sheet: its middle, how long and high it is, which way it runs. */
export interface TextPlace {
  readonly at: Point2;
  readonly width: number;
  readonly height: number;
  readonly angle: Radians;
}

/** A line of text that reads otherwise on the new issue: null where it did not stand before, or does not any more. */
export interface ChangedText extends TextPlace {
  readonly was: string | null;
  readonly now: string | null;
  /** Whether it is an elevation, or what a line of text says of a raceway: what a mark may rest on. */
  readonly tells: boolean;
}

/** How far a text may have moved and still stand at its place, as a part of its height, and how far the same words may have been moved to. */
const SAME_PLACE = 0.6;
const OTHER_WORDS = 1.6;
const SAME_WORDS_PT = 144;

/** The texts of two issues of a sheet: those that differ, and those that both show, where the new one does. */
export interface ComparedTexts {
  readonly changed: readonly ChangedText[];
  readonly both: readonly (TextPlace & { readonly words: string })[];
}

/** Compares the texts of two issues. `sim` takes the old sheet's space to that of the new; one that only moved near by has not changed. */
export function changedTexts(
  old: readonly TextRun[],
  fresh: readonly TextRun[],
  sim: Similarity,
  userUnit: number,
): ComparedTexts {
  const map = mapBy(sim);
  const before = old.flatMap((run) => placed(run, map(middleOf(run)), sim));
  const after = fresh.flatMap((run) => placed(run, middleOf(run), identity));
  // The same words at the same place, then the same words near by, then other words at the same place: nearest first each time.
  const pair = (within: (one: Placed) => number, alike: (a: Placed, b: Placed) => boolean) => {
    const links = before.flatMap((a) =>
      a.partner
        ? []
        : after.flatMap((b) => {
            if (b.partner || !alike(a, b)) return [];
            const apart = distance2(a.at, b.at);
            return apart <= within(a) ? [{ a, b, apart }] : [];
          }),
    );
    for (const { a, b } of links.sort((x, y) => x.apart - y.apart)) {
      if (a.partner || b.partner) continue;
      a.partner = b;
      b.partner = a;
    }
  };
  const sameWords = (a: Placed, b: Placed) => a.words === b.words;
  pair(({ height }) => SAME_PLACE * height, sameWords);
  pair(() => SAME_WORDS_PT / userUnit, sameWords);
  pair(
    ({ height }) => OTHER_WORDS * height,
    () => true,
  );
  // A line with more words on it has its middle elsewhere: it begins at the same place.
  for (const a of before) {
    if (a.partner) continue;
    const from = map(a.run.at);
    const b = after.find((one) => !one.partner && distance2(one.run.at, from) <= SAME_PLACE * a.height);
    if (b) {
      a.partner = b;
      b.partner = a;
    }
  }
  const kept = (one: Placed) => one.partner !== undefined && sameWords(one, one.partner);
  return {
    changed: [
      ...before.flatMap((a) => (kept(a) ? [] : [told(a.run, a.partner?.run, a.partner ?? a)])),
      ...after.flatMap((b) => (b.partner ? [] : [told(undefined, b.run, b)])),
    ],
    both: after.flatMap((b) => {
      const { words, at, width, height, angle } = b;
      return kept(b) ? [{ words, at, width, height, angle }] : [];
    }),
  };
}

interface Placed extends TextPlace {
  readonly run: TextRun;
  readonly words: string;
  partner?: Placed;
}

function placed(run: TextRun, at: Point2, { scale, angle }: Similarity): Placed[] {
  const words = run.text.replace(/\s+/g, " ").trim();
  const size = { width: run.width * scale, height: run.height * scale, angle: radians(run.angle + angle) };
  return words === "" ? [] : [{ run, words, at, ...size }];
}

const told = (
  was: TextRun | undefined,
  now: TextRun | undefined,
  { at, width, height, angle }: TextPlace,
): ChangedText => ({
  was: was?.text.trim() ?? null,
  now: now?.text.trim() ?? null,
  at,
  width,
  height,
  angle,
  tells: [was, now].some((run) => run && (elevationsIn(run).length > 0 || runNoteIn(run) !== undefined)),
});

/** The middle of a line of text, its own sheet space. */
export function middleOf({ at, angle, width, height }: TextRun): Point2 {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  const [x, y] = [width / 2, height / 3];
  return [at[0] + x * c - y * s, at[1] + x * s + y * c];
}
