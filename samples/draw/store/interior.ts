import { hatch, lattice } from "../hatching.ts";
import type { Paper } from "../pen.ts";
import { FOOT } from "../plan-place.ts";
import { GRID, HOLES } from "./building.ts";
import type { PlanView } from "./plan-view.ts";

/** Cut walls: outer ones of 8 in., inner ones of 6; doors as gaps. */
export function walls(view: PlanView): void {
  const wall = (x0: number, y0: number, x1: number, y1: number, thick = 0.5): void => {
    const h = thick / 2;
    view.rect(Math.min(x0, x1) - h, Math.min(y0, y1) - h, Math.max(x0, x1) + h, Math.max(y0, y1) + h, {
      width: "medium",
      fill: 0.78,
    });
  };
  const outer = (x0: number, y0: number, x1: number, y1: number): void => wall(x0, y0, x1, y1, 0.67);
  outer(0, 0, 80, 0);
  outer(100, 0, 240, 0);
  outer(0, 0, 0, 160);
  outer(0, 160, 240, 160);
  outer(240, 0, 240, 98);
  for (const [y0, y1] of [
    [112, 118],
    [130, 138],
    [150, 160],
  ] as const)
    outer(240, y0, 240, y1);
  wall(0, 128, 50, 128);
  wall(58, 128, 120, 128);
  wall(120, 128, 146, 128);
  wall(152, 128, 180, 128);
  wall(120, 128, 120, 138);
  wall(120, 144, 120, 160);
  wall(180, 0, 180, 16);
  wall(180, 24, 180, 100);
  wall(180, 108, 180, 160);
  wall(180, 32, 204, 32);
  wall(210, 32, 240, 32);
  wall(180, 64, 240, 64);
  wall(180, 96, 186, 96);
  wall(192, 96, 240, 96);
  wall(210, 64, 210, 96);
  wall(210, 32, 210, 50);
  wall(210, 55, 210, 64);
  // Shop front: glass, with sliding doors.
  for (const y of [-0.2, 0.2]) view.line(80, y, 100, y, { width: "thin" });
  for (let x = 80; x <= 100; x += 5) view.line(x, -0.33, x, 0.33, { width: "medium" });
  // Doors of the docks.
  for (const [y0, y1] of [
    [98, 112],
    [118, 130],
    [138, 150],
  ] as const)
    for (const x of [239.7, 240.3]) view.line(x, y0, x, y1, { width: "thin", dash: [6, 3] });
  for (const { at: gx } of GRID.x)
    for (const { at: gy } of GRID.y) {
      const [x, y] = [gx / FOOT, gy / FOOT];
      view.mark(x, y, ([px, py]) => {
        view.pen.rect([px - 6, py - 6], 12, 12, { width: "medium", fill: 1 });
        for (const side of [-4.5, 4.5])
          view.pen.line([px - 4.5, py + side], [px + 4.5, py + side], { width: "border" });
        view.pen.line([px, py - 4.5], [px, py + 4.5], { width: "border" });
      });
    }
}

/** What stands on the floor, lightly: shelves, cases, checkouts, ovens, racking, dock levellers. */
export function fixtures(view: PlanView): void {
  const { pen } = view;
  const grey = 0.62;
  const shelf = (x0: number, y0: number, x1: number, y1: number): void => {
    view.rect(x0, y0, x1, y1, { width: "hair", grey, dash: [4, 3] });
    if (y1 - y0 > x1 - x0) view.line((x0 + x1) / 2, y0, (x0 + x1) / 2, y1, { width: "hair", grey });
    else view.line(x0, (y0 + y1) / 2, x1, (y0 + y1) / 2, { width: "hair", grey });
  };
  for (let x = 30; x <= 172; x += 8) {
    if (x > 112 && x < 124) continue;
    shelf(x, 20, x + 3.5, 58);
    shelf(x, 74, x + 3.5, 90);
    shelf(x, 102, x + 3.5, 120);
  }
  for (let y = 8; y < 58; y += 8) shelf(1, y, 5, y + 7.6);
  for (let y = 76; y < 122; y += 8) shelf(1, y, 5, y + 7.6);
  for (let i = 0; i < 9; i++) {
    const x = 31.5 + i * 9;
    view.rect(x, 4, x + 2.5, 12, { width: "thin", grey: 0.5 });
    view.rect(x + 0.4, 4.4, x + 2.1, 7, { width: "hair", grey });
  }
  for (let i = 0; i < 8; i++) {
    const x = 124 + i * 6;
    view.rect(x, 149, x + 5, 155, { width: "thin", grey: 0.5 });
    view.line(x, 150.4, x + 5, 150.4, { width: "hair", grey });
  }
  for (const y of [133, 138.5, 145, 150.5])
    for (const [x0, x1] of [
      [8, 50],
      [70, 112],
    ] as const) {
      view.rect(x0, y, x1, y + 3, { width: "hair", grey, dash: [6, 3] });
      for (let x = x0 + 6; x < x1; x += 6) view.line(x, y, x, y + 3, { width: "hair", grey });
    }
  for (const [x0, y0] of [
    [186, 8],
    [186, 20],
    [222, 8],
    [222, 20],
  ] as const)
    shelf(x0, y0, x0 + 12, y0 + 3);
  for (const y of [101, 120, 140]) {
    const part = view.part(226, y, 239, y + 8);
    if (!part) continue;
    view.rect(226, y, 239, y + 8, { width: "thin", grey: 0.5 });
    hatch(pen, view.at(part[0], part[1]), view.at(part[2], part[3]), 9, 0.75);
  }
}

/** Ceilings: tiles in the pharmacy, the offices and the training room; skylights and bakery shaft elsewhere. */
export function ceilings(view: PlanView): void {
  const { pen } = view;
  const tiles = (x0: number, y0: number, x1: number, y1: number, dx: number, dy: number): void => {
    const part = view.part(x0, y0, x1, y1);
    if (!part) return;
    lattice(pen, view.at(part[0], part[1]), view.at(part[2], part[3]), dx * view.foot, dy * view.foot, 0.72);
  };
  tiles(180.5, 0.5, 239.5, 31.5, 4, 2);
  tiles(180.5, 32.5, 209.5, 63.5, 2, 2);
  tiles(210.5, 32.5, 239.5, 63.5, 2, 2);
  view.rect(75, -14, 105, 0, { width: "medium" });
  for (let y = -13; y < 0; y += 1) view.line(75, y, 105, y, { width: "hair", grey: 0.7 });
  for (const hole of Object.values(HOLES).flat()) {
    const [x0, y0] = [hole[0]![0] / FOOT, hole[0]![1] / FOOT];
    const [x1, y1] = [hole[2]![0] / FOOT, hole[2]![1] / FOOT];
    if (!view.shows((x0 + x1) / 2, (y0 + y1) / 2)) continue;
    const ring: Paper[] = [view.at(x0, y0), view.at(x1, y0), view.at(x1, y1), view.at(x0, y1)];
    pen.path(ring, { width: "thin", dash: [3, 2], close: true });
    pen.line(ring[0]!, ring[2]!, { width: "hair", dash: [3, 2], grey: 0.4 });
    pen.line(ring[1]!, ring[3]!, { width: "hair", dash: [3, 2], grey: 0.4 });
  }
  // The step of the roofs, ridge and valley above, lightly.
  view.line(0, 64, 180, 64, { width: "hair", dash: [12, 3, 2, 3], grey: 0.5 });
  view.line(0, 96, 180, 96, { width: "hair", dash: [4, 3], grey: 0.5 });
}

/** Luminaires: strips over the aisles, troffers in tiles, round ones over stock, docks and canopy. */
export function lights(view: PlanView): void {
  const { pen } = view;
  const strip = (x: number, y: number, long: number): void => {
    if (!view.shows(x, y) || !view.shows(x + long, y)) return;
    view.rect(x, y - 0.17, x + long, y + 0.17, { width: "thin", fill: 1 });
  };
  for (const y of [4, 12, 20, 28, 33, 47, 54, 61, 76, 84, 92, 100, 112, 118, 124])
    for (const x of [7, 20, 33, 46, 66, 78, 90, 104, 127, 140, 153, 166]) strip(x, y - 0.9, 8);
  const troffer = (x: number, y: number, w: number, h: number): void => {
    if (!view.shows(x, y) || !view.shows(x + w, y + h)) return;
    view.rect(x, y, x + w, y + h, { width: "thin", fill: 1 });
    pen.line(view.at(x, y), view.at(x + w, y + h), { width: "hair" });
    pen.line(view.at(x, y + h), view.at(x + w, y), { width: "hair" });
  };
  for (const x of [188.5, 200.5, 216.5, 228.5]) for (const y of [8.5, 16.5, 24.5]) troffer(x, y, 4, 2);
  for (const x of [188.5, 200.5, 218.5, 230.5]) for (const y of [38.5, 46.5, 56.5]) troffer(x, y, 2, 2);
  const round = (x: number, y: number, r: number): void =>
    view.mark(x, y, (at) => {
      pen.circle(at, r, { width: "thin", fill: 1 });
      pen.line([at[0] - r * 0.7, at[1] - r * 0.7], [at[0] + r * 0.7, at[1] + r * 0.7], { width: "hair" });
      pen.line([at[0] - r * 0.7, at[1] + r * 0.7], [at[0] + r * 0.7, at[1] - r * 0.7], { width: "hair" });
    });
  for (const x of [10, 26, 44, 68, 86, 104]) for (const y of [135, 147, 154]) round(x, y, 6);
  for (const x of [190, 206, 222]) for (const y of [103.5, 117.5, 131.5, 145.5]) round(x, y, 6);
  for (const x of [130, 146, 170]) for (const y of [133.5, 143.5]) round(x, y, 6);
  for (const x of [80, 90, 100]) for (const y of [-5, -9]) round(x, y, 3.5);
  for (const x of [188, 202, 216, 232]) for (const y of [81, 89]) round(x, y, 5);
}
