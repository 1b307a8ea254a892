import type { Point2 } from "../../geometry/point.ts";
import { toInches } from "../../units/length.ts";
import { parseLength } from "../../units/parse-length.ts";
import { type Inches, inches, MM_PER_INCH } from "../../units/quantity.ts";
import type { TextRun } from "./plan-contents.ts";

/** A length written in a line of text, with its place: sheet space. */
export interface WrittenLength {
  /** As written. */
  readonly text: string;
  readonly value: Inches;
  readonly run: TextRun;
  /** The middle of the figure; where a line of text holds several, in proportion to its letters. */
  readonly middle: Point2;
  /** Half the length the figure takes along its baseline, sheet units. */
  readonly half: number;
  /** Whether nothing else stands in the line but words customary beside a dimension. */
  readonly alone: boolean;
}

const FRACTION = String.raw`\d+\s*[/⁄]\s*\d+`;
const NUMBER = String.raw`(?:\d+(?:\.\d+)?(?:[ -]+${FRACTION}|[½¼¾⅛⅜⅝⅞])?|${FRACTION}|[½¼¾⅛⅜⅝⅞]|\.\d+)`;
const FOOT = String.raw`\s*(?:['’′](?!['’′])|ft\b\.?|feet\b)`;
const INCH = String.raw`\s*(?:["”″]|''|’’|′′|in\b\.?)`;
const LENGTH = new RegExp(
  String.raw`(?<![\w.,#/:=-])(?:${NUMBER}${FOOT}(?:\s*-?\s*${NUMBER}${INCH})?|${NUMBER}${INCH}|\d+(?:\.\d+)?\s*mm?\b)(?!\s*[:=/])`,
  "gi",
);
/** What may stand beside the figure of a dimension (common practice, no source). */
const BESIDE =
  /^[\s()±+/,.-]*(?:(?:typ|typical|clr|clear|hold|verify|field|v\.?i\.?f|min|max|overhang|nom|eq|equal|overall|o\.?a|ref|existing|e)\b\.?[\s()±+/,.-]*)*$/i;
/** Longest line of text looked into, and most lengths taken from one. */
const LONGEST = 400;
const MOST = 24;

/** The lengths in a line of text: `27' - 6"`, `5'-8 1/2"  10'-0"`, `3810 mm`. Ratios, slopes and bare numbers are none. */
export function lengthsIn(run: TextRun): WrittenLength[] {
  const { text } = run;
  if (text.length > LONGEST || !/\d/.test(text)) return [];
  const matches = [...text.matchAll(LENGTH)].slice(0, MOST);
  const left = text.replace(LENGTH, " ");
  const alone = BESIDE.test(left);
  return matches.flatMap((match) => {
    const value = parseLength(match[0]);
    return value.ok ? [placed(run, match[0], match.index, toInches(value.value), alone)] : [];
  });
}

/** A figure without a unit, alone in its line: `3450`, `12 500`. Those of one or two digits are labels of grids and views. */
const BARE = /^(?:\d{3,6}|\d{1,3}(?: \d{3})+)$/;

/** The figure without a unit that a line of text consists of, taken for millimetres. Whether it is that, the figure does not say. */
export function bareMillimetresIn(run: TextRun): WrittenLength | undefined {
  if (!BARE.test(run.text)) return undefined;
  return placed(run, run.text, 0, inches(Number(run.text.replaceAll(" ", "")) / MM_PER_INCH), true);
}

/** A figure of a line of text, with the place its share of the letters gives it. */
function placed(run: TextRun, figure: string, index: number, value: Inches, alone: boolean): WrittenLength {
  const [c, s] = [Math.cos(run.angle), Math.sin(run.angle)];
  const each = run.width / run.text.length;
  const along = (index + figure.length / 2) * each;
  const up = 0.35 * run.height;
  return {
    text: figure.trim(),
    value,
    run,
    middle: [run.at[0] + c * along - s * up, run.at[1] + s * along + c * up] as Point2,
    half: (figure.length * each) / 2,
    alone,
  };
}
