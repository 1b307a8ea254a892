import { radians, sheetUnits } from "../../units/quantity.ts";
import type { TextRun } from "./plan-contents.ts";

/** Pieces on one baseline closer than this (in em) belong to one line; drawings set words about 0.3 em apart. */
const JOIN_EM = 0.9;
/** Above this gap (in em) the pieces are separate words. */
const SPACE_EM = 0.18;
/** How far apart (in em) the baselines of one line may lie. */
const BASELINE_EM = 0.25;
/** Pieces of one line differ in size by no more than this factor. */
const SIZE_RATIO = 1.25;

interface Placed {
  readonly run: TextRun;
  /** Along the baseline and across it. */
  readonly u: number;
  readonly v: number;
}

/**
 * Joins the pieces of text a drawing program wrote separately into lines, in reading order for each direction of
 * text. Empty pieces are dropped. In sheet space, as the pieces are.
 */
export function joinText(pieces: readonly TextRun[]): TextRun[] {
  const byDirection = new Map<number, Placed[]>();
  for (const run of pieces) {
    if (tidy(run.text) === "" || !(run.height > 0)) continue;
    const degrees = ((Math.round((run.angle * 180) / Math.PI) % 360) + 360) % 360;
    const turn = (degrees * Math.PI) / 180;
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const placed = { run, u: run.at[0] * c + run.at[1] * s, v: run.at[1] * c - run.at[0] * s };
    const list = byDirection.get(degrees);
    if (list) list.push(placed);
    else byDirection.set(degrees, [placed]);
  }
  return [...byDirection.entries()].sort((a, b) => a[0] - b[0]).flatMap(([, list]) => joinDirection(list));
}

function joinDirection(list: Placed[]): TextRun[] {
  list.sort((a, b) => b.v - a.v || a.u - b.u);
  const lines: TextRun[] = [];
  for (let i = 0; i < list.length; ) {
    const first = list[i]!;
    let end = i + 1;
    while (
      end < list.length &&
      first.v - list[end]!.v <= BASELINE_EM * Math.min(first.run.height, list[end]!.run.height)
    )
      end++;
    lines.push(...joinBaseline(list.slice(i, end)));
    i = end;
  }
  return lines;
}

function joinBaseline(list: Placed[]): TextRun[] {
  list.sort((a, b) => a.u - b.u);
  const done: TextRun[] = [];
  let open: { placed: Placed; text: string; end: number } | undefined;
  const close = () => {
    if (open) done.push({ ...open.placed.run, text: tidy(open.text), width: sheetUnits(open.end - open.placed.u) });
  };
  for (const placed of list) {
    const { run, u } = placed;
    const em = open ? Math.max(open.placed.run.height, run.height) : 0;
    const gap = open ? u - open.end : 0;
    const alike = open && em <= SIZE_RATIO * Math.min(open.placed.run.height, run.height);
    if (open && alike && gap <= JOIN_EM * em && gap >= -0.5 * em) {
      const spaced = gap > SPACE_EM * em || open.text.endsWith(" ") || run.text.startsWith(" ");
      open = {
        placed: open.placed,
        text: `${open.text}${spaced ? " " : ""}${run.text}`,
        end: Math.max(open.end, u + run.width),
      };
      continue;
    }
    // The same words set twice in the same place (a drawing's way of making bold) are one line.
    if (open && alike && run.text.trim() === open.text.trim() && Math.abs(u - open.placed.u) < 0.5 * em) continue;
    close();
    open = { placed, text: run.text, end: u + run.width };
  }
  close();
  return done;
}

/** Marks that only tell in which direction to write (Unicode, general category Cf: ALM, LRM, RLM, embeddings, isolates, the byte order mark, zero-width space and joiners). */
const UNSEEN = /[\u061c\u200b-\u200f\u202a-\u202e\u2060\u2066-\u2069\ufeff]/g;

const tidy = (text: string): string => text.replace(UNSEEN, "").replace(/\s+/g, " ").trim();

/** A piece as pdf.js gives it: `transform` takes the unit em square to sheet space, `width` is in sheet units. */
export interface EnginePiece {
  readonly str: string;
  readonly transform: readonly number[];
  readonly width: number;
}

/** The piece as a text run in sheet space. */
export const runOf = ({ str, transform, width }: EnginePiece): TextRun => {
  const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = transform;
  return {
    text: str,
    at: [e, f],
    angle: radians(Math.atan2(b, a)),
    height: sheetUnits(Math.hypot(c, d)),
    width: sheetUnits(width),
    ...(a * d - b * c < 0 ? { mirrored: true as const } : {}),
  };
};
