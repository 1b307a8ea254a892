import { rgb } from "@cantoo/pdf-lib";
import type { Point2 } from "../../../src/geometry/point.ts";
import type { Drawing, Pen } from "./sheet-drawing.ts";

/** Runs of one style, each between its own levels, so that they cross where they go up but never lie in one line. */
export function randomRun(random: () => number, lane: number): Point2[] {
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
export function withBends(vertices: readonly Point2[], radius: number): Point2[] {
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

/** Draws a run in one of several ways: one path, pieces in any order, dashes, with a break in each long leg. */
export function drawRun(draw: Drawing, vertices: readonly Point2[], how: string, pen: Pen, gap: number): void {
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
