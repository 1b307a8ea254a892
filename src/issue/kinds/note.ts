import type { Picture, PictureItem } from "../../geometry/picture.ts";
import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Note } from "../../job/note.ts";
import type { Job } from "../../job/schema.ts";
import { INK, WHITE } from "../inks.ts";
import { linePath } from "../paths.ts";
import type { SheetFrame } from "../sheet-frame.ts";
import { shownText } from "../shown-text.ts";
import type { Drawing } from "./drawing.ts";
import { noteLayout } from "./note-layout.ts";

/** Weight of the leader and size of its arrowhead, points of paper. */
const LEADER = 0.8;
const HEAD = { length: 6, half: 1.7 } as const;
/** How far the ground behind the words covers what lies below: it dims linework, and never hides it. */
const GROUND = 0.65;

/** A leader with its arrowhead, in a unit square about the middle: what the legend shows for notes. */
export const NOTE_SYMBOL: Picture = [
  linePath(
    [
      [-0.45, -0.3],
      [0.1, 0.25],
      [0.5, 0.25],
    ],
    { stroke: INK, width: 0.06 },
  ),
  linePath(
    [
      [-0.45, -0.3],
      [-0.05, -0.06],
      [-0.2, 0.09],
    ],
    { fill: INK },
    true,
  ),
];

/** The label of what a note is about; "" for nothing in particular. */
export const noteAbout = (job: Job, { about }: Note): string => (about && job[about.table][about.id]?.label) ?? "";

/** A note on the sheet: its words in plain ink with a leader and an arrowhead, as a drafter writes them. */
export function drawNote(note: Note, { job, frame }: { readonly job: Job; readonly frame: SheetFrame }): Drawing {
  const { lines, align, corners, leader } = noteLayout(note, frame);
  const about = shownText(noteAbout(job, note));
  const label = shownText(note.label);
  const picture: PictureItem[] = [
    linePath(corners, { fill: WHITE, opacity: GROUND }, true),
    linePath(leader, { stroke: INK, width: LEADER * frame.point }),
    ...arrowhead(leader[0], leader[1], frame),
    ...lines.map(
      ({ text, at, size, face }): PictureItem => ({
        type: "text",
        text,
        at,
        size,
        angle: frame.upright,
        align,
        face,
        fill: INK,
      }),
    ),
  ];
  return {
    picture,
    // The leader counts too: out to its point and back.
    hit: { kind: "area", outline: [...corners, leader[2], leader[1], leader[0], leader[1], leader[2]] },
    annotation: {
      subtype: "FreeText",
      subject: about ? `Note ${label}, about ${about}` : `Note ${label}`,
      contents: `${label}\n${shownText(note.text)}`,
      vertices: leader,
      width: LEADER * frame.point,
      colour: INK,
    },
    labels: [],
    keepClear: [leader, ...lines.flatMap((line) => rowsOf(line, frame))],
  };
}

/** A filled arrowhead with its tip at `tip`; none where the leader has no length. */
function arrowhead(tip: Point2, from: Point2, { point }: SheetFrame): PictureItem[] {
  const length = distance2(tip, from);
  if (length === 0) return [];
  const [ux, uy] = [(from[0] - tip[0]) / length, (from[1] - tip[1]) / length];
  const back = Math.min(HEAD.length * point, length);
  const half = HEAD.half * point;
  const wing = (side: 1 | -1): Point2 => [tip[0] + ux * back - side * uy * half, tip[1] + uy * back + side * ux * half];
  return [linePath([tip, wing(1), wing(-1)], { fill: INK }, true)];
}

/** Two lines through a line of words, so that nothing else is set over any part of it. */
function rowsOf({ at, end, size }: { at: Point2; end: Point2; size: number }, frame: SheetFrame): Point2[][] {
  return [0.1, 0.6].map((up) => {
    const [dx, dy] = frame.shift(0, (up * size) / frame.point);
    return [at, end].map(([x, y]): Point2 => [x + dx, y + dy]);
  });
}
