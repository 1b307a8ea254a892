import type { FontFace } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import type { Note } from "../../job/note.ts";
import { wrapText } from "../report/wrap-text.ts";
import type { SheetFrame } from "../sheet-frame.ts";
import { shownText } from "../shown-text.ts";
import { CAP_HEIGHT, DESCENT, textWidth } from "../text-width.ts";

/** Longest line of a note, and size of its words, points of paper. */
const WIDEST = 170;
const SIZE = 8;
/** Baseline to baseline, as a part of the size. */
const LEADING = 1.25;
/** The level piece of the leader beside the words, and the gap between the two, points of paper. */
const LANDING = 7;
const GAP = 2.5;

/** One line of a note, its baseline from the end at the leader, `at`, to the other; sheet space, size in sheet units. */
interface NoteLine {
  readonly text: string;
  readonly at: Point2;
  readonly end: Point2;
  readonly size: number;
  readonly face: FontFace;
}

/** How a note is set out: its lines, the corners of the box they fill, and its leader from what it shows to to the words. Sheet space. */
interface NoteLayout {
  readonly lines: readonly NoteLine[];
  /** Whether the lines begin or end at the leader. */
  readonly align: "start" | "end";
  /** Lower left as displayed first, counter-clockwise. */
  readonly corners: readonly [Point2, Point2, Point2, Point2];
  readonly leader: readonly [Point2, Point2, Point2];
}

/** Sets out a note upright as displayed: its label, then its words, on the side of `place` that is away from what it shows to. */
export function noteLayout(
  { label, text, at, place }: Pick<Note, "label" | "text" | "at" | "place">,
  frame: SheetFrame,
): NoteLayout {
  const set = [
    { text: shownText(label), face: "bold" as const },
    ...wrapText(shownText(text), WIDEST, SIZE, "regular").map((line) => ({ text: line, face: "regular" as const })),
  ];
  const width = Math.max(...set.map((line) => textWidth(line.text, SIZE, line.face)));
  const [rx, ry] = frame.shift(1, 0);
  const isLeft = (place[0] - at[0]) * rx + (place[1] - at[1]) * ry < 0;
  const away = isLeft ? -1 : 1;
  const from = away * (LANDING + GAP);
  const left = isLeft ? from - width : from;
  const put = (right: number, up: number): Point2 => {
    const [dx, dy] = frame.shift(right, up);
    return [place[0] + dx, place[1] + dy];
  };
  // The leader meets the first line at the middle of its capitals.
  const baseline = (i: number): number => (-SIZE * CAP_HEIGHT) / 2 - i * SIZE * LEADING;
  const [top, bottom] = [SIZE * (CAP_HEIGHT / 2 + 0.2), baseline(set.length - 1) - SIZE * DESCENT];
  return {
    lines: set.map(({ text: line, face }, i) => ({
      text: line,
      face,
      size: SIZE * frame.point,
      at: put(from, baseline(i)),
      end: put(from + away * textWidth(line, SIZE, face), baseline(i)),
    })),
    align: isLeft ? "end" : "start",
    corners: [put(left, bottom), put(left + width, bottom), put(left + width, top), put(left, top)],
    leader: [at, place, put(away * LANDING, 0)],
  };
}
