import { distance2, type Point2 } from "../../geometry/point.ts";
import { toInches } from "../../units/length.ts";
import { parseLength } from "../../units/parse-length.ts";
import type { Linework } from "./linework.ts";
import type { TextRun } from "./plan-contents.ts";
import { within } from "./seen-segments.ts";

/** A graphic scale: a bar with lengths written along it. Sheet space. */
export interface ScaleBar {
  /** Its labels in order, as written. */
  readonly labels: readonly string[];
  /** The place of 0 and of the last label, on the bar. */
  readonly ends: readonly [Point2, Point2];
  /** Building length per paper length. */
  readonly ratio: number;
}

interface Label {
  readonly text: string;
  /** Inches, or feet or metres where the last label alone names the unit: settled when the bar is put together. */
  readonly value: number;
  readonly at: Point2;
  readonly run: TextRun;
}

const LABEL = /^(\d+(?:\.\d+)?)\s*('|’|′|ft\.?|feet|m|mm|metres|meters)?$/i;
/** Fewest labels, the 0 among them. */
const LEAST_LABELS = 3;
/** How far a label may stand from where its value says, as a part of the bar's length. */
const STRAIGHT = 0.015;
/** Labels looked at on a page, and those of one line. */
const MOST_LABELS = 4_000;
const MOST_IN_LINE = 64;

/**
 * The graphic scales of a page: three or more lengths in one line of text, 0 first, whose distances follow their values, along
 * a bar as long as they reach. Labels stand over their places, as is common practice.
 */
export function scaleBars(linework: Linework, texts: readonly TextRun[]): readonly ScaleBar[] {
  const labels = texts.flatMap(labelsIn).slice(0, MOST_LABELS);
  const bars: ScaleBar[] = [];
  for (const zero of labels) {
    if (zero.value !== 0) continue;
    const [c, s] = [Math.cos(zero.run.angle), Math.sin(zero.run.angle)];
    const inLine = labels
      .map((label) => {
        const [dx, dy] = [label.at[0] - zero.at[0], label.at[1] - zero.at[1]];
        return { label, along: dx * c + dy * s, off: Math.abs(dy * c - dx * s) };
      })
      .filter(
        ({ label, along, off }) =>
          along > 0 &&
          off <= 0.3 * zero.run.height &&
          label.value > 0 &&
          Math.cos(label.run.angle - zero.run.angle) > 0.9999,
      )
      .sort((a, b) => a.along - b.along)
      .slice(0, MOST_IN_LINE);
    const bar = barOf(linework, zero, inLine, [c, s]);
    if (bar) bars.push(bar);
  }
  return bars;
}

function barOf(
  linework: Linework,
  zero: Label,
  inLine: readonly { readonly label: Label; readonly along: number }[],
  [c, s]: Point2,
): ScaleBar | undefined {
  for (let last = inLine.length - 1; last >= LEAST_LABELS - 2; last--) {
    const end = inLine[last]!;
    const unit = unitOf([zero, ...inLine.slice(0, last + 1).map(({ label }) => label)]);
    if (unit === undefined) continue;
    const each = end.along / end.label.value;
    const between = inLine.slice(0, last + 1);
    const rises = between.every(({ label }, i) => i === 0 || label.value > between[i - 1]!.label.value);
    if (!rises || between.some(({ label, along }) => Math.abs(label.value * each - along) > STRAIGHT * end.along))
      continue;
    const ends = drawnBar(linework, zero, end.along, [c, s]);
    if (!ends) continue;
    return {
      labels: [zero.text, ...between.map(({ label }) => label.text)],
      ends,
      ratio: (end.label.value * unit * 72) / (distance2(...ends) * linework.userUnit),
    };
  }
  return undefined;
}

/** Inches in one of the labels' unit, by the labels that name it; undefined where none does or they differ. */
function unitOf(labels: readonly Label[]): number | undefined {
  const units = new Set(labels.flatMap(({ text }) => LABEL.exec(text)?.[2]?.toLowerCase().replace(".", "") ?? []));
  const inches = new Set(
    [...units].map((unit) => {
      const one = parseLength(`1 ${unit.replace(/met(re|er)s/, "m").replace("feet", "ft")}`);
      return one.ok ? toInches(one.value) : undefined;
    }),
  );
  return inches.size === 1 ? [...inches][0] : undefined;
}

/** Labels of a line of text; one that holds several is parted by its spaces. */
function labelsIn(run: TextRun): Label[] {
  if (run.text.length > 80 || !/^\d/.test(run.text)) return [];
  const each = run.width / run.text.length;
  const [c, s] = [Math.cos(run.angle), Math.sin(run.angle)];
  const parts = [...run.text.matchAll(/\d+(?:\.\d+)?\s?(?:'|’|′|[a-z]+\.?)?/gi)];
  if (
    parts
      .map(([part]) => part)
      .join("")
      .replace(/\s/g, "") !== run.text.replace(/\s/g, "")
  )
    return [];
  return parts.flatMap((part) => {
    const text = part[0].trim();
    const match = LABEL.exec(text);
    if (!match) return [];
    const along = (part.index + text.length / 2) * each;
    return [
      {
        text,
        value: Number(match[1]),
        at: [run.at[0] + c * along, run.at[1] + s * along] as Point2,
        run,
      },
    ];
  });
}

/** The ends of what is drawn along the labels: the stretch of lines beside them that reaches from the first to the last. */
function drawnBar(
  linework: Linework,
  zero: Label,
  long: number,
  [c, s]: Point2,
): readonly [Point2, Point2] | undefined {
  const { height } = zero.run;
  const slack = Math.max(0.8 * height, 0.03 * long);
  const [from, to] = [-slack, long + slack];
  const corners = [
    [from, -3 * height],
    [to, -3 * height],
    [from, 3 * height],
    [to, 3 * height],
  ].map(([u, v]) => [zero.at[0] + c * u! - s * v!, zero.at[1] + s * u! + c * v!] as const);
  const xs = corners.map(([x]) => x);
  const ys = corners.map(([, y]) => y);
  const stations: { start: number; end: number; off: number }[] = [];
  for (const segment of within(linework, [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)], 3_000)) {
    const [x0, y0, x1, y1] = linework.coords.subarray(4 * segment, 4 * segment + 4) as unknown as [
      number,
      number,
      number,
      number,
    ];
    const a = (x0 - zero.at[0]) * c + (y0 - zero.at[1]) * s;
    const b = (x1 - zero.at[0]) * c + (y1 - zero.at[1]) * s;
    const [offA, offB] = [(y0 - zero.at[1]) * c - (x0 - zero.at[0]) * s, (y1 - zero.at[1]) * c - (x1 - zero.at[0]) * s];
    // Along the labels, and inside the space beside them.
    if (Math.abs(offA - offB) > 0.01 * Math.abs(a - b) || Math.abs(offA) > 3 * height) continue;
    if (Math.min(a, b) < from || Math.max(a, b) > to) continue;
    stations.push({ start: Math.min(a, b), end: Math.max(a, b), off: offA });
  }
  if (stations.length === 0) return undefined;
  const start = Math.min(...stations.map((each) => each.start));
  const end = Math.max(...stations.map((each) => each.end));
  if (Math.abs(start) > slack || Math.abs(end - long) > slack) return undefined;
  const { off } = stations.find((each) => each.end === end)!;
  const place = (u: number): Point2 => [zero.at[0] + c * u - s * off, zero.at[1] + s * u + c * off];
  return [place(start), place(end)];
}
