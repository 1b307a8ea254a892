import { radians, sheetUnits } from "../../units/quantity.ts";
import { OPERATOR } from "./engine-operators.ts";
import { chain, type Matrix } from "./matrix.ts";
import type { TextRun } from "./plan-contents.ts";

/** What the engine knows of a font, as far as it says where text goes. */
export interface EngineFont {
  readonly name?: string;
  readonly vertical?: boolean;
  readonly isType3Font?: boolean;
  readonly fontMatrix?: readonly number[] | null;
  readonly bbox?: readonly number[] | null;
}

/** A glyph in the engine's operator list, as far as text goes. Widths are in the font's own space. */
interface EngineGlyph {
  readonly unicode: string;
  readonly width: number;
  /** Advance down the page, and the place of the origin, in a font that writes downwards. */
  readonly vmetric?: readonly number[] | null;
  /** Whether it is the single byte 32, to which word spacing applies (ISO 32000-2, 9.3.3). */
  readonly isSpace: boolean;
}

/** Takes the text operators of a page in order and makes pieces of text of them. */
export interface TextGatherer {
  /** An operator that is about text; any other is let pass. `matrix` takes user space to the sheet. */
  take(operator: number, args: readonly unknown[] | null, matrix: Matrix): void;
  /** The graphics state is saved or restored; the text state is part of it. */
  save(): void;
  restore(): void;
  /** A form XObject begins or ends: its text does not go on with the text round it. The state is saved and restored apart from this. */
  enterForm(): void;
  leaveForm(): void;
  /** What follows is on another layer, or beyond a picture: it begins a piece of its own. */
  part(): void;
  /** The pieces in order of drawing, or null where operators alone do not tell what the text is, and the engine has to be asked for it. */
  finish(): readonly TextRun[] | null;
}

/** How far, in em, the pen may have gone on before the next glyph: less is tracking, up to `GAP_EM` a space, beyond another piece. */
const TRACKING_EM = 0.102;
const GAP_EM = 0.6;
/** How far it may have gone back. */
const BACK_EM = -0.2;
/** Nearer than this no space that was written before counts. */
const TIGHT_EM = 0.03;
/** Glyphs this far aside (as a part of their height) are on another line. */
const ASIDE = 0.25;

/** Left to right only: what is written the other way the engine puts in order. */
const RIGHT_TO_LEFT = /[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufeff]/u;
/** Letters run together, spaces of a set width and doubled signs that are taken for the plain ones. */
const COMPOUND = /[\u00a0\u00b5\u037e\u2000-\u200a\u202f\u2126\ufb00-\ufb06]/u;
const COMPOUNDS = new RegExp(COMPOUND, "gu");

/** ISO 32000-2, 9.3: the text state, and the two matrices of a text object, which the engine keeps with it. Replaced where it is saved. */
interface TextState {
  font: EngineFont | null;
  fontName: string;
  size: number;
  /** One unit of the font's widths in em, and the height of its letters in em. */
  unit: number;
  tall: number;
  charSpacing: number;
  wordSpacing: number;
  leading: number;
  stretch: number;
  rise: number;
  matrix: number[];
  line: number[];
}

/** The piece being put together, and where its last glyph ended. Its measures outlast it: the next glyph is judged by them. */
interface Piece {
  open: boolean;
  text: string[];
  start: Matrix;
  /** Where the last glyph that has a width ended; null before the first. */
  end: Matrix | null;
  endRise: number;
  vertical: boolean;
  /** Em size across the direction of writing, sheet units. */
  size: number;
  /** Size in text space: the measure of gaps. */
  em: number;
  /** Length so far in text space since the scale last changed, and on the sheet before that. */
  length: number;
  lengthBefore: number;
  scale: number;
  /** Whether the last character but one is ink, and whether the last one is. */
  inkBefore: boolean;
  ink: boolean;
}

const newPiece = (): Piece => ({
  open: false,
  text: [],
  start: [1, 0, 0, 1, 0, 0],
  end: null,
  endRise: 0,
  vertical: false,
  size: 0,
  em: 0,
  length: 0,
  lengthBefore: 0,
  scale: 1,
  inkBefore: false,
  ink: false,
});

/**
 * Text as the engine's operators show it, in the pieces the engine's own text reading gives: the same strings at the same places, pieces
 * of nothing but space left out. Glyphs that start outside `view` are left out. `fontOf` gives the font of a name in the list.
 */
export function gatherText(
  view: readonly [number, number, number, number],
  fontOf: (name: string) => EngineFont | null,
): TextGatherer {
  const runs: TextRun[] = [];
  const saved: TextState[] = [];
  const outer: Piece[] = [];
  let known = true;
  let piece = newPiece();
  /** Font and size of the last text shown. */
  let shown: { font: EngineFont | null; name: string; size: number } = { font: null, name: "", size: 0 };
  let state: TextState = {
    font: null,
    fontName: "",
    size: 0,
    unit: 0.001,
    tall: 1,
    charSpacing: 0,
    wordSpacing: 0,
    leading: 0,
    stretch: 1,
    rise: 0,
    matrix: [1, 0, 0, 1, 0, 0],
    line: [1, 0, 0, 1, 0, 0],
  };

  const flush = (): void => {
    if (!piece.open) return;
    piece.lengthBefore += piece.length * piece.scale;
    piece.open = false;
    const text = plain(piece.text.join(""));
    piece.text = [];
    if (RIGHT_TO_LEFT.test(text)) known = false;
    const [a, b, c, d, e, f] = piece.start;
    runs.push({
      text,
      at: [e, f],
      angle: radians(Math.atan2(b, a)),
      height: sheetUnits(Math.hypot(c, d)),
      width: sheetUnits(piece.vertical ? piece.size : Math.abs(piece.lengthBefore)),
      ...(a * d - b * c < 0 ? { mirrored: true as const } : {}),
    });
  };
  const forgetSpace = (): void => {
    piece.inkBefore = false;
    piece.ink = false;
  };
  const newLine = (): void => {
    forgetSpace();
    flush();
  };

  const scaleOf = (matrix: Matrix): number =>
    Math.hypot(state.line[0]!, state.line[1]!) * Math.hypot(matrix[0], matrix[1]);
  /** The map of the em square to the sheet, where the pen is. */
  const placeOf = (matrix: Matrix): Matrix => {
    const [a, b, c, d, e, f] = state.matrix as unknown as Matrix;
    const { size, stretch, rise, tall } = state;
    const [along, up] = [size * stretch, size * tall];
    return chain([a * along, b * along, c * up, d * up, c * rise + e, d * rise + f], matrix);
  };
  const move = (matrix: number[], x: number, y: number): void => {
    matrix[4] = matrix[0]! * x + matrix[2]! * y + matrix[4]!;
    matrix[5] = matrix[1]! * x + matrix[3]! * y + matrix[5]!;
  };
  /** Moves the pen along the direction of writing, in text space. */
  const advance = (by: number): void => {
    if (state.font?.vertical) move(state.matrix, 0, by);
    else move(state.matrix, by * state.stretch, 0);
  };
  const nextLine = (x: number, y: number): void => {
    move(state.line, x, y);
    state.matrix = [...state.line];
  };

  const open = (matrix: Matrix): void => {
    if (piece.open) return;
    const start = placeOf(matrix);
    piece.open = true;
    piece.start = start;
    piece.vertical = state.font?.vertical ?? false;
    piece.size = piece.vertical ? Math.hypot(start[0], start[1]) : Math.hypot(start[2], start[3]);
    piece.em = state.size;
    piece.length = 0;
    piece.lengthBefore = 0;
    piece.scale = scaleOf(matrix);
  };

  /** Judges a glyph at the pen by where the one before it ended: it goes on with the piece, after a space perhaps, or begins another. */
  const goOn = (at: Matrix): void => {
    const { end } = piece;
    if (!end || (end[4] === at[4] && end[5] === at[5])) return;
    const [x, y] = turnedBack(at, at);
    const [endX, endY] = turnedBack(end, at);
    const vertical = state.font?.vertical ?? false;
    const forward = (vertical ? endY - y : x - endX) / piece.scale;
    const aside = vertical ? x - endX : y - endY;
    const raised = state.rise - piece.endRise;
    const way = Math.sign(piece.length || piece.lengthBefore);
    const unraised = vertical || raised === 0 ? aside : aside - (at[3] / state.size) * raised;
    if (forward < way * BACK_EM * piece.em || Math.abs(unraised) > piece.size) {
      newLine();
      return;
    }
    if (forward <= way * TIGHT_EM * piece.em) forgetSpace();
    if (forward <= way * TRACKING_EM * piece.em) {
      if (piece.inkBefore && !piece.ink) newLine();
      else piece.length += forward;
    } else if (forward <= way * GAP_EM * piece.em) {
      forgetSpace();
      if (piece.open) {
        piece.text.push(" ");
        piece.length += forward;
      }
    } else newLine();
    if (Math.abs(aside) > piece.size * ASIDE) flush();
  };

  const saveInk = (ink: boolean): void => {
    piece.inkBefore = piece.ink;
    piece.ink = ink;
  };

  const showGlyph = (glyph: EngineGlyph, spacing: number, matrix: Matrix): void => {
    const { unicode } = glyph;
    const kind = kindOf(unicode);
    if (kind === "mark") return;
    const vertical = state.font?.vertical ?? false;
    const width = (vertical ? (glyph.vmetric?.[0] ?? -glyph.width) : glyph.width) * state.unit * state.size;
    const after = spacing + state.charSpacing + (glyph.isSpace ? state.wordSpacing : 0);
    if (kind === "space") {
      advance(width + after);
      saveInk(false);
      return;
    }
    const at = placeOf(matrix);
    if (kind === "ink") {
      const reach = vertical ? at[5] : at[4];
      const [low, high] = vertical ? [view[1], view[3]] : [view[0], view[2]];
      const beside = vertical ? at[4] : at[5];
      const [least, most] = vertical ? [view[0], view[2]] : [view[1], view[3]];
      if (reach + width < low || reach > high || beside < least || beside > most) {
        advance(width + after);
        return;
      }
      goOn(at);
    }
    open(matrix);
    const long = kind === "accent" ? 0 : width;
    advance(long);
    piece.length += vertical ? Math.abs(long) : long * state.stretch;
    if (long !== 0) {
      piece.end = placeOf(matrix);
      piece.endRise = state.rise;
    }
    const spaced = piece.inkBefore && !piece.ink;
    saveInk(unicode !== " ");
    if (spaced) piece.text.push(" ");
    piece.text.push(unicode);
    if (after !== 0) advance(after);
  };

  const show = (glyphs: readonly (EngineGlyph | number)[], matrix: Matrix): void => {
    const { font, fontName, size } = state;
    if (!font) {
      if (glyphs.some((glyph) => typeof glyph !== "number")) known = false;
      return;
    }
    // Whether the box of such a font was stated or worked out, which decides how high a letter is, the list does not say.
    if (size > 1 && tallOf(font) !== 1) known = false;
    if (
      shown.size !== size ||
      (shown.name !== fontName && (shown.font?.name !== font.name || shown.font?.vertical !== font.vertical))
    ) {
      flush();
      shown = { font, name: fontName, size };
    }
    const back = -size / 1000;
    for (let i = 0; i < glyphs.length; i++) {
      const glyph = glyphs[i]!;
      if (typeof glyph === "number") {
        if (glyph !== 0) advance(glyph * back);
        continue;
      }
      showGlyph(glyph, 0, matrix);
    }
  };

  return {
    take(operator, args, matrix) {
      const number = (i: number): number => Number(args?.[i]) || 0;
      switch (operator) {
        case OPERATOR.beginText:
          state.matrix = [1, 0, 0, 1, 0, 0];
          state.line = [1, 0, 0, 1, 0, 0];
          return;
        case OPERATOR.setFont: {
          state.fontName = String(args?.[0]);
          state.size = number(1);
          state.font = fontOf(state.fontName);
          state.unit = state.font?.fontMatrix?.[0] ?? 0.001;
          state.tall = state.font && state.size <= 1 ? tallOf(state.font) : 1;
          return;
        }
        case OPERATOR.setCharSpacing:
          state.charSpacing = number(0);
          return;
        case OPERATOR.setWordSpacing:
          state.wordSpacing = number(0);
          return;
        case OPERATOR.setHScale:
          state.stretch = number(0) / 100;
          return;
        case OPERATOR.setLeading:
          state.leading = number(0);
          return;
        case OPERATOR.setTextRise:
          state.rise = number(0);
          return;
        case OPERATOR.moveText:
          return nextLine(number(0), number(1));
        case OPERATOR.setLeadingMoveText:
          state.leading = -number(1);
          return nextLine(number(0), number(1));
        case OPERATOR.nextLine:
          return nextLine(0, -state.leading);
        case OPERATOR.setTextMatrix: {
          const list = Array.from((typeof args?.[0] === "number" ? args : args?.[0]) as ArrayLike<number>);
          state.matrix = list;
          state.line = [...list];
          const scale = scaleOf(matrix);
          if (!piece.open || scale === piece.scale) return;
          piece.lengthBefore += piece.length * piece.scale;
          piece.length = 0;
          piece.scale = scale;
          return;
        }
        case OPERATOR.showText:
          return show((args?.[0] ?? []) as readonly (EngineGlyph | number)[], matrix);
      }
    },
    save() {
      saved.push({ ...state, matrix: [...state.matrix], line: [...state.line] });
    },
    restore() {
      state = saved.pop() ?? state;
    },
    enterForm() {
      flush();
      outer.push(piece);
      piece = newPiece();
    },
    leaveForm() {
      flush();
      piece = outer.pop() ?? piece;
    },
    part: flush,
    finish() {
      flush();
      return known ? runs : null;
    },
  };
}

/** A place in the frame of a direction of writing: along it and across it. Quarter turns are exact. */
function turnedBack([a, b, c, d, x, y]: Matrix, [along, turned, back, up]: Matrix): readonly [number, number] {
  if (along !== 0 && turned === 0 && back === 0) return along > 0 ? [x, y] : [-x, -y];
  if (turned !== 0 && along === 0 && up === 0) return turned > 0 ? [y, x] : [-y, -x];
  const scale = Math.hypot(a, b);
  return [(a * x + b * y) / scale, (c * x + d * y) / scale];
}

type GlyphKind = "ink" | "space" | "accent" | "mark";
const kinds = new Map<string, GlyphKind>();

/** What a character does to the line: marks of formatting are not seen, accents take no room. */
function kindOf(unicode: string): GlyphKind {
  let kind = kinds.get(unicode);
  if (kind === undefined) {
    kind = /^\s/u.test(unicode)
      ? "space"
      : /\p{Mn}/u.test(unicode)
        ? "accent"
        : /\p{Cf}$/u.test(unicode)
          ? "mark"
          : "ink";
    kinds.set(unicode, kind);
  }
  return kind;
}

const plain = (text: string): string =>
  COMPOUND.test(text) ? text.replace(COMPOUNDS, (letters) => letters.normalize("NFKC")) : text;

/** How high the letters of a font drawn glyph by glyph (Type 3) are, in em: as its box, where it has one. */
function tallOf({ isType3Font, fontMatrix, bbox }: EngineFont): number {
  if (!isType3Font || !fontMatrix || !bbox) return 1;
  const height = bbox[3]! - bbox[1]!;
  const usual = fontMatrix.every((n, i) => n === [0.001, 0, 0, 0.001, 0, 0][i]);
  return usual || !(height > 0) ? 1 : height * fontMatrix[3]!;
}
