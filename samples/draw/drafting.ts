import type { Paper, Pen } from "./pen.ts";
import { EAST, GRID_X, GRID_Y, NORTH, type PlanPlace, place } from "./workshop.ts";

/** Things that any sheet of a set has: grid, dimensions, tags, north arrow, title strip. All in points, on the sheet as read. */

export interface SheetTitle {
  readonly number: string;
  readonly name: string;
  readonly scale: string;
}

/** Border and title strip. Returns the left edge of the strip. */
export function titleStrip(pen: Pen, width: number, height: number, title: SheetTitle): number {
  const [left, margin, strip] = [54, 30, 190];
  const x = width - margin - strip;
  pen.rect([left, margin], width - left - margin, height - 2 * margin, { width: "border" });
  pen.line([x, margin], [x, height - margin], { width: "heavy" });
  const rule = (y: number): void => pen.line([x, y], [width - margin, y], { width: "thin" });
  const mid = x + strip / 2;
  const put = (text: string, y: number, size: number, bold = false): void =>
    pen.text(text, [mid, y], { size, bold, align: "middle" });
  const small = (text: string, y: number): void => pen.text(text, [x + 10, y], { size: 5.5, grey: 0.35 });

  const top = height - margin;
  rule(top - 118);
  boatMark(pen, [mid, top - 46]);
  put("RIVERSIDE WORKSHOP", top - 90, 13, true);
  put("BOAT REPAIR HALL AND STORE", top - 104, 7);
  put("TAR LANE, ELLOWMERE", top - 113, 6);
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
  pen.text(`FINISHED FLOOR, LEVEL 1 = 0'-0"`, [x + 10, base + 62], { size: 7.5 });
  rule(base + 54);
  small("SHEET", base + 45);
  put(title.number, base + 13, 30, true);
  return x;
}

/** The set's own mark: a hull on the water. */
function boatMark(pen: Pen, [x, y]: Paper): void {
  pen.path(
    [
      [x - 34, y + 4],
      [x + 34, y + 4],
      [x + 24, y - 10],
      [x - 24, y - 10],
    ],
    { width: "medium", close: true },
  );
  pen.line([x - 4, y + 4], [x - 4, y + 32], { width: "medium" });
  pen.path(
    [
      [x, y + 8],
      [x, y + 30],
      [x + 22, y + 8],
    ],
    { width: "thin", close: true },
  );
  for (const row of [0, 1]) {
    const points = Array.from(
      { length: 37 },
      (_, i): Paper => [x - 44 + i * 2.44 + row * 3, y - 17 - row * 5 + 1.6 * Math.sin(i * 0.9)],
    );
    pen.path(points, { width: "hair" });
  }
}

const BUBBLE = 13;
const CHAIN = [16, 3, 3, 3] as const;

/** Grid lines with a bubble at each end. `reach`: how far beyond the building the bubbles stand: west, east, south, north. */
export function grid(pen: Pen, plan: PlanPlace, reach: readonly [number, number, number, number]): void {
  const [west, east, south, north] = reach;
  const bubble = (at: Paper, name: string): void => {
    pen.circle(at, BUBBLE, { width: "medium", fill: 1 });
    pen.text(name, [at[0], at[1] - 4.6], { size: 13, bold: true, align: "middle" });
  };
  for (const { name, at } of GRID_X) {
    const low = place(plan, [at, 0]);
    const high = place(plan, [at, NORTH]);
    const [a, b]: Paper[] = [
      [low[0], low[1] - south],
      [high[0], high[1] + north],
    ];
    pen.line(a!, b!, { width: "hair", dash: CHAIN, grey: 0.25 });
    bubble([a![0], a![1] - BUBBLE], name);
    bubble([b![0], b![1] + BUBBLE], name);
  }
  for (const { name, at } of GRID_Y) {
    const low = place(plan, [0, at]);
    const high = place(plan, [EAST, at]);
    const [a, b]: Paper[] = [
      [low[0] - west, low[1]],
      [high[0] + east, high[1]],
    ];
    pen.line(a!, b!, { width: "hair", dash: CHAIN, grey: 0.25 });
    bubble([a![0] - BUBBLE, a![1]], name);
    bubble([b![0] + BUBBLE, b![1]], name);
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
export function bayDimensions(pen: Pen, plan: PlanPlace, north: number, west: number): void {
  const top = place(plan, [0, NORTH])[1] + north;
  const left = place(plan, [0, 0])[0] - west;
  const x = (at: number): number => place(plan, [at, 0])[0];
  const y = (at: number): number => place(plan, [0, at])[1];
  for (let i = 0; i + 1 < GRID_X.length; i++)
    dimension(pen, [x(GRID_X[i]!.at), top], [x(GRID_X[i + 1]!.at), top], `24'-0"`);
  dimension(pen, [x(0), top + 22], [x(EAST), top + 22], `96'-0"`);
  for (let i = 0; i + 1 < GRID_Y.length; i++)
    dimension(pen, [left, y(GRID_Y[i]!.at)], [left, y(GRID_Y[i + 1]!.at)], `20'-0"`);
  dimension(pen, [left - 22, y(0)], [left - 22, y(NORTH)], `60'-0"`);
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
