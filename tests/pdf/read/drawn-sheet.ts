import type { Point2 } from "../../../src/geometry/point.ts";
import { seeded } from "../../geometry/random-scenes.ts";
import { drawRun, randomRun, withBends } from "./drawn-runs.ts";
import { blankSheet, type Pen, type SheetFrame, toSheet } from "./sheet-drawing.ts";

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

/** A random sheet: a grid with its decoys, hatching, and wiring runs drawn in several ways. */
export async function drawnSheet(seed: number, frame: SheetFrame): Promise<DrawnSheet> {
  const random = seeded(seed);
  const between = (low: number, high: number): number => low + (high - low) * random();
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const oneOf = <T>(list: readonly T[]): T => list[whole(0, list.length - 1)]!;

  const { doc, draw } = await blankSheet(frame);
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
