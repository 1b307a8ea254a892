import { degrees, PDFDocument, type PDFFont, PDFName, PDFNumber, type PDFPage, rgb } from "@cantoo/pdf-lib";
import type { Point2 } from "../../../src/geometry/point.ts";
import { seeded } from "../../geometry/random-scenes.ts";

/** How the page of a drawn sheet lies: the page's own frame. */
export interface SheetFrame {
  readonly rotate: 0 | 90 | 180 | 270;
  /** Lower left corner of the crop box in sheet space; the media box is larger all round. */
  readonly corner: readonly [number, number];
  readonly userUnit: number;
}

/** A sheet drawn by another library, with what is on it. All places in sheet space. */
export interface DrawnSheet {
  readonly bytes: Uint8Array;
  readonly axes: readonly {
    readonly label: string;
    readonly bubbles: readonly Point2[];
    readonly crossings: readonly Point2[];
  }[];
  readonly runs: readonly { readonly vertices: readonly Point2[]; readonly pointed: Point2; readonly how: string }[];
}

/** Size of every drawn sheet as displayed, in user units. */
export const DRAWN_WIDTH = 1000;
export const DRAWN_HEIGHT = 720;

/** ISO 32000-2, table 31: Rotate turns the page clockwise when it is displayed. A place as displayed (y up) in sheet space. */
export const toSheet = ({ rotate, corner: [left, bottom] }: SheetFrame, [x, y]: Point2): Point2 => {
  if (rotate === 90) return [left + (DRAWN_HEIGHT - y), bottom + x];
  if (rotate === 180) return [left + (DRAWN_WIDTH - x), bottom + (DRAWN_HEIGHT - y)];
  if (rotate === 270) return [left + y, bottom + (DRAWN_WIDTH - x)];
  return [left + x, bottom + y];
};

interface Pen {
  readonly width: number;
  readonly grey: number;
  readonly dash?: number[];
  /** Dashes and gaps drawn as lines of their own. */
  readonly pieces?: number[];
}

/** Draws in the frame a person sees: x to the right, y up. */
class Drawing {
  constructor(
    readonly page: PDFPage,
    readonly font: PDFFont,
    readonly frame: SheetFrame,
  ) {}
  at(p: Point2): { x: number; y: number } {
    const [x, y] = toSheet(this.frame, p);
    return { x, y };
  }
  line(a: Point2, b: Point2, pen: Pen): void {
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const place = (along: number): Point2 => [
      a[0] + ((b[0] - a[0]) * along) / length,
      a[1] + ((b[1] - a[1]) * along) / length,
    ];
    const common = { thickness: pen.width, color: rgb(pen.grey, pen.grey, pen.grey) };
    if (!pen.pieces) {
      this.page.drawLine({
        start: this.at(a),
        end: this.at(b),
        ...common,
        ...(pen.dash ? { dashArray: pen.dash } : {}),
      });
      return;
    }
    for (let along = 0, i = 0; along < length; i++) {
      const next = Math.min(length, along + pen.pieces[i % pen.pieces.length]!);
      if (i % 2 === 0) this.page.drawLine({ start: this.at(place(along)), end: this.at(place(next)), ...common });
      // Whatever the pattern, a line ends with ink.
      else if (next === length)
        this.page.drawLine({ start: this.at(place(Math.max(along, length - 1))), end: this.at(b), ...common });
      along = next;
    }
  }
  circle(centre: Point2, radius: number, pen: Pen): void {
    this.page.drawCircle({
      ...this.at(centre),
      size: radius,
      borderWidth: pen.width,
      borderColor: rgb(pen.grey, pen.grey, pen.grey),
    });
  }
  /** A circle as a drawing program explodes it: short lines. */
  facets(centre: Point2, radius: number, count: number, pen: Pen): void {
    const corner = (i: number): Point2 => [
      centre[0] + radius * Math.cos((2 * Math.PI * i) / count),
      centre[1] + radius * Math.sin((2 * Math.PI * i) / count),
    ];
    for (let i = 0; i < count; i++) this.line(corner(i), corner((i + 1) % count), pen);
  }
  text(text: string, at: Point2, size: number, centred = false): void {
    const width = this.font.widthOfTextAtSize(text, size);
    const from: Point2 = centred ? [at[0] - width / 2, at[1] - 0.35 * size] : at;
    this.page.drawText(text, { ...this.at(from), size, font: this.font, rotate: degrees(this.frame.rotate) });
  }
}

/** A random sheet: a grid with its decoys, hatching, and wiring runs drawn in several ways. */
export async function drawnSheet(seed: number, frame: SheetFrame): Promise<DrawnSheet> {
  const random = seeded(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const oneOf = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)]!;

  const doc = await PDFDocument.create();
  const font = await doc.embedFont("Helvetica");
  const [width, height] = frame.rotate % 180 === 0 ? [DRAWN_WIDTH, DRAWN_HEIGHT] : [DRAWN_HEIGHT, DRAWN_WIDTH];
  const page = doc.addPage([width, height]);
  const [left, bottom] = frame.corner;
  page.setMediaBox(left - 30, bottom - 20, width + 70, height + 50);
  page.setCropBox(left, bottom, width, height);
  if (frame.rotate) page.setRotation(degrees(frame.rotate));
  if (frame.userUnit !== 1) page.node.set(PDFName.of("UserUnit"), PDFNumber.of(frame.userUnit));
  const draw = new Drawing(page, font, frame);
  const unit = 1 / frame.userUnit;

  const thin: Pen = { width: 0.4, grey: 0 };
  const gridPen: Pen = {
    width: 0.3,
    grey: 0,
    ...oneOf([{}, { dash: [12, 3, 3, 3] }, { pieces: [18, 4.5, 4.5, 4.5] }]),
  };
  const radius = between(7, 12);
  const places = (count: number, from: number, to: number): number[] => {
    const steps = Array.from({ length: count }, () => between(1, 2));
    const all = steps.reduce((sum, step) => sum + step, 0);
    let at = from;
    return steps.map((step) => {
      const place = at;
      at += (step / all) * (to - from);
      return place;
    });
  };
  const columns = places(whole(3, 9), 130, 720);
  const rows = places(whole(2, 6), 180, 560);
  const bothEnds = random() < 0.3;
  const [low, high, west, east] = [130, 600, 80, 760];
  const columnAxes = columns.map((x, i) => ({
    label: i > 0 && random() < 0.15 ? `${i}.5` : `${i + 1}`,
    ends: [
      [x, low],
      [x, high],
    ] as [Point2, Point2],
  }));
  const rowAxes = rows.map((y, i) => {
    const letter = String.fromCharCode(65 + i);
    return {
      label: i > 0 && random() < 0.15 ? `${String.fromCharCode(64 + i)}.1` : letter,
      ends: [
        [west, y],
        [east, y],
      ] as [Point2, Point2],
    };
  });
  const bubble = (end: Point2, away: Point2, label: string): Point2 => {
    const length = Math.hypot(away[0], away[1]);
    const centre: Point2 = [end[0] + (away[0] / length) * radius, end[1] + (away[1] / length) * radius];
    if (gridPen.pieces) draw.facets(centre, radius, 24, thin);
    else draw.circle(centre, radius, thin);
    draw.text(label, centre, label.length > 2 ? 0.7 * radius : radius, true);
    return centre;
  };
  const axes = [...columnAxes, ...rowAxes].map(({ label, ends: [a, b] }) => {
    draw.line(a, b, gridPen);
    const bubbles = [bubble(a, [a[0] - b[0], a[1] - b[1]], label)];
    if (bothEnds) bubbles.push(bubble(b, [b[0] - a[0], b[1] - a[1]], label));
    const others = a[0] === b[0] ? rows.map((y): Point2 => [a[0], y]) : columns.map((x): Point2 => [x, a[1]]);
    return {
      label,
      bubbles: bubbles.map((p) => toSheet(frame, p)),
      crossings: others.map((p) => toSheet(frame, p)),
    };
  });

  // Round columns at crossings, the title of the view, section marks, numbered circles with leaders.
  for (const x of columns) draw.circle([x, rows[0]!], between(2.6, 5), thin);
  draw.circle([70, 50], radius, thin);
  draw.text(`${whole(1, 9)}`, [70, 50], radius, true);
  draw.line([70 + radius, 50], [330, 50], thin);
  draw.text("ROOF FRAMING PLAN", [75 + radius, 52.5], 9);
  draw.text(`1/8" = 1'-0"`, [75 + radius, 41], 7);
  for (let i = 0; i < 3; i++) {
    const y = between(200, 550);
    draw.circle([790, y], radius, thin);
    draw.line([790 - radius, y], [790 + radius, y], thin);
    draw.text(`${i + 1}`, [790, y + radius / 2], 0.7 * radius, true);
    draw.text("A-301", [790, y - radius / 2], 0.5 * radius, true);
    draw.line([790 - radius, y], [60, y], thin);
  }
  for (let i = 0; i < 6; i++) {
    const centre: Point2 = [between(830, 960), between(150, 650)];
    const turn = between(0, 2 * Math.PI);
    const reach = radius * between(3, 7);
    const to = (r: number): Point2 => [centre[0] + r * Math.cos(turn), centre[1] + r * Math.sin(turn)];
    draw.circle(centre, radius, thin);
    draw.text(`${whole(1, 20)}`, centre, radius, true);
    draw.line(to(radius), to(radius + reach), thin);
  }
  // Hatching, and a schedule.
  const hatchPen: Pen = { width: 0.2, grey: 0.5 };
  const pitch = between(2, 5) * unit;
  for (let x = 0; x < 60; x += pitch) draw.line([850 + x, 60], [850 + x, 110], hatchPen);
  for (let i = 0; i < 8; i++) draw.line([560, 30 + 12 * i], [740, 30 + 12 * i], thin);

  const runPen = { width: 0.9, grey: 0.2 };
  const runs = Array.from({ length: 6 }, (_, i) => {
    const how = oneOf(["one path", "pieces", "dashes", "breaks", "bends"]);
    const vertices = randomRun(random, i);
    const drawn = how === "bends" ? withBends(vertices, 9) : vertices;
    drawRun(draw, drawn, how, runPen, 7 * unit);
    const middle = whole(0, vertices.length - 2);
    const [p, q] = [vertices[middle]!, vertices[middle + 1]!];
    const pointed: Point2 = [p[0] + (q[0] - p[0]) * 0.37, p[1] + (q[1] - p[1]) * 0.37];
    return { vertices: drawn.map((each) => toSheet(frame, each)), pointed: toSheet(frame, pointed), how };
  });
  return { bytes: await doc.save(), axes, runs };
}

/** Runs of one style, each between its own levels, so that they cross where they go up but never lie in one line. */
function randomRun(random: () => number, lane: number): Point2[] {
  const between = (low: number, high: number): number => low + (high - low) * random();
  const vertices: Point2[] = [[150 + 11.3 * lane, 190 + 61 * lane + between(0, 18)]];
  const legs = 2 + Math.floor(random() * 4);
  for (let i = 0; i < legs; i++) {
    const [x, y] = vertices.at(-1)!;
    if (i % 2 === 0) vertices.push([x + between(60, 110), y]);
    else {
      const rise = between(21, 30) * (random() < 0.5 ? -1 : 1);
      vertices.push(random() < 0.4 ? [x + Math.abs(rise), y + rise] : [x, y + rise]);
    }
  }
  return vertices;
}

/** The run with each corner rounded, as points along the true arcs. */
function withBends(vertices: readonly Point2[], radius: number): Point2[] {
  const done: Point2[] = [vertices[0]!];
  for (let i = 1; i + 1 < vertices.length; i++) {
    const [a, b, c] = [vertices[i - 1]!, vertices[i]!, vertices[i + 1]!];
    const unit = (p: Point2, q: Point2): Point2 => {
      const length = Math.hypot(q[0] - p[0], q[1] - p[1]);
      return [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
    };
    const [u, v] = [unit(b, a), unit(b, c)];
    const half = Math.acos(Math.max(-1, Math.min(1, u[0] * v[0] + u[1] * v[1]))) / 2;
    const tangent = radius / Math.tan(half);
    const [from, to]: [Point2, Point2] = [
      [b[0] + u[0] * tangent, b[1] + u[1] * tangent],
      [b[0] + v[0] * tangent, b[1] + v[1] * tangent],
    ];
    const far = radius / Math.sin(half);
    const bisector = unit([0, 0], [u[0] + v[0], u[1] + v[1]]);
    const centre: Point2 = [b[0] + bisector[0] * far, b[1] + bisector[1] * far];
    const [start, end] = [from, to].map((p) => Math.atan2(p[1] - centre[1], p[0] - centre[0]));
    const turn = Math.atan2(Math.sin(end! - start!), Math.cos(end! - start!));
    for (let k = 0; k <= 8; k++) {
      const angle = start! + (turn * k) / 8;
      done.push([centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)]);
    }
  }
  done.push(vertices.at(-1)!);
  return done;
}

function drawRun(draw: Drawing, vertices: readonly Point2[], how: string, pen: Pen, gap: number): void {
  const pieces: Pen = how === "dashes" ? { ...pen, pieces: [9, 3.5] } : pen;
  const legs = vertices.slice(1).map((to, i) => [vertices[i]!, to] as const);
  if (how === "one path") {
    const path = vertices
      .map((p, i) => {
        const { x, y } = draw.at(p);
        // An SVG path has y down.
        return `${i === 0 ? "M" : "L"} ${x} ${-y}`;
      })
      .join(" ");
    draw.page.drawSvgPath(path, { x: 0, y: 0, borderWidth: pen.width, borderColor: rgb(pen.grey, pen.grey, pen.grey) });
    return;
  }
  // Drawn in no particular order, as plotting programs do.
  for (const [a, b] of [...legs].reverse()) {
    if (how !== "breaks") {
      draw.line(a, b, pieces);
      continue;
    }
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const place = (along: number): Point2 => [
      a[0] + ((b[0] - a[0]) * along) / length,
      a[1] + ((b[1] - a[1]) * along) / length,
    ];
    if (length < 40) draw.line(a, b, pen);
    else {
      draw.line(a, place(0.55 * length), pen);
      draw.line(place(0.55 * length + gap), b, pen);
    }
  }
}
