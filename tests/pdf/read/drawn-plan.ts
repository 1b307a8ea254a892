import { PDFName, PDFString } from "@cantoo/pdf-lib";
import type { Point2 } from "../../../src/geometry/point.ts";
import { seeded } from "../../geometry/random-scenes.ts";
import { drawRun, randomRun, withBends } from "./drawn-runs.ts";
import { RandomWords, type WrittenRun, type WrittenScale, type WrittenSlope, type WrittenTag } from "./random-words.ts";
import { blankSheet, type Drawing, type Pen, type SheetFrame, toSheet } from "./sheet-drawing.ts";

/** A run as drawn: its corners, a place to point at, and how it was drawn. Sheet space. */
export interface DrawnRun {
  readonly vertices: readonly Point2[];
  readonly pointed: Point2;
  readonly how: string;
}

/** A text of a drawn plan: where it starts, and the number of the run it speaks of (null for none). Sheet space. */
interface Placed {
  readonly at: Point2;
  readonly ofRun: number | null;
}

/** A plan drawn by another library with all that is read of one, and what is on it. All places in sheet space. */
export interface DrawnPlan {
  readonly bytes: Uint8Array;
  readonly axes: readonly { readonly label: string; readonly bubbles: readonly Point2[] }[];
  readonly runs: readonly DrawnRun[];
  readonly tags: readonly (WrittenTag & Placed)[];
  readonly runNotes: readonly (WrittenRun & Placed)[];
  readonly slopes: readonly (WrittenSlope & { readonly tail: Point2; readonly tip: Point2 })[];
  /** Scale notes with the title of their view; null for that of the title block. */
  readonly notes: readonly (WrittenScale & { readonly at: Point2; readonly title: string | null })[];
  readonly dimensions: readonly { readonly text: string; readonly ends: readonly [Point2, Point2] }[];
  readonly viewport: { readonly box: readonly [number, number, number, number]; readonly ratio: number };
  readonly number: string;
  readonly name: string;
}

const THIN: Pen = { width: 0.3, grey: 0 };
const RUN: Pen = { width: 0.9, grey: 0.2 };
const TEXT = 5;
/** Where grid lines end: south, north, west, east as displayed. */
const [SOUTH, NORTH, WEST, EAST] = [130, 600, 80, 760];

/** A random plan of the seed on a page that lies as the frame says. */
export async function drawnPlan(seed: number, frame: SheetFrame): Promise<DrawnPlan> {
  const random = seeded(seed);
  const words = new RandomWords(random);
  const { doc, draw } = await blankSheet(frame);
  draw.byGlyph = random() < 0.2;
  const sheet = (p: Point2): Point2 => toSheet(frame, p);

  const radius = words.between(7, 12);
  const axes = drawGrid(draw, words, radius);
  const runs = Array.from({ length: 6 }, (_, lane) => oneRun(draw, words, random, lane));
  const tags: (WrittenTag & Placed)[] = [];
  const runNotes: (WrittenRun & Placed)[] = [];
  // Tags with leaders stand one above the other.
  let highest = 132;
  for (const [i, { drawn, how }] of runs.entries()) {
    const [a, b] = [drawn[0]!, drawn.at(-1)!];
    const note = { ...words.run(), at: [a[0] + 4, a[1] + 2.2] as Point2, ofRun: i };
    draw.text(note.text, note.at, TEXT);
    runNotes.push({ ...note, at: sheet(note.at) });
    const led = how === "tee" || random() < 0.4;
    const tag = {
      ...words.tag(),
      at: (led ? [640, Math.max(highest + 8, b[1] + words.between(6, 12))] : [a[0] + 4, a[1] - 6]) as Point2,
      ofRun: i,
    };
    draw.text(tag.text, tag.at, TEXT);
    if (led) highest = tag.at[1];
    if (led) drawLeader(draw, tag.at, alongLast(drawn, 0.8));
    tags.push({ ...tag, at: sheet(tag.at) });
  }

  const slopes = [0, 1, 2].map((i) => {
    const slope = words.slope();
    const at: Point2 = [250 + 150 * i, 150];
    draw.text(slope.text, at, TEXT);
    const [tail, tip]: Point2[] = random() < 0.5 ? [at, [at[0] + 34, 150]] : [[at[0] + 34, 150], at];
    const [from, to]: [Point2, Point2] = [
      [tail![0], 147],
      [tip![0], 147],
    ];
    draw.line(from, to, THIN);
    drawHead(draw, to, [Math.sign(to[0] - from[0]), 0]);
    return { ...slope, tail: sheet(from), tip: sheet(to) };
  });

  // What stands beside the plan: elevations of their own, a level mark, and words that are none of all these.
  const slots = Array.from({ length: 60 }, (_, i): Point2 => [i % 2 === 0 ? 800 : 895, 165 + 14 * (i >> 1)]);
  const slot = (): Point2 => slots.splice(words.whole(0, slots.length - 1), 1)[0]!;
  for (let i = 0; i < 3; i++) {
    const tag = { ...words.tag(), at: slot(), ofRun: null };
    draw.text(tag.text, tag.at, TEXT);
    tags.push({ ...tag, at: sheet(tag.at) });
  }
  for (let i = 0; i < 16; i++) draw.text(words.decoy(), slot(), 4.5);
  const level: Point2 = [820, 640];
  draw.text("LEVEL 2", [820, 648], TEXT);
  draw.text(`14'-0"`, level, TEXT);
  tags.push({
    text: `LEVEL 2 14'-0"`,
    inches: 168,
    basis: null,
    surface: null,
    from: null,
    existing: false,
    approximate: false,
    at: sheet(level),
    ofRun: null,
  });

  const dimensions = drawDimensions(draw, words);
  const { notes, number, name } = drawTitles(draw, words, radius);
  drawNoise(draw, words, radius);
  const ratio = 48;
  const [p, q] = [sheet([60, 120]), sheet([790, 640])];
  const box = [Math.min(p[0], q[0]), Math.min(p[1], q[1]), Math.max(p[0], q[0]), Math.max(p[1], q[1])] as const;
  draw.page.node.set(
    PDFName.of("VP"),
    doc.context.obj([
      {
        Type: "Viewport",
        BBox: [...box],
        Measure: {
          Type: "Measure",
          Subtype: "RL",
          X: [{ U: PDFString.of("in"), C: (ratio * frame.userUnit) / 72 }],
        },
      },
    ]),
  );
  return {
    bytes: await doc.save(),
    axes: axes.map(({ label, bubbles }) => ({ label, bubbles: bubbles.map(sheet) })),
    runs: runs.map(({ drawn, pointed, how }) => ({ vertices: drawn.map(sheet), pointed: sheet(pointed), how })),
    tags,
    runNotes,
    slopes,
    notes: notes.map((note) => ({ ...note, at: sheet(note.at) })),
    dimensions: dimensions.map(({ text, ends: [a, b] }) => ({ text, ends: [sheet(a), sheet(b)] })),
    viewport: { box, ratio },
    number,
    name,
  };
}

function drawGrid(draw: Drawing, words: RandomWords, radius: number) {
  const pen: Pen = { ...THIN, ...words.oneOf([{}, { dash: [12, 3, 3, 3] }, { pieces: [18, 4.5, 4.5, 4.5] }]) };
  const both = words.between(0, 1) < 0.3;
  const places = (count: number, from: number, to: number): number[] => {
    const steps = Array.from({ length: count }, () => words.between(1, 2));
    const all = steps.reduce((sum, step) => sum + step, 0);
    let at = from;
    return steps.map((step) => {
      const place = at;
      at += (step / all) * (to - from);
      return place;
    });
  };
  const between = (i: number, plain: string, before: string): string =>
    i > 0 && words.between(0, 1) < 0.2 ? `${before}.${words.whole(1, 9)}` : plain;
  const letter = (i: number): string => String.fromCharCode(65 + i);
  const lines = [
    ...places(words.whole(3, 9), 130, 720).map((x, i) => ({
      label: between(i, `${i + 1}`, `${i}`),
      ends: [
        [x, SOUTH],
        [x, NORTH],
      ] as const,
    })),
    ...places(words.whole(2, 6), 180, 560).map((y, i) => ({
      label: between(i, letter(i), letter(i - 1)),
      ends: [
        [WEST, y],
        [EAST, y],
      ] as const,
    })),
  ];
  return lines.map(({ label, ends: [a, b] }) => {
    draw.line(a, b, pen);
    const bubble = (end: Point2, other: Point2): Point2 => {
      const long = Math.hypot(end[0] - other[0], end[1] - other[1]);
      const centre: Point2 = [
        end[0] + ((end[0] - other[0]) / long) * radius,
        end[1] + ((end[1] - other[1]) / long) * radius,
      ];
      if (pen.pieces) draw.facets(centre, radius, 24, THIN);
      else draw.circle(centre, radius, THIN);
      draw.text(label, centre, label.length > 2 ? 0.7 * radius : radius, true);
      return centre;
    };
    return { label, bubbles: both ? [bubble(a, b), bubble(b, a)] : [bubble(a, b)] };
  });
}

function oneRun(draw: Drawing, words: RandomWords, random: () => number, lane: number) {
  const how = words.oneOf(["one path", "pieces", "dashes", "breaks", "bends", "tee"]);
  const vertices = randomRun(random, lane);
  const drawn = how === "bends" ? withBends(vertices, 9) : vertices;
  drawRun(draw, drawn, how === "tee" ? "pieces" : how, RUN, 7 / draw.frame.userUnit);
  const along = (i: number, part: number): Point2 => {
    const [p, q] = [vertices[i]!, vertices[i + 1]!];
    return [p[0] + (q[0] - p[0]) * part, p[1] + (q[1] - p[1]) * part];
  };
  const branch = along(0, 0.6);
  if (how === "tee") draw.line(branch, [branch[0], branch[1] - 14], RUN);
  return { drawn, how, pointed: along(words.whole(0, vertices.length - 2), 0.37) };
}

/** A place on the last leg. */
function alongLast(vertices: readonly Point2[], part: number): Point2 {
  const [p, q] = [vertices.at(-2)!, vertices.at(-1)!];
  return [p[0] + (q[0] - p[0]) * part, p[1] + (q[1] - p[1]) * part];
}

function drawLeader(draw: Drawing, [x, y]: Point2, tip: Point2): void {
  const [start, knee]: [Point2, Point2] = [
    [x - 2, y + 1.75],
    [x - 10, y + 1.75],
  ];
  draw.line(start, knee, THIN);
  draw.line(knee, tip, THIN);
  const long = Math.hypot(tip[0] - knee[0], tip[1] - knee[1]);
  drawHead(draw, tip, [(tip[0] - knee[0]) / long, (tip[1] - knee[1]) / long]);
}

/** The open arrowhead of a line that arrives in a direction. */
function drawHead(draw: Drawing, [x, y]: Point2, [ux, uy]: Point2): void {
  for (const side of [-1.5, 1.5]) draw.line([x, y], [x - 5 * ux - side * uy, y - 5 * uy + side * ux], THIN);
}

function drawDimensions(draw: Drawing, words: RandomWords) {
  const stations = [140];
  for (let i = 0; i < 3; i++) stations.push(stations.at(-1)! + words.between(90, 180));
  const tick = (s: number) => draw.line([s - 2.5, 643.5], [s + 2.5, 648.5], { width: 0.8, grey: 0 });
  draw.line([stations[0]!, 646], [stations.at(-1)!, 646], THIN);
  for (const s of stations) tick(s);
  return stations.slice(1).map((to, i) => {
    const from = stations[i]!;
    const text = `${words.whole(10, 40)}'-${words.whole(0, 11)}"`;
    draw.text(text, [(from + to) / 2 - draw.font.widthOfTextAtSize(text, 6) / 2, 648.5], 6);
    return { text, ends: [[from, 646] as Point2, [to, 646] as Point2] as const };
  });
}

function drawTitles(draw: Drawing, words: RandomWords, radius: number) {
  const notes: (WrittenScale & { at: Point2; title: string | null })[] = [];
  const titles = words.between(0, 1) < 0.4 ? ["ROOF FRAMING PLAN", "DETAIL AT CURB"] : ["CEILING PLAN"];
  for (const [i, title] of titles.entries()) {
    const [x, y]: Point2 = [70 + 380 * i, 50];
    const bubble = Math.min(radius, 9);
    draw.circle([x, y], bubble, THIN);
    draw.text(`${i + 1}`, [x, y], bubble, true);
    draw.line([x + bubble, y], [x + 230, y], THIN);
    draw.text(title, [x + bubble + 5, y + 2.5], 9);
    const note = { ...words.scale(), at: [x + bubble + 5, y - 9] as Point2, title };
    draw.text(note.text, note.at, 7);
    notes.push(note);
  }
  const number = `E-${words.whole(100, 499)}`;
  const name = words.oneOf(["LIGHTING PLAN", "POWER PLAN", "ROOF PLAN"]);
  draw.text("SHEET TITLE", [880, 120], 4.5);
  draw.text(name, [880, 105], 9);
  draw.text("DATE", [880, 88], 4.5);
  draw.text(`${words.whole(1, 12)}/${words.whole(1, 28)}/2024`, [900, 88], 4.5);
  draw.text("SCALE", [880, 76], 4.5);
  const own = { ...words.scale(), at: [905, 76] as Point2, title: null };
  draw.text(own.text, own.at, 4.5);
  notes.push(own);
  draw.text(number, [880, 45], 18);
  return { notes, number, name };
}

/** A border, hatching, stray lines, numbered circles with leaders. */
function drawNoise(draw: Drawing, words: RandomWords, radius: number): void {
  const corners: Point2[] = [
    [12, 12],
    [988, 12],
    [988, 708],
    [12, 708],
  ];
  for (const [i, corner] of corners.entries()) draw.line(corner, corners[(i + 1) % 4]!, { width: 1, grey: 0 });
  const pitch = words.between(2, 5);
  for (let x = 0; x < 60; x += pitch) draw.line([700 + x, 25], [700 + x, 60], { width: 0.2, grey: 0.5 });
  for (let i = 0; i < 10; i++) {
    const [x, y]: Point2 = [words.between(100, 780), words.between(70, 105)];
    draw.line([x, y], [x + words.between(-15, 15), y + words.between(-8, 8)], THIN);
  }
  for (let i = 0; i < 3; i++) {
    const centre: Point2 = [650 + 90 * i, 680];
    draw.circle(centre, radius, THIN);
    draw.text(`${words.whole(1, 20)}`, centre, radius, true);
    draw.line([centre[0], centre[1] - radius], [centre[0] - 12, centre[1] - radius - 14], THIN);
  }
}
