import type { Paper, Pen } from "./pen.ts";

/** Lines at 45 degrees across an upright rectangle, `gap` points apart across the sheet. */
export function hatch(pen: Pen, [x0, y0]: Paper, [x1, y1]: Paper, gap: number, grey: number): void {
  const [width, height] = [x1 - x0, y1 - y0];
  for (let d = gap; d < width + height; d += gap)
    pen.line(
      [x0 + Math.max(0, d - height), y0 + Math.min(d, height)],
      [x0 + Math.min(d, width), y0 + Math.max(0, d - width)],
      { width: "hair", grey },
    );
}

/** Upright lines every `dx` and level lines every `dy` points inside a rectangle: tiles of a ceiling. */
export function lattice(pen: Pen, [x0, y0]: Paper, [x1, y1]: Paper, dx: number, dy: number, grey: number): void {
  for (let x = x0 + dx; x < x1 - 0.1; x += dx) pen.line([x, y0], [x, y1], { width: "hair", grey });
  for (let y = y0 + dy; y < y1 - 0.1; y += dy) pen.line([x0, y], [x1, y], { width: "hair", grey });
}
