import { VERDICTS } from "../check/finding.ts";
import type { Picture, PictureItem } from "../geometry/picture.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Job } from "../job/schema.ts";
import { radians } from "../units/quantity.ts";
import { HAIR_INK, INK, WHITE } from "./inks.ts";
import { NOTE_SYMBOL } from "./kinds/note.ts";
import type { Mark } from "./mark.ts";
import { rectPath } from "./paths.ts";
import { placePicture } from "./place-picture.ts";
import { sheetFrame } from "./sheet-frame.ts";
import { symbolOf } from "./symbols.ts";
import { textWidth } from "./text-width.ts";
import { NOTE_LEGEND, VERDICT_WORDS } from "./words.ts";

/** A legend and its size, points of paper; its origin is at the lower left. */
interface Legend {
  readonly picture: Picture;
  readonly width: number;
  readonly height: number;
}

const SYMBOL = 14.2;
const ROW = 21;
const TEXT = 8.5;
const PAD = 10;

/** Every verdict's symbol with its words, worst first, as a list in a frame; `notes` says at its end what a note with a leader is. */
export function legendPicture(options: { readonly frame?: boolean; readonly notes?: boolean } = {}): Legend {
  const rows = [
    ...VERDICTS.map((verdict) => ({ symbol: symbolOf(verdict), words: VERDICT_WORDS[verdict].legend })),
    ...(options.notes ? [{ symbol: NOTE_SYMBOL, words: NOTE_LEGEND }] : []),
  ];
  const widest = Math.max(...rows.map((row) => textWidth(row.words, TEXT, "regular")));
  const title = options.frame ? 16 : 0;
  const pad = options.frame ? PAD : 0;
  const width = pad * 2 + SYMBOL + 12 + widest;
  const height = pad * 2 + title + rows.length * ROW;
  const words = { type: "text", angle: radians(0), align: "start", fill: INK } as const;
  const picture: PictureItem[] = [];
  if (options.frame) {
    picture.push(
      rectPath(0, 0, width, height, { fill: WHITE, opacity: 0.85 }),
      rectPath(0, 0, width, height, { stroke: HAIR_INK, width: 0.8 }),
      { ...words, text: "Wiring under roof decks: findings", at: [pad, height - pad - 9], size: 9.5, face: "bold" },
    );
  }
  rows.forEach((row, i) => {
    const y = height - pad - title - ROW * (i + 0.5);
    picture.push(...placePicture(row.symbol, { scale: SYMBOL, angle: radians(0), dx: pad + SYMBOL / 2, dy: y }), {
      ...words,
      text: row.words,
      at: [pad + SYMBOL + 12, y - TEXT * 0.35],
      size: TEXT,
      face: "regular",
    });
  });
  return { picture, width, height };
}

/** The legend as a mark on a sheet, upright, its lower left corner as displayed at `at` (sheet space). */
export function legendMark(job: Job, sheetId: string, at: Point2): Mark | undefined {
  const sheet = job.sheets[sheetId];
  if (!sheet) return undefined;
  const frame = sheetFrame(sheet);
  const notes = Object.values(job.notes).some((note) => note.sheet === sheetId);
  const { picture, width, height } = legendPicture({ frame: true, notes });
  const [rx, ry] = frame.shift(width, 0);
  const [ux, uy] = frame.shift(0, height);
  const outline: Point2[] = [
    at,
    [at[0] + rx, at[1] + ry],
    [at[0] + rx + ux, at[1] + ry + uy],
    [at[0] + ux, at[1] + uy],
  ];
  return {
    key: `legend:${sheetId}`,
    layer: "findings",
    sheet: sheetId,
    picture: placePicture(picture, { scale: frame.point, angle: frame.upright, dx: at[0], dy: at[1] }),
    hit: { kind: "area", outline },
    annotation: {
      subtype: "Stamp",
      subject: "Legend",
      contents: [...VERDICTS.map((verdict) => VERDICT_WORDS[verdict].legend), ...(notes ? [NOTE_LEGEND] : [])].join(
        "; ",
      ),
      colour: INK,
    },
  };
}
