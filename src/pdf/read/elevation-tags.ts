import type { Point2 } from "../../geometry/point.ts";
import { toInches } from "../../units/length.ts";
import { parseLength } from "../../units/parse-length.ts";
import type { Inches } from "../../units/quantity.ts";
import type { TextRun } from "./plan-contents.ts";

/** An elevation as a sheet writes it, taken apart. A suggestion: which storey's floor, which surface, is for a person to confirm. */
export interface WrittenElevation {
  /** The tag as written, with its words. */
  readonly text: string;
  readonly value: Inches;
  /** Of what is tagged: its bottom, its centre or its top; null where the tag does not say. */
  readonly basis: "bottom" | "centre" | "top" | null;
  /** The surface it names: steel, deck, slab, roofing and the like, in plain lower case; null where it names none. */
  readonly surface: string | null;
  /** What it is counted from: a finished floor, down from the deck, or not said (the project datum, on most sheets). */
  readonly from: "floor" | "deck" | null;
  /** Whether it is of what stands already: (E), EXIST. */
  readonly existing: boolean;
  /** Whether it is approximate: a plus-minus before it, or VERIFY, V.I.F. */
  readonly approximate: boolean;
  /** How much either way, where a plus-minus with a figure follows. */
  readonly give: Inches | null;
  readonly run: TextRun;
  /** Middle of the figure, sheet space; in proportion to the letters of its line. */
  readonly middle: Point2;
}

const FRACTION = String.raw`\d+\s*[/⁄]\s*\d+`;
const NUMBER = String.raw`(?:\d+(?:\.\d+)?(?:[ -]+${FRACTION}|[½¼¾⅛⅜⅝⅞])?|${FRACTION}|[½¼¾⅛⅜⅝⅞])`;
const FOOT = String.raw`\s*(?:['’′](?!['’′])|ft\b\.?)`;
const INCH = String.raw`\s*(?:["”″]|''|’’|′′|in\b\.?)`;
const FIGURE = new RegExp(
  String.raw`(?<![\w,#/]|\d\.)((?:\+/-|±|[+~−–-])?)\s*(${NUMBER}${FOOT}(?:\s*-?\s*${NUMBER}${INCH})?|${NUMBER}${INCH}|\d+\s*mm\b|\d{1,4}\.\d{3}(?!\d)(?:\s*m\b)?|\d{1,4}\.\d{1,2}\s*m\b)(?!\s*[:/=])`,
  "gi",
);

const SURFACE =
  "steel|stl|deck|dk|slab|concrete|conc|joists?|jst|beam|bm|roofing|roof|wall|parapet|conduit|raceway|footing|masonry";
/** What may stand before the surface: T.O. ROOF DECK. */
const OF = String.raw`(?:(?:metal|mtl\.?|steel|stl\.?|roof|floor|composite|wood|exist(?:ing|\.)?|\(e\))\s+)?`;
/** TOS, BOD: the letter of a surface right after T O or B O. */
const LETTER = String.raw`(?:[sdcjbw]\b|\s+(?:${SURFACE})\b)`;
const TOP = String.raw`top(?:\s+of)?|t\.\s?o\.?(?:\s?of)?|to(?=${LETTER})|t\s?/`;
const BOTTOM = String.raw`bottom(?:\s+of)?|bo?tm?\.?(?:\s+of)?|b\.\s?o\.?|bo(?=${LETTER})|b\s?/|u\s?/\s?s|u\.\s?s\.|underside(?:\s+of)?`;
const CENTRE = String.raw`c\s?/\s?l|℄|c\.?\s?l\.?|cent(?:re|er)(?:\s?line)?(?:\s+of)?`;
const FINISHED = String.raw`f\.?\s?f\.?\s?e\.?|fin(?:ish(?:ed)?|\.)?\s+(?:floor|flr\.?)`;
const POINT = String.raw`(?:high|low)\s+(?:point|pt\.?)`;
const BEFORE = new RegExp(
  String.raw`(?<![a-z])(?:(?<top>${TOP})|(?<bottom>${BOTTOM})|(?<centre>${CENTRE})|(?<finished>${FINISHED})|(?<point>${POINT}))?\s*(?:${OF}(?<surface>${SURFACE})\b|(?<letter>[sdcjbw])\.?(?=[\s:=@]|$))?\.?\s*(?<el>el(?:ev(?:ation)?)?\b\.?)?\s*[:=@]?\s*(?:at\s+)?(?:\(e\)\s*)?$`,
  "i",
);
/** The words for a height above the floor, where they come first: AFF 9'-0". */
const FLOOR_FIRST = /(?<![a-z'’"”\d])(?:a\.\s?f\.\s?f\.?|aff)\s*[:=@]?\s*$/i;
const GIVEN_ABOUT = /^\s*\(?(?:±|\+\/-)\)?\s*(?![\d\s]*\d)/;
const AFTER =
  /^\s*(?:(?<floor>a\.?\s?f\.?\s?f\b\.?|above\s+(?:the\s+)?fin(?:ish(?:ed)?|\.)?\s+floor)|(?<deck>below\s+(?:the\s+)?(?:roof\s+)?deck|b\.\s?d\.))/i;
const LETTERS: Readonly<Record<string, string>> = { s: "steel", d: "deck", j: "joist", b: "beam", w: "wall" };
const WHOLE: Readonly<Record<string, string>> = {
  stl: "steel",
  dk: "deck",
  conc: "concrete",
  jst: "joist",
  joists: "joist",
  bm: "beam",
};
const FIRST = /^\s*(?:to|and)\s*$/i;
const GIVE = /(?:\+\/-|±)\s*$/;
const ABOUT = /^(?:\+\/-|±|~)$/;
/** Words any of which make a figure an elevation. */
const NAMES = ["top", "bottom", "centre", "finished", "point", "el"] as const;
/** A line of text this long is a note, not a tag; its first part is read. */
const LONGEST = 400;
const MOST = 24;

/**
 * The elevations in a line of text: `EL. 14'-6"`, `T.O.S. 118'-3 1/2"`, `B.O. DECK +12'-0" A.F.F.`, `+3.450`, `6" BELOW DECK`,
 * `C.L. 15'-8" TO 15'-4" AFF` (two). A length with neither words nor sign is none, nor is a signed figure inside a sentence.
 */
export function elevationsIn(run: TextRun): WrittenElevation[] {
  const text = run.text.slice(0, LONGEST);
  const matches = [...text.matchAll(FIGURE)].slice(0, MOST);
  const found: WrittenElevation[] = [];
  let end = 0;
  for (const [i, match] of matches.entries()) {
    const [whole, sign = "", figure = ""] = match;
    const before = text.slice(end, match.index);
    const next = match.index + whole.length;
    const after = text.slice(next);
    end = next;
    const value = parseLength(`${/[−–-]/.test(sign) && !sign.includes("/") ? "-" : ""}${figure}`, "m");
    if (!value.ok) continue;
    const length = toInches(value.value);
    const last = found.at(-1);
    // What follows a plus-minus after a tag is how far off the tag may be.
    if (last && last.run === run && i > 0 && (sign === "+/-" || sign === "±" || GIVE.test(before)) && length < 24) {
      found[found.length - 1] = { ...last, give: length, approximate: true };
      continue;
    }
    const words = BEFORE.exec(before)?.groups ?? {};
    const follows = AFTER.exec(after)?.groups ?? {};
    const paired = last && i > 0 && FIRST.test(before);
    const later = matches[i + 1];
    const counted =
      later && FIRST.test(text.slice(next, later.index))
        ? AFTER.exec(text.slice(later.index + later[0].length))?.groups
        : follows;
    const floorFirst = i === 0 && FLOOR_FIRST.test(before);
    const named = floorFirst || NAMES.some((name) => words[name] !== undefined);
    const alone =
      sign !== "" &&
      text
        .replace(whole, "")
        .replace(/[()[\]]/g, "")
        .trim() === "";
    if (!named && !follows.floor && !follows.deck && !paired && !alone) continue;
    const from = counted?.floor || floorFirst ? "floor" : counted?.deck ? "deck" : null;
    const surface =
      (words.finished ? "floor" : words.surface?.toLowerCase()) ??
      (words.letter && (words.top || words.bottom) ? LETTERS[words.letter.toLowerCase()] : undefined);
    const led = named && !paired ? (BEFORE.exec(before)?.[0] ?? "").trimStart() : "";
    // A letter that names no surface belongs to the words before the tag: 2 1/8"D EL. 17'-1".
    const lead = words.letter && !words.top && !words.bottom ? led.replace(/^[a-z]\.?\s*/i, "") : led;
    found.push({
      text: `${lead}${whole}${AFTER.exec(after)?.[0] ?? ""}`.replace(/\s+/g, " ").trim(),
      value: length,
      basis: paired ? last.basis : basisOf(words),
      surface: paired ? last.surface : surface ? (WHOLE[surface] ?? surface) : null,
      from,
      existing: /\(e\)|\bexist(?:ing|\.)?/i.test(text),
      approximate: ABOUT.test(sign) || GIVEN_ABOUT.test(after) || /\bverify\b|\bv\.?i\.?f\b/i.test(text),
      give: null,
      run,
      middle: middleOf(run, match.index + whole.length / 2),
    });
  }
  return found;
}

/** What of the thing tagged a tag speaks of; a finished floor is its top. */
const basisOf = ({ top, finished, bottom, centre }: Readonly<Record<string, string>>): WrittenElevation["basis"] =>
  (top ?? finished) ? "top" : bottom ? "bottom" : centre ? "centre" : null;

/** The place of a letter of a line of text, at half the height of its capitals. */
function middleOf({ at, angle, height, width, text }: TextRun, letter: number): Point2 {
  const along = (letter * width) / text.length;
  const up = 0.35 * height;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [at[0] + c * along - s * up, at[1] + s * along + c * up];
}
