import { usedScale } from "../../job/registration.ts";
import type { Job, Sheet, Viewport } from "../../job/schema.ts";
import type { EarlierIssue, ToLookAt } from "../../job/sheet-issue.ts";
import { formatLength } from "../../units/format-length.ts";
import type { UnitSystem } from "../../units/length.ts";
import { inches } from "../../units/quantity.ts";
import { counted } from "../words.ts";

/** A length on paper, 1/72 in., as a person reads it: in the building where the scale is known, else on paper. */
function paperLength(pt: number, sheet: Sheet, viewport: Viewport | undefined, system: UnitSystem): string {
  const perUnit = viewport && usedScale(sheet, viewport);
  if (perUnit !== undefined)
    return formatLength(inches((pt / sheet.userUnit) * perUnit), system, { nearest: system === "metric" ? 10 : 1 });
  return system === "metric" ? `${((pt * 25.4) / 72).toFixed(1)} mm on paper` : `${(pt / 72).toFixed(2)} in. on paper`;
}

/** What a new issue shows otherwise where something lies, in sentences. */
export function lookWords(job: Job, sheetId: string, look: ToLookAt, system: UnitSystem): string[] {
  const sheet = job.sheets[sheetId];
  const record = job[look.table][look.id];
  const words: string[] = [];
  if (look.line && sheet && record) {
    const { there, movedPt } = look.line;
    const gone = Math.round((1 - there) * 100);
    const whole = there < 0.1 ? "Its drawn line" : `About ${gone} % of its drawn line`;
    words.push(
      movedPt === null
        ? `${whole} is not there any more.`
        : `${whole} has moved by about ${paperLength(movedPt, sheet, job.viewports[record.viewport], system)}.`,
    );
  }
  for (const { was, now } of look.texts)
    words.push(
      was === null ? `New text: ${now}` : now === null ? `Text gone: ${was}` : `Text changed: ${was} → ${now}`,
    );
  if (!look.line && !look.beside && look.texts.length === 0)
    words.push("Not compared: one of the two issues is a picture. Look at the drawing itself.");
  if (look.beside && !look.line) words.push("Something beside it is drawn otherwise.");
  return words;
}

/** What an alignment rests on. */
const laidByWords: Readonly<Record<EarlierIssue["laid"]["by"], string>> = {
  grid: "by the grid lines both name, held against the lines of the drawing",
  lines: "by the lines both draw",
  points: "by the places you pointed at",
};

/** How a new issue lies, in a sentence or two. */
export function laidWords(
  { by, scale, turnDeg, residualPt }: Omit<EarlierIssue["laid"], "shift">,
  pairs: number,
): string {
  const turned = Math.round(turnDeg * 100) / 100;
  const said = [
    turned === 0 ? "" : `turned by ${Math.abs(turned)}° ${turned > 0 ? "to the left" : "to the right"}`,
    Math.abs(scale - 1) < 5e-5 ? "" : `at ${Number((scale * 100).toPrecision(4))} % of the size on paper`,
  ].filter(Boolean);
  const how = said.length > 0 ? `, ${said.join(", ")}` : "";
  const points = by === "points";
  const off = residualPt / 72;
  const apart = off < 5e-5 ? "less than 0.0001" : off.toFixed(points ? 2 : 4);
  return `Laid ${laidByWords[by]}${how}. ${counted(pairs, points ? "place" : "end of a line", points ? "places" : "ends of lines")} lie ${apart} in. of paper apart, root mean square.`;
}
