import {
  arrowHead,
  barScale,
  bayDimensions,
  elevationTag,
  grid,
  northArrow,
  numberedNotes,
  titleStrip,
  viewTitle,
} from "../drafting.ts";
import type { DrawnPage } from "../pdf-file.ts";
import { type Metrics, type Paper, Pen } from "../pen.ts";
import { place } from "../plan-place.ts";
import { GRID, HOLES, PAPER, ROOF_PLACE } from "./building.ts";
import { PlanView } from "./plan-view.ts";
import { LAYERS, STORE } from "./store-project.ts";

/** the roofs from above, with slopes, drains, crickets and what stands on them. */
export function roofSheet(metrics: Metrics): DrawnPage {
  const { width, height } = PAPER;
  const pen = new Pen(metrics, LAYERS, [1, 0, 0, 1, 0, 0]);
  const view = new PlanView(pen, ROOF_PLACE, [-2, 242], [-16, 162]);
  pen.on("TITLE", () =>
    titleStrip(
      pen,
      width,
      height,
      { number: "A-120", name: "ROOF PLAN,|SLOPES AND|DRAINS", scale: `3/32" = 1'-0"` },
      STORE,
    ),
  );
  pen.on("GRID", () => {
    grid(pen, ROOF_PLACE, GRID, [66, 30, 130, 76]);
    bayDimensions(pen, ROOF_PLACE, GRID, 26, 22);
  });
  pen.on("ROOF", () => {
    edges(view);
    water(view);
    equipment(view);
  });
  pen.on("NOTES", () => {
    tags(view);
    viewTitle(pen, [136, 108], "1", "ROOF PLAN", `3/32" = 1'-0"`);
    barScale(pen, [560, 100], view.foot, [0, 4, 8, 16, 32, 64]);
    northArrow(pen, [1240, 104]);
    notes(pen);
  });
  pen.on("DETAILS", () => taperDetail(pen, [2046, 470]));
  const [low, high] = [view.at(-2, -16), view.at(242, 162)];
  return {
    width,
    height,
    rotate: 0,
    content: pen.content,
    label: "A-120",
    plans: [{ name: "Roof plan", box: [...low, ...high], scaleText: `3/32 in = 1 ft`, feetPerUnit: 1 / view.foot }],
  };
}

/** Roof edges: a parapet is two lines a foot apart, an open edge is one. */
function edges(view: PlanView): void {
  const parapet = (x0: number, y0: number, x1: number, y1: number): void => {
    view.rect(x0, y0, x1, y1, { width: "heavy" });
    view.rect(x0 + 1, y0 + 1, x1 - 1, y1 - 1, { width: "thin" });
  };
  parapet(0, 0, 180, 128);
  parapet(0, 128, 120, 160);
  parapet(120, 128, 180, 160);
  parapet(180, 0, 240, 64);
  parapet(180, 64, 240, 96);
  parapet(180, 96, 240, 160);
  view.line(210, 65, 210, 95, { width: "medium", dash: [7, 4] });
  view.rect(75, -14, 105, 0, { width: "heavy" });
  for (let y = -13; y < 0; y += 1) view.line(75, y, 105, y, { width: "hair", grey: 0.7 });
  for (const hole of Object.values(HOLES).flat()) {
    const ring = hole.map((at) => place(ROOF_PLACE, at));
    view.pen.path(ring, { width: "medium", close: true, fill: 0.92 });
    view.pen.line(ring[0]!, ring[2]!, { width: "hair" });
    view.pen.line(ring[1]!, ring[3]!, { width: "hair" });
  }
}

function water(view: PlanView): void {
  const { pen } = view;
  view.line(1, 64, 179, 64, { width: "medium", dash: [12, 3, 2, 3] });
  view.line(1, 96, 179, 96, { width: "medium", dash: [4, 3] });
  for (let bay = 0; bay < 3; bay++) {
    const low = view.at(bay * 60 + 30, 96);
    for (const x of [bay * 60, bay * 60 + 60])
      for (const y of [64, 128]) pen.line(low, view.at(x, y), { width: "thin", dash: [5, 3], grey: 0.3 });
  }
  // Tapered insulation of the stock room: four ways to two drains.
  for (const x of [30, 90]) {
    for (const [dx, dy] of [
      [-29, -15],
      [-29, 15],
      [30, -15],
      [30, 15],
    ] as const)
      pen.line(view.at(x, 144), view.at(Math.max(1, Math.min(119, x + dx)), 144 + dy), {
        width: "thin",
        dash: [2, 2],
        grey: 0.3,
      });
  }
  view.line(60, 129, 60, 159, { width: "thin", dash: [2, 2], grey: 0.3 });
  for (const [x, y] of [
    [30, 96],
    [90, 96],
    [150, 96],
    [30, 144],
    [90, 144],
    [128, 158],
    [172, 158],
    [238, 14],
    [238, 50],
    [210, 128],
    [236, 80],
  ] as const) {
    const at = view.at(x, y);
    pen.circle(at, 5, { width: "medium", fill: 1 });
    pen.circle(at, 2.2, { width: "thin" });
    pen.line([at[0] - 5, at[1]], [at[0] + 5, at[1]], { width: "hair" });
    pen.line([at[0], at[1] - 5], [at[0], at[1] + 5], { width: "hair" });
    pen.text("RD", [at[0] + 7, at[1] - 9], { size: 5.6, mask: true });
  }
  for (const x of [15, 45, 75, 105, 135, 165]) {
    // Scuppers through the south parapet.
    view.rect(x - 1, -0.4, x + 1, 1.2, { width: "medium", fill: 1 });
    view.mark(x, 2.6, (at) => pen.text("SCUPPER", at, { size: 5, align: "middle" }));
  }
  const arrow = (x0: number, y0: number, x1: number, y1: number, text: string): void => {
    const [tail, tip] = [view.at(x0, y0), view.at(x1, y1)];
    pen.line(tail, tip, { width: "medium" });
    arrowHead(pen, tip, tail, 8);
    const mid: Paper = [(tail[0] + tip[0]) / 2, (tail[1] + tip[1]) / 2];
    const upright = x0 === x1;
    pen.text(text, upright ? [mid[0] - 4, mid[1]] : [mid[0], mid[1] + 4], {
      size: 6.5,
      align: "middle",
      turn: upright ? 90 : 0,
      mask: true,
    });
  };
  for (const x of [10, 38, 68, 98, 128, 158]) arrow(x, 58, x, 44, `1/4":12"`);
  for (const x of [20, 80, 140]) {
    arrow(x, 70, x, 82, `1/4":12"`);
    arrow(x, 122, x, 110, `1/4":12"`);
  }
  for (const x of [8, 68, 128]) arrow(x, 97.6, x + 12, 97.6, `1/8":12"`);
  for (const x of [52, 112, 172]) arrow(x, 97.6, x - 12, 97.6, `1/8":12"`);
  for (const [x, way] of [
    [10, 1],
    [50, -1],
    [70, 1],
    [110, -1],
  ] as const)
    arrow(x - way * 4, 144, x + way * 7, 144, `1/4":12"`);
  for (const x of [30, 90]) {
    arrow(x, 157, x, 149, `1/4":12"`);
    arrow(x, 131, x, 139, `1/4":12"`);
  }
  arrow(150, 132, 150, 141, `1/8":12"`);
  arrow(196, 20, 214, 20, `1/4":12"`);
  arrow(196, 46, 214, 46, `1/4":12"`);
}

function equipment(view: PlanView): void {
  const { pen } = view;
  const unit = (name: string, x: number, y: number, w: number, h: number): void => {
    view.rect(x, y, x + w, y + h, { width: "heavy", fill: 0.97 });
    view.rect(x + 0.7, y + 0.7, x + w - 0.7, y + h - 0.7, { width: "hair" });
    const at = view.at(x + w / 2, y + h / 2);
    pen.text(name, [at[0], at[1] - 2], { size: 6.5, bold: true, align: "middle" });
  };
  unit("RTU-1", 34, 14, 12, 7);
  unit("RTU-2", 94, 14, 12, 7);
  unit("RTU-3", 152, 14, 12, 7);
  unit("RTU-4", 44, 112, 12, 7);
  unit("RTU-5", 104, 112, 12, 7);
  unit("RTU-6", 220, 30, 9, 6);
  unit("CU-1", 214, 84, 8, 6);
  unit("CU-2", 226, 84, 8, 6);
  unit("EF-1", 159, 152, 4, 4);
  unit("RTU-7", 198, 140, 10, 7);
  // Walking pads from the hatch.
  for (let x = 4; x < 62; x += 3) view.rect(x, 134.5, x + 2.4, 136.5, { width: "hair", grey: 0.4 });
}

function tags(view: PlanView): void {
  const { pen } = view;
  const tag = (x: number, y: number, what: string, value: string): void =>
    elevationTag(pen, view.at(x, y), what, value);
  tag(62, 147.5, "T.O. ROOFING AT RIDGE OF INSULATION", `EL. 115'-1 3/4"`);
  tag(32, 147, "T.O. ROOFING AT DRAIN", `EL. 114'-6 1/4"`);
  tag(92, 147, "T.O. ROOFING AT DRAIN", `EL. 114'-6 1/4"`);
  tag(4, 124, "T.O. PARAPET", `EL. 121'-0"`);
  tag(184, 4, "T.O. PARAPET", `EL. 117'-6"`);
  tag(184, 68.4, "T.O. PARAPET", `EL. 126'-6"`);
  tag(184, 154, "T.O. PARAPET", `EL. 119'-0"`);
  const name = (text: string, under: string, x: number, y: number): void => {
    const [px, py] = view.at(x, y);
    pen.text(text, [px, py], { size: 9, bold: true, align: "middle", mask: true });
    pen.text(under, [px, py - 8], { size: 6, align: "middle", mask: true });
  };
  name("SALES ROOF, SOUTH", "TO SCUPPERS AT GRID A", 66, 30);
  name("RIDGE", "GRID C", 118, 65);
  name("SALES ROOF, NORTH", "VALLEY AND CRICKETS TO DRAINS, GRID D", 104, 86);
  name("STOCK ROOM ROOF", "TAPERED INSULATION, DECK FLAT, DETAIL 2", 76, 132.6);
  name("BAKERY ROOF", "", 140, 150);
  name("PHARMACY ROOF", "", 205, 34);
  name("TRAINING ROOM BELOW", "OCCUPIED. FLAT DECK, TAPERED INSULATION", 195, 80);
  name("MECH. MEZZANINE BELOW", "EQUIPMENT ONLY", 225, 77);
  name("RECEIVING ROOF", "LEVEL DECK, TAPERED INSULATION", 208, 112);
  name("CANOPY", "WOOD BOARDS", 90, -7);
  // Marks of the sections.
  const cut = (number: string, x: number, y: number, upright: boolean): void => {
    const at = view.at(x, y);
    pen.circle(at, 9, { width: "medium", fill: 1 });
    pen.text(number, [at[0], at[1] + 1], { size: 7, bold: true, align: "middle" });
    pen.line([at[0] - 9, at[1]], [at[0] + 9, at[1]], { width: "hair" });
    pen.text("A-301", [at[0], at[1] - 6], { size: 4.6, align: "middle" });
    const way: Paper = upright ? [at[0] + 16, at[1]] : [at[0], at[1] + 16];
    arrowHead(pen, way, at, 7);
  };
  cut("1", -5, 26, false);
  cut("1", 245, 26, false);
  cut("2", 54, -6, true);
  cut("2", 54, 165, true);
  cut("3", 224, -6, true);
  cut("3", 224, 165, true);
}

function notes(pen: Pen): void {
  numberedNotes(
    pen,
    "ROOF NOTES",
    [
      ["RD: roof drain with overflow beside it."],
      [
        "Slopes of sales, bakery and pharmacy roofs are",
        "slopes of the deck. Stock room, receiving and the",
        "roof over the mezzanine level: the deck is flat and",
        "the insulation is tapered.",
      ],
      ["Crickets between the drains at grid D are in the", "steel; see S-120 for their points."],
      [`Stock room insulation: 4 1/4" at the drain, rising`, `1/4" per foot.`],
      [
        "Below the roof at grids 7 to 9, C to D: the training",
        "room (occupied) west of grid 8, and the mechanical",
        "mezzanine (equipment only) east of it. The wall",
        "between them is dashed.",
      ],
      ["Roofing is held down by screws through the deck.", "Nobody drills a roof on the word of a drawing alone."],
    ],
    [2046, 1640],
  );
}

/** Tapered insulation on a flat deck at 1" = 1'-0", broken: 6 points an inch of building. */
function taperDetail(pen: Pen, [x, y]: Paper): void {
  const s = 6;
  const [deck, over] = [y, y + 1.5 * s];
  const drain = x + 40;
  const right = x + 230;
  pen.line([x - 20, deck - 2], [right, deck - 2], { width: "border", grey: 0.2 });
  const ribs: Paper[] = [];
  for (let at = x - 20; at + 36 <= right + 1; at += 36)
    ribs.push([at, over], [at + 11.4, over], [at + 13.8, deck], [at + 24.3, deck], [at + 26.7, over], [at + 36, over]);
  pen.path(ribs, { width: "heavy" });
  const top = (px: number): number => over + 4.25 * s + Math.abs(px - drain) / 48;
  pen.path(
    [
      [x - 20, over],
      [right, over],
      [right, top(right)],
      [drain, top(drain)],
      [x - 20, top(x - 20)],
    ],
    { width: "thin", close: true, fill: 0.94 },
  );
  for (let px = x - 14; px < right - 8; px += 12) {
    pen.line([px, over], [px + 6, top(px + 6)], { width: "hair", grey: 0.6 });
    pen.line([px + 6, top(px + 6)], [px + 12, over], { width: "hair", grey: 0.6 });
  }
  pen.path(
    [
      [right, top(right) + 3],
      [drain + 6, top(drain) + 3],
      [drain + 6, over - 30],
    ],
    { width: "heavy" },
  );
  pen.path(
    [
      [x - 20, top(x - 20) + 3],
      [drain - 6, top(drain) + 3],
      [drain - 6, over - 30],
    ],
    { width: "heavy" },
  );
  elevationTag(pen, [drain + 26, top(drain) + 58], "T.O. ROOFING AT DRAIN", `EL. 114'-6 1/4"`);
  pen.line([drain + 26, top(drain) + 53], [drain + 26, top(drain + 26) + 3], { width: "hair" });
  elevationTag(pen, [drain + 120, deck - 24], "T.O. STEEL, FLAT", `T.O.S. 114'-0"`);
  pen.line([drain + 120, deck - 19], [drain + 120, deck - 3], { width: "hair" });
  pen.text(`1/2" MEMBRANE AND COVER BOARD`, [x + 96, top(right) + 26], { size: 6 });
  pen.text(`4 1/4" INSULATION AT THE DRAIN`, [x + 96, top(right) + 17], { size: 6 });
  pen.text(`1 1/2" WIDE-RIB DECK, FLAT`, [x + 96, top(right) + 8], { size: 6 });
  viewTitle(pen, [x + 4, y - 70], "2", "TAPERED INSULATION", `1" = 1'-0"`);
}
