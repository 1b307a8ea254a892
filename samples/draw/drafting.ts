import { formatLength } from "../../src/units/format-length.ts";
import { inches } from "../../src/units/quantity.ts";
import type { Paper, Pen } from "./pen.ts";
import { type Grid, type GridLine, type PlanPlace, place } from "./plan-place.ts";

/** Things that any sheet of a set has: grid, dimensions, tags, north arrow, title strip. All in points, on the sheet as read. */

export interface SheetTitle {
  readonly number: string;
  readonly name: string;
  readonly scale: string;
}

/** What the title strips of one set have in common. */
export interface Project {
  readonly name: string;
  readonly lines: readonly [string, string];
  readonly datum: string;
  /** The set's own mark, drawn around a point. */
  mark(pen: Pen, at: Paper): void;
}

/** Width of the title strip, points. */
export const TITLE_STRIP = 190;

/** Border and title strip, which stands at the right of the sheet unless told otherwise. Returns the left edge of the strip. */
export function titleStrip(
  pen: Pen,
  width: number,
  height: number,
  title: SheetTitle,
  project: Project,
  side: "left" | "right" = "right",
): number {
  const [left, margin, strip] = [54, 30, TITLE_STRIP];
  const x = side === "right" ? width - margin - strip : left;
  const inner = side === "right" ? x : x + strip;
  pen.rect([left, margin], width - left - margin, height - 2 * margin, { width: "border" });
  pen.line([inner, margin], [inner, height - margin], { width: "heavy" });
  const rule = (y: number): void => pen.line([x, y], [x + strip, y], { width: "thin" });
  const mid = x + strip / 2;
  const put = (text: string, y: number, size: number, bold = false): void =>
    pen.text(text, [mid, y], { size, bold, align: "middle" });
  const small = (text: string, y: number): void => pen.text(text, [x + 10, y], { size: 5.5, grey: 0.35 });

  const top = height - margin;
  rule(top - 118);
  project.mark(pen, [mid, top - 46]);
  put(project.name, top - 90, 13, true);
  put(project.lines[0], top - 104, 7);
  put(project.lines[1], top - 113, 6);
  rule(top - 212);
  small("NOTE", top - 128);
  pen.block(
    [
      "An invented building with invented names,",
      "drawn to try a program on.",
      "NOT FOR CONSTRUCTION.",
      "",
      "Advice from a drawing is not an inspection.",
      "Verify on site and against the adopted code.",
      "The authority having jurisdiction decides.",
    ],
    [x + 10, top - 140],
    { size: 6.6 },
  );
  const base = margin;
  rule(base + 190);
  small("SHEET TITLE", base + 180);
  pen.block(title.name.split("|"), [x + 10, base + 160], { size: 12, bold: true }, 1.3);
  rule(base + 118);
  small("SCALE", base + 108);
  pen.text(title.scale, [x + 10, base + 94], { size: 9 });
  rule(base + 84);
  small("DATUM", base + 75);
  pen.text(project.datum, [x + 10, base + 62], { size: 7.5 });
  rule(base + 54);
  small("SHEET", base + 45);
  put(title.number, base + 13, 30, true);
  return x;
}

const BUBBLE = 13;
const CHAIN = [16, 3, 3, 3] as const;

const span = (lines: readonly GridLine[]): readonly [low: number, high: number] => [lines[0]!.at, lines.at(-1)!.at];

/** Grid lines with a bubble at each end. `reach`: how far beyond the outer lines the bubbles stand: west, east, south, north. */
export function grid(pen: Pen, plan: PlanPlace, lines: Grid, reach: readonly [number, number, number, number]): void {
  const [west, east, south, north] = reach;
  const [[x0, x1], [y0, y1]] = [span(lines.x), span(lines.y)];
  const bubble = (at: Paper, name: string): void => {
    pen.circle(at, BUBBLE, { width: "medium", fill: 1 });
    pen.text(name, [at[0], at[1] - 4.6], { size: 13, bold: true, align: "middle" });
  };
  for (const { name, at } of lines.x) {
    const low = place(plan, [at, y0]);
    const high = place(plan, [at, y1]);
    const a: Paper = [low[0], low[1] - south];
    const b: Paper = [high[0], high[1] + north];
    pen.line(a, b, { width: "hair", dash: CHAIN, grey: 0.25 });
    bubble([a[0], a[1] - BUBBLE], name);
    bubble([b[0], b[1] + BUBBLE], name);
  }
  for (const { name, at } of lines.y) {
    const low = place(plan, [x0, at]);
    const high = place(plan, [x1, at]);
    const a: Paper = [low[0] - west, low[1]];
    const b: Paper = [high[0] + east, high[1]];
    pen.line(a, b, { width: "hair", dash: CHAIN, grey: 0.25 });
    bubble([a[0] - BUBBLE, a[1]], name);
    bubble([b[0] + BUBBLE, b[1]], name);
  }
}

/** A dimension line between two points on a level or upright line, with ticks and the length above it. */
export function dimension(pen: Pen, a: Paper, b: Paper, text: string): void {
  const upright = a[0] === b[0];
  const past = 5;
  pen.line(
    upright ? [a[0], Math.min(a[1], b[1]) - past] : [Math.min(a[0], b[0]) - past, a[1]],
    upright ? [a[0], Math.max(a[1], b[1]) + past] : [Math.max(a[0], b[0]) + past, a[1]],
    { width: "hair" },
  );
  for (const [x, y] of [a, b]) {
    pen.line([x - 3, y - 3], [x + 3, y + 3], { width: "medium" });
    pen.line(upright ? [x - 6, y] : [x, y - 6], upright ? [x + 6, y] : [x, y + 6], { width: "hair" });
  }
  const mid: Paper = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  pen.text(text, upright ? [mid[0] - 4, mid[1]] : [mid[0], mid[1] + 4], {
    size: 8,
    align: "middle",
    turn: upright ? 90 : 0,
    mask: true,
  });
}

/** Bay and overall dimensions along the north and west sides of a plan. */
export function bayDimensions(pen: Pen, plan: PlanPlace, lines: Grid, north: number, west: number): void {
  const [[x0, x1], [y0, y1]] = [span(lines.x), span(lines.y)];
  const top = place(plan, [x0, y1])[1] + north;
  const left = place(plan, [x0, y0])[0] - west;
  const x = (at: number): number => place(plan, [at, y0])[0];
  const y = (at: number): number => place(plan, [x0, at])[1];
  const long = (a: number, b: number): string => formatLength(inches(b - a), "imperial");
  lines.x.slice(1).forEach(({ at }, i) => {
    const from = lines.x[i]!.at;
    dimension(pen, [x(from), top], [x(at), top], long(from, at));
  });
  dimension(pen, [x(x0), top + 22], [x(x1), top + 22], long(x0, x1));
  lines.y.slice(1).forEach(({ at }, i) => {
    const from = lines.y[i]!.at;
    dimension(pen, [left, y(from)], [left, y(at)], long(from, at));
  });
  dimension(pen, [left - 22, y(y0)], [left - 22, y(y1)], long(y0, y1));
}

/** An elevation target: a quartered circle, a leader line and two lines of text. */
export function elevationTag(pen: Pen, at: Paper, what: string, value: string, side: "left" | "right" = "right"): void {
  const r = 5;
  const way = side === "right" ? 1 : -1;
  const width = Math.max(pen.widthOf(value, 8.5, true), pen.widthOf(what, 6.5)) + 4;
  const x0 = side === "right" ? at[0] + r + 2 : at[0] - r - 2 - width;
  pen.rect([x0, at[1] - 10], width, 20, { fill: 1, bare: true });
  pen.circle(at, r, { width: "thin", fill: 1 });
  for (const [from, to] of [
    [0, 90],
    [180, 270],
  ] as const) {
    const quarter = Array.from({ length: 13 }, (_, i): Paper => {
      const a = ((from + ((to - from) * i) / 12) * Math.PI) / 180;
      return [at[0] + r * Math.cos(a), at[1] + r * Math.sin(a)];
    });
    pen.path([at, ...quarter], { fill: 0, bare: true, close: true });
  }
  pen.line([at[0] + way * r, at[1]], [at[0] + way * (r + 2 + width), at[1]], { width: "thin" });
  pen.text(what, [x0 + 2, at[1] + 3], { size: 6.5 });
  pen.text(value, [x0 + 2, at[1] - 8.5], { size: 8.5, bold: true });
}

/** The name under a plan or detail: a ring with its number, its title underlined, its scale note. */
export function viewTitle(pen: Pen, [x, y]: Paper, number: string, title: string, scale: string): void {
  pen.circle([x, y], 14, { width: "medium" });
  pen.text(number, [x, y - 4.5], { size: 13, bold: true, align: "middle" });
  const width = Math.max(pen.widthOf(title, 12, true), 120);
  pen.text(title, [x + 22, y + 4], { size: 12, bold: true });
  pen.line([x + 14, y], [x + 26 + width, y], { width: "heavy" });
  pen.text(scale, [x + 22, y - 11], { size: 8.5 });
}

/** North, up the sheet. */
export function northArrow(pen: Pen, [x, y]: Paper): void {
  pen.circle([x, y], 17, { width: "thin" });
  pen.path(
    [
      [x, y + 17],
      [x - 6, y - 12],
      [x, y - 7],
    ],
    { fill: 0, close: true, width: "hair" },
  );
  pen.path(
    [
      [x, y + 17],
      [x + 6, y - 12],
      [x, y - 7],
    ],
    { close: true, width: "hair" },
  );
  pen.text("N", [x, y + 21], { size: 10, bold: true, align: "middle" });
}

/** A bar scale in feet, `unit` points a foot. */
export function barScale(pen: Pen, [x, y]: Paper, unit: number, feet: readonly number[]): void {
  feet.forEach((at, i) => {
    const next = feet[i + 1];
    pen.text(`${at}'`, [x + at * unit, y + 8], { size: 6.5, align: "middle" });
    if (next !== undefined)
      pen.rect([x + at * unit, y], (next - at) * unit, 4, { width: "hair", fill: i % 2 === 0 ? 0 : 1 });
  });
}

/** An arrow head at `tip`, coming from the direction of `from`. */
export function arrowHead(pen: Pen, tip: Paper, from: Paper, size = 7): void {
  const length = Math.hypot(tip[0] - from[0], tip[1] - from[1]);
  const [ux, uy] = [(tip[0] - from[0]) / length, (tip[1] - from[1]) / length];
  const back: Paper = [tip[0] - ux * size, tip[1] - uy * size];
  const half = size * 0.28;
  pen.path([tip, [back[0] - uy * half, back[1] + ux * half], [back[0] + uy * half, back[1] - ux * half]], {
    fill: 0,
    bare: true,
    close: true,
  });
}

/** Notes in a column, numbered, each as lines already broken. Returns the baseline below the last. */
export function numberedNotes(pen: Pen, heading: string, notes: readonly (readonly string[])[], [x, y]: Paper): number {
  pen.text(heading, [x, y], { size: 10, bold: true });
  pen.line([x, y - 4], [x + pen.widthOf(heading, 10, true), y - 4], { width: "medium" });
  let at = y - 20;
  notes.forEach((lines, i) => {
    pen.text(`${i + 1}.`, [x, at], { size: 7.5 });
    at = pen.block(lines, [x + 14, at], { size: 7.5 }) - 4;
  });
  return at;
}
