import { parseLength } from "../../units/parse-length.ts";
import { parseScaleNote } from "../../units/scale-note.ts";
import { parseSlope } from "../../units/slope.ts";
import type { FoundElevation, FoundScaleNote, FoundSlope, TextRun } from "./plan-contents.ts";

const FRACTION = String.raw`\d+\s*[/⁄]\s*\d+|[½¼¾⅛⅜⅝⅞]`;
const NUMBER = String.raw`(?:\d+(?:\.\d+)?(?:\s*[- ]\s*(?:${FRACTION})|[½¼¾⅛⅜⅝⅞])?|${FRACTION}|\.\d+)`;
const FOOT = String.raw`\s*(?:['’′](?!['’′])|ft\.?|feet)`;
const INCH = String.raw`\s*(?:["”″]|''|’’|′′|in\.)`;
const FEET_INCHES = String.raw`${NUMBER}${FOOT}(?:\s*-?\s*${NUMBER}${INCH}?)?`;

const EQUATION = new RegExp(String.raw`${NUMBER}${INCH}\s*=\s*(?:${FEET_INCHES}|${NUMBER}${INCH})`, "i");
const RATIO = /\b1\s*:\s*(\d{1,5})(?![\d:.])/;
/** Ratios of ISO 5455 and the ones common beside them: elsewhere on a drawing "1 : 48" is more often a slope or a time. */
const USUAL_RATIOS = new Set([
  1, 2, 5, 10, 20, 25, 50, 75, 100, 125, 150, 200, 250, 300, 400, 500, 750, 1000, 1250, 2000, 2500, 5000,
]);
const AS_NOTED = /\bas\s+(?:noted|indicated|shown)\b|\bscale\s*[:=]?\s*(?:varies|various)\b/i;
const NO_SCALE = /\bn\.?\s?t\.?\s?s\b\.?|\bnot\s+to\s+scale\b|\bno\s+scale\b|\bscale\s*[:=]?\s*none\b/i;

/** The scale note in a line of text, if it has one. */
export function scaleNoteIn(run: TextRun): FoundScaleNote | undefined {
  const named = /\bscale\b/i.test(run.text);
  const alone = (found: string) => named || bare(run.text) === bare(found);
  const ratio = RATIO.exec(run.text);
  const usual = ratio && USUAL_RATIOS.has(Number(ratio[1])) && alone(ratio[0]);
  const written = EQUATION.exec(run.text)?.[0] ?? (ratio && (named || usual) ? ratio[0] : undefined);
  if (written) {
    const note = parseScaleNote(written);
    return note.ok ? { text: written.trim(), ratio: note.value.ratio, kind: "scale", run } : undefined;
  }
  // The words of a whole title: inside a sentence ("install as shown") they are no scale.
  const noted = AS_NOTED.exec(run.text)?.[0];
  if (noted && alone(noted)) return { text: noted.trim(), ratio: null, kind: "as-noted", run };
  const none = NO_SCALE.exec(run.text)?.[0];
  return none ? { text: none.trim(), ratio: null, kind: "not-to-scale", run } : undefined;
}

/** Words before an elevation: EL., ELEV., T.O.S., T/STEEL, TOP OF DECK, B.O.D., U/S DECK, FFE and their like. */
const BEFORE = String.raw`(?:(?:(?:top|bottom|b\.?o\.?|t\.?o\.?|[tb]|u)\s*[./]?\s*(?:of\s+|s\s+)?(?:steel|stl|deck|dk|slab|conc(?:rete)?|joist|beam|roof|wall|parapet|footing|masonry|s|d|c|j|b|r|w|p|f)\b\.?)|el(?:ev(?:ation)?)?\b\.?|f\.?f\.?e?\.?(?=\s)|finish(?:ed)?\s+floor)`;
const AFTER = String.raw`(?:a\.?\s?f\.?\s?f\b\.?|above\s+fin(?:ish(?:ed)?|\.)?\s+floor|el\b\.?)`;
const METRES = String.raw`\d{1,4}\.\d{2,3}(?:\s*m\b)?`;
const MILLIMETRES = String.raw`\d{2,6}\s*mm\b`;
const FIGURE = `(?:${FEET_INCHES}|${MILLIMETRES}|${METRES})`;
const SIGN = "(?:\\+/-|[±+\\-−–])";

const TAGGED = new RegExp(
  String.raw`(?<![a-z])((?:${BEFORE}[\s:=]*)+(?:at\s+|@\s*)?)(${SIGN}?\s*${FIGURE})\s*(${AFTER})?`,
  "i",
);
const FOLLOWED = new RegExp(String.raw`(${SIGN}?\s*${FIGURE})\s*(${AFTER})`, "i");
const SIGNED = new RegExp(String.raw`^\s*(${SIGN}\s*(?:${FEET_INCHES}|${METRES}))\s*$`, "i");

/** How far above (in em, between baselines) the other line of a tag is looked for. */
const ABOVE_EM = 2.4;

/** The text of the line right above a line, in its own direction; null when nothing stands close above it. */
export function lineAbove(run: TextRun, runs: readonly TextRun[]): string | null {
  const [c, s] = [Math.cos(run.angle), Math.sin(run.angle)];
  let best: { text: string; up: number } | undefined;
  for (const other of runs) {
    if (other === run || Math.cos(other.angle - run.angle) < 0.999) continue;
    const [dx, dy] = [other.at[0] - run.at[0], other.at[1] - run.at[1]];
    const [along, up] = [dx * c + dy * s, dy * c - dx * s];
    const em = Math.max(run.height, other.height);
    const beside = along > run.width || along + other.width < 0;
    if (beside || up < 0.5 * em || up > ABOVE_EM * em) continue;
    if (!best || up < best.up) best = { text: other.text, up };
  }
  return best?.text ?? null;
}

/** The elevation in a line of text, if it reads as one; `runs` are the other lines of the page. A length without words or sign is a dimension, not an elevation. */
export function elevationIn(run: TextRun, runs: readonly TextRun[] = []): FoundElevation | undefined {
  const read = elevationText(run);
  return read && { ...read, above: lineAbove(run, runs) };
}

const elevationText = (run: TextRun): Omit<FoundElevation, "above"> | undefined => {
  const tagged = TAGGED.exec(run.text);
  if (tagged) return elevationOf(run, tagged[0], tagged[2]!, `${tagged[1]} ${tagged[3] ?? ""}`);
  const followed = FOLLOWED.exec(run.text);
  if (followed) return elevationOf(run, followed[0], followed[1]!, followed[2]!);
  const signed = SIGNED.exec(run.text);
  return signed ? elevationOf(run, signed[0], signed[1]!, "") : undefined;
};

const elevationOf = (
  run: TextRun,
  text: string,
  figure: string,
  words: string,
): Omit<FoundElevation, "above"> | undefined => {
  // Three decimals without a unit are metres on a metric drawing; on a civil sheet they are feet, and a person decides.
  const value = parseLength(figure.replace(/^\s*±/, "+/-"), "m");
  return value.ok
    ? { text: text.trim(), words: words.replace(/[\s:=@]+/g, " ").trim(), value: value.value, run }
    : undefined;
};

const SLOPE = new RegExp(
  String.raw`^\s*(?:slope\s*[:=]?\s*)?(${NUMBER}(?:${INCH}|\s*in\b)?\s*(?::|/|per|in)\s*(?:${FEET_INCHES}|foot|ft\.?|12(?:${INCH})?))\s*(?:slope|fall|pitch|down|dn\.?)?\s*$`,
  "i",
);

/** Inside a sentence only the form that cannot be anything else. */
const SLOPE_IN_WORDS = new RegExp(
  String.raw`(?<![\d/.])${NUMBER}(?:${INCH}|\s*in\b)?\s*(?:per\s+(?:foot|ft)\b|/\s*(?:foot|ft)\b)`,
  "i",
);

/** A per cent is a slope where it stands by itself or is called one, as beside a slope arrow. */
const PER_CENT = /^\s*(?:slope\s*[:=]?\s*)?(\d{1,2}(?:\.\d+)?\s*%)\s*(?:slope|fall|pitch|down|dn\.?)?\s*$/i;

/** The roof slope in a line of text, if it reads as one: `2%`, `1/4" / 1'-0"`, `1/4" per foot`, `SLOPE 1/4" : 12"`. */
export function slopeIn(run: TextRun): FoundSlope | undefined {
  const written = SLOPE.exec(run.text)?.[1] ?? PER_CENT.exec(run.text)?.[1] ?? SLOPE_IN_WORDS.exec(run.text)?.[0];
  if (!written) return undefined;
  const slope = parseSlope(written.replace(/\s*\/\s*(?=1\s*['’′])/, " : "));
  return slope.ok ? { text: run.text.trim(), rise: slope.value.rise, run } : undefined;
}

const SHEET_NUMBER = /^[A-Z]{1,3}[-. ]?\d{1,4}(?:[.-]\d{1,3})?[A-Z]?$/;

/** The text that looks most like the number of the sheet: of that form, and larger than any other of that form. */
export function sheetNumberIn(runs: readonly TextRun[]): string | null {
  const sizes = runs.map((run) => run.height as number).sort((a, b) => a - b);
  const usual = sizes[Math.floor(sizes.length / 2)] ?? 0;
  let best: TextRun | undefined;
  for (const run of runs) {
    if (SHEET_NUMBER.test(run.text) && run.height >= 1.5 * usual && run.height > (best?.height ?? 0)) best = run;
  }
  return best?.text ?? null;
}

const bare = (text: string): string => text.replace(/[\s:.=()]/g, "").toLowerCase();
