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
} from "./drafting.ts";
import type { DrawnPage } from "./pdf-file.ts";
import { type Metrics, type Paper, Pen } from "./pen.ts";
import { FOOT, place } from "./plan-place.ts";
import {
  EAST,
  FRAMING,
  FRAMING_PAPER,
  FRAMING_TO_PAGE,
  GRID,
  GRID_X,
  GRID_Y,
  LOFT,
  NORTH,
  OUTLINES,
  STEP,
} from "./workshop.ts";
import { WORKSHOP } from "./workshop-project.ts";

const at = (x: number, y: number): Paper => place(FRAMING, [x * FOOT, y * FOOT]);
const step = STEP / FOOT;
const east = EAST / FOOT;
const north = NORTH / FOOT;
const loft = LOFT / FOOT;

/** The roof framing sheet, stored upright with /Rotate 90. */
export function framingSheet(metrics: Metrics, layers: readonly string[]): DrawnPage {
  const { width, height } = FRAMING_PAPER;
  const pen = new Pen(metrics, layers, FRAMING_TO_PAGE);
  pen.on("TITLE", () =>
    titleStrip(
      pen,
      width,
      height,
      { number: "S-201", name: "ROOF FRAMING|PLAN AND DETAILS", scale: "AS NOTED" },
      WORKSHOP,
    ),
  );
  pen.on("GRID", () => {
    grid(pen, FRAMING, GRID, [66, 26, 112, 74]);
    bayDimensions(pen, FRAMING, GRID, 24, 22);
  });
  pen.on("DECK", () => deckEdges(pen));
  pen.on("STEEL", () => steel(pen));
  pen.on("NOTES", () => {
    tags(pen);
    viewTitle(pen, [136, 372], "1", "ROOF FRAMING PLAN", `1/8" = 1'-0"`);
    barScale(pen, [420, 366], 9, [0, 4, 8, 16, 32]);
    northArrow(pen, [770, 368]);
    notes(pen);
  });
  pen.on("DETAILS", () => {
    bearingDetail(pen, [180, 146]);
    stepDetail(pen, [640, 96]);
  });
  return {
    width: height,
    height: width,
    rotate: 90,
    content: pen.content,
    label: "S-201",
    plans: [],
  };
}

function outline(points: readonly (readonly [number, number])[]): Paper[] {
  return points.map((point) => place(FRAMING, point));
}

function deckEdges(pen: Pen): void {
  pen.path(outline(OUTLINES.hall), { width: "heavy", close: true });
  pen.path(outline(OUTLINES.store), { width: "heavy", close: true });
  // A floor deck: hatched, so that nobody takes it for roof.
  const [x0, y0] = at(step, loft);
  const [x1, y1] = at(east, north);
  for (let d = 8; d < x1 - x0 + (y1 - y0); d += 8) {
    const a: Paper = [x0 + Math.max(0, d - (y1 - y0)), y0 + Math.min(d, y1 - y0)];
    const b: Paper = [x0 + Math.min(d, x1 - x0), y0 + Math.max(0, d - (x1 - x0))];
    pen.line(a, b, { width: "hair", grey: 0.72 });
  }
  pen.path(outline(OUTLINES.loft), { width: "heavy", close: true });
  pen.path(outline(OUTLINES.canopy), { width: "heavy", close: true });
  // Steel edge angle along the step.
  pen.line([at(step, 0)[0] + 2.5, at(0, 0)[1]], [at(step, 0)[0] + 2.5, at(0, loft)[1]], { width: "thin" });
}

function steel(pen: Pen): void {
  // Girders run north on the number lines, joists east at five feet.
  for (const { at: x } of GRID_X)
    pen.line(place(FRAMING, [x, 0]), place(FRAMING, [x, NORTH]), { width: "border", grey: 0.15 });
  for (let y = 5; y < north; y += 5) {
    if (y % 20 === 0) continue;
    for (let bay = 0; bay < 4; bay++) {
      const gap = 0.8;
      pen.line(at(bay * 24 + gap, y), at(bay * 24 + 24 - gap, y), { width: "medium" });
    }
  }
  for (const { at: y } of GRID_Y)
    for (let bay = 0; bay < 4; bay++)
      pen.line(at(bay * 24 + 0.8, y / FOOT), at(bay * 24 + 23.2, y / FOOT), { width: "heavy" });
  for (const { at: x } of GRID_X) for (const { at: y } of GRID_Y) column(pen, place(FRAMING, [x, y]));
  // Canopy outriggers.
  for (const x of [24, 30, 36, 42, 48]) pen.line(at(x, 0), at(x, -10), { width: "medium" });
  const label = (text: string, x: number, y: number, turn = 0): void =>
    pen.text(text, at(x, y), { size: 6.5, align: "middle", turn, mask: true });
  for (let bay = 0; bay < 3; bay++) {
    label("18K4 JOISTS @ 5'-0\" O.C.", bay * 24 + 12, 35.4);
    label("18K4 TIE JOIST", bay * 24 + 6, 20.5);
    label("18K4 TIE JOIST", bay * 24 + 6, 40.5);
  }
  label("12K1 JOISTS @ 5'-0\" O.C.", 84, 15.4);
  label("W12X22 @ 5'-0\" O.C.", 84, 45.4);
  for (const x of [0, 24, 48]) label("JOIST GIRDER (SLOPES)", x - 0.5, 27.5, 90);
  label("JOIST GIRDER (SLOPES)", step - 0.5, 33, 90);
  label("W12X26", east - 0.5, 30, 90);
  label("HSS 4X4 OUTRIGGER", 39, -8.6);
}

/** A wide-flange column in plan. */
function column(pen: Pen, [x, y]: Paper): void {
  pen.rect([x - 4.5, y - 4.5], 9, 9, { fill: 1, bare: true });
  for (const side of [-3.6, 3.6]) pen.line([x - 3.6, y + side], [x + 3.6, y + side], { width: "border" });
  pen.line([x, y - 3.6], [x, y + 3.6], { width: "border" });
}

function tags(pen: Pen): void {
  elevationTag(pen, at(4, north - 2.2), "T.O. STEEL AT GRID D", `EL. 16'-0"`);
  elevationTag(pen, at(28, north - 2.2), "T.O. STEEL AT GRID D", `EL. 16'-0"`);
  elevationTag(pen, at(4, 2.6), "T.O. STEEL AT GRID A", `EL. 14'-9"`);
  elevationTag(pen, at(52, 2.6), "T.O. STEEL AT GRID A", `EL. 14'-9"`);
  elevationTag(pen, at(76, 35.8), "T.O. DECK, LEVEL", `EL. 12'-1 1/2"`);
  elevationTag(pen, at(76, 57.8), "T.O. STEEL, LOFT FLOOR", `EL. 12'-0"`);
  elevationTag(pen, at(26.5, -4), "BOTTOM OF DECK", `EL. 10'-6"`);
  // The way down, and the way the deck spans.
  for (const bay of [0, 1, 2]) {
    const [tail, tip] = [at(bay * 24 + 19, 52.5), at(bay * 24 + 19, 43)];
    pen.line(tail, tip, { width: "medium" });
    arrowHead(pen, tip, tail, 9);
    pen.text(`1/4" / FT`, [tip[0] - 5, (tail[1] + tip[1]) / 2], { size: 7, align: "middle", turn: 90, mask: true });
  }
  span(pen, at(12, 9), `1 1/2" WIDE-RIB STEEL ROOF DECK`);
  span(pen, at(36, 9), `1 1/2" WIDE-RIB STEEL ROOF DECK`);
  span(pen, at(60, 9), `1 1/2" WIDE-RIB STEEL ROOF DECK`);
  span(pen, at(86, 24), `1 1/2" WIDE-RIB STEEL ROOF DECK`);
  span(pen, at(84, 51.5), `2" COMPOSITE DECK + 3" CONCRETE`);
  const area = (text: string, under: string, x: number, y: number): void => {
    pen.text(text, at(x, y), { size: 9.5, bold: true, align: "middle", mask: true });
    pen.text(under, [at(x, y)[0], at(x, y)[1] - 9.5], { size: 7, align: "middle", mask: true });
  };
  area("HALL ROOF", `SLOPES 1/4" PER FOOT TO GRID A`, 37, 27.8);
  area("STORE ROOF", "LEVEL", 84, 7.6);
  area("LOFT FLOOR", "NOT A ROOF: LOFT ABOVE, ROOF OF LOFT ON S-202", 84, 42.4);
  area("CANOPY", "SEE NOTE 5", 39, -4.4);
  // Where the section through the step is cut.
  const cut = at(step, 12.5);
  pen.line([cut[0] - 26, cut[1]], [cut[0] + 26, cut[1]], { width: "thin", dash: [8, 2, 2, 2] });
  for (const side of [-1, 1]) {
    const centre: Paper = [cut[0] + side * 34, cut[1]];
    pen.circle(centre, 8, { width: "thin", fill: 1 });
    pen.text("3", [centre[0], centre[1] - 2.6], { size: 7.5, bold: true, align: "middle" });
    const foot: Paper = [centre[0], centre[1] + 8];
    arrowHead(pen, [foot[0], foot[1] + 8], foot, 8);
  }
}

/** A deck span mark: the way the flutes run (north), with what the deck is. */
function span(pen: Pen, [x, y]: Paper, text: string): void {
  for (const way of [-1, 1]) {
    pen.line([x, y], [x, y + way * 22], { width: "thin" });
    pen.line([x, y + way * 22], [x + way * 5, y + way * 15], { width: "thin" });
  }
  pen.text(text, [x, y - 2.5], { size: 6.5, align: "middle", mask: true });
}

function notes(pen: Pen): void {
  const below = numberedNotes(
    pen,
    "FRAMING NOTES",
    [
      ["Elevations are above the finished floor of", `Level 1 (project datum 0'-0").`],
      [
        "Hall: T.O. STEEL falls from grid D to grid A,",
        `1/4" per foot. The deck bears on the steel, so`,
        "T.O. STEEL is its lowest surface.",
      ],
      ["Store: level. T.O. DECK was surveyed; take off", `1 1/2" for the deck to reach its lowest surface.`],
      ["Loft floor: composite deck with a floor above.", "It is not a roof."],
      ["Canopy: whether its deck is to carry a viewing", "terrace is not settled. Bottom of deck 10'-6\"."],
      ["Flutes run north, across the joists.", "No concrete on the hall and store roofs."],
      ["No fastener, hanger or raceway in the flutes", "unless detailed."],
    ],
    [1218, 1236],
  );
  pen.text("KEY", [1218, below - 10], { size: 10, bold: true });
  pen.line([1218, below - 14], [1218 + pen.widthOf("KEY", 10, true), below - 14], { width: "medium" });
  const row = (i: number): number => below - 34 - i * 19;
  pen.line([1218, row(0) + 3], [1258, row(0) + 3], { width: "border", grey: 0.15 });
  pen.text("GIRDER", [1268, row(0)], { size: 7.5 });
  pen.line([1218, row(1) + 3], [1258, row(1) + 3], { width: "medium" });
  pen.text("JOIST OR BEAM", [1268, row(1)], { size: 7.5 });
  column(pen, [1238, row(2) + 3]);
  pen.text("COLUMN", [1268, row(2)], { size: 7.5 });
  pen.rect([1218, row(3) - 3], 40, 12, { width: "thin" });
  for (let d = 6; d < 48; d += 6)
    pen.line(
      [1218 + Math.max(0, d - 12), row(3) - 3 + Math.min(12, d)],
      [1218 + Math.min(40, d), row(3) - 3 + Math.max(0, d - 40)],
      {
        width: "hair",
        grey: 0.5,
      },
    );
  pen.text("FLOOR DECK, NOT A ROOF", [1268, row(3)], { size: 7.5 });
  elevationTag(pen, [1238, row(4) - 2], "WHAT IS GIVEN", `EL. 0'-0"`);
}

/** Deck on a joist at 3" = 1'-0": 18 points an inch of building. */
function bearingDetail(pen: Pen, [x, y]: Paper): void {
  const s = 18;
  const depth = 1.5 * s;
  // Joist along the sheet: top chord of two angles, and web members below it.
  pen.rect([x - 8, y - 5], 18 * s + 16, 2 * s, { width: "medium", fill: 0.86 });
  pen.line([x - 8, y + 26], [x + 18 * s + 8, y + 26], { width: "hair" });
  for (const [foot, head] of [
    [x + 40, x + 84],
    [x + 128, x + 84],
    [x + 196, x + 240],
    [x + 284, x + 240],
  ] as const) {
    pen.line([foot - 4, y - 42], [head - 4, y - 5], { width: "thin" });
    pen.line([foot + 4, y - 42], [head + 4, y - 5], { width: "thin" });
  }
  // Wide-rib deck: 6 in. pitch, bottom flange 1 3/4 in., top opening 2 1/2 in.
  const tos = y + 31;
  const deck: Paper[] = [[x, tos + depth]];
  for (let rib = 0; rib < 3; rib++) {
    const o = x + rib * 6 * s;
    deck.push(
      [o + 1.9 * s, tos + depth],
      [o + 2.3 * s, tos],
      [o + 4.05 * s, tos],
      [o + 4.45 * s, tos + depth],
      [o + 6 * s, tos + depth],
    );
  }
  pen.path(deck, { width: "heavy" });
  // Insulation and membrane.
  const right = x + 18 * s;
  const over = tos + depth;
  pen.rect([x, over], 18 * s, 34, { width: "thin", fill: 0.94 });
  for (let i = 0; i < 18; i++) {
    pen.line([x + i * s, over], [x + i * s + 9, over + 34], { width: "hair", grey: 0.6 });
    pen.line([x + i * s + 9, over + 34], [x + (i + 1) * s, over], { width: "hair", grey: 0.6 });
  }
  pen.line([x, over + 36], [right, over + 36], { width: "heavy" });
  // A roofing screw, through insulation and top flange.
  const screw = x + 5.2 * s + 6 * s;
  pen.line([screw - 8, over + 37.5], [screw + 8, over + 37.5], { width: "border" });
  pen.line([screw, over + 36], [screw, over - 16], { width: "medium" });
  for (let t = 0; t < 6; t++)
    pen.line([screw - 2, over + 20 - t * 5], [screw + 2, over + 22 - t * 5], { width: "hair" });
  const lead = (from: Paper, to: Paper, text: string): void => {
    pen.line(from, to, { width: "hair" });
    pen.line(to, [to[0] + 10, to[1]], { width: "hair" });
    arrowHead(pen, from, to, 5);
    pen.text(text, [to[0] + 13, to[1] - 2.4], { size: 7 });
  };
  lead([right - 30, over + 36], [right + 16, over + 46], "MEMBRANE");
  lead([right - 40, over + 18], [right + 16, over + 28], "INSULATION");
  lead([right - 30, over], [right + 16, over + 8], `1 1/2" WIDE-RIB DECK`);
  lead([x + 4 * s + 12 * s - 4, tos], [right + 16, over - 14], "T.O. STEEL =");
  pen.text("LOWEST SURFACE OF DECK", [right + 29, over - 25], { size: 7, bold: true });
  lead([right - 20, y + 8], [right + 16, y - 8], "JOIST, TOP CHORD");
  const screwNote: Paper = [screw - 60, over + 62];
  pen.line([screw, over - 15], screwNote, { width: "hair" });
  pen.line(screwNote, [screwNote[0] - 10, screwNote[1]], { width: "hair" });
  arrowHead(pen, [screw, over - 15], screwNote, 5);
  pen.text("ROOFING SCREW", [screwNote[0] - 13, screwNote[1] - 2.4], { size: 7, align: "end" });
  viewTitle(pen, [x - 44, y - 84], "2", "DECK BEARING", `3" = 1'-0"`);
}

/** The step between the roofs at 3/4" = 1'-0": 4.5 points an inch of building. */
function stepDetail(pen: Pen, [x, y]: Paper): void {
  const s = 4.5;
  const gridX = x + 210;
  const store = y + 66; // lowest surface of the store deck
  const hall = store + 20 * s; // broken: not to height
  // Store roof to the right of the grid.
  pen.rect([gridX, store], 300, 1.5 * s, { width: "medium", fill: 0.8 });
  pen.rect([gridX, store + 1.5 * s], 300, 4 * s, { width: "thin", fill: 0.95 });
  pen.path(
    [
      [gridX, store + 5.5 * s],
      [gridX + 300, store + 5.5 * s],
    ],
    { width: "heavy" },
  );
  pen.path(
    [
      [gridX + 6, store],
      [gridX, store],
      [gridX, store + 18],
    ],
    { width: "border" },
  );
  // Upstand wall and hall roof to the left.
  pen.rect([gridX - 10, store + 5.5 * s], 10, hall - store - 5.5 * s, { width: "thin", fill: 0.88 });
  pen.path(
    [
      [gridX - 14, hall - 22],
      [gridX + 6, hall - 17],
      [gridX - 12, hall - 13],
      [gridX + 6, hall - 8],
    ],
    { width: "thin" },
  );
  pen.rect([gridX - 190, hall], 196, 1.5 * s, { width: "medium", fill: 0.8 });
  pen.rect([gridX - 190, hall + 1.5 * s], 196, 4 * s, { width: "thin", fill: 0.95 });
  pen.path(
    [
      [gridX - 190, hall + 5.5 * s],
      [gridX + 6, hall + 5.5 * s],
    ],
    { width: "heavy" },
  );
  // Girder under the edge, and the grid line.
  const flange = (low: number): void => pen.rect([gridX + 12, low], 36, 4, { width: "medium", fill: 0.7 });
  flange(store - 4);
  pen.rect([gridX + 28, store - 44], 4, 40, { width: "medium", fill: 0.7 });
  flange(store - 48);
  pen.line([gridX, y - 8], [gridX, hall + 44], { width: "hair", dash: [16, 3, 3, 3], grey: 0.25 });
  pen.circle([gridX, hall + 56], 11, { width: "medium", fill: 1 });
  pen.text("4", [gridX, hall + 52], { size: 11, bold: true, align: "middle" });
  pen.text("HALL", [gridX - 140, store + 40], { size: 9, bold: true });
  pen.text("STORE", [gridX + 180, store - 30], { size: 9, bold: true });
  pen.text("OPEN BELOW THE STEP", [gridX - 140, store + 29], { size: 6.5 });
  pen.line([gridX + 120, store + 1.5 * s], [gridX + 120, store + 5.5 * s + 18], { width: "hair" });
  arrowHead(pen, [gridX + 120, store + 1.5 * s], [gridX + 120, store + 5.5 * s], 5);
  elevationTag(pen, [gridX + 120, store + 5.5 * s + 22], "T.O. DECK, SURVEYED", `EL. 12'-1 1/2"`);
  elevationTag(pen, [gridX - 150, hall - 18], "T.O. STEEL VARIES", "SEE PLAN");
  pen.line([gridX - 150, hall - 13], [gridX - 150, hall], { width: "hair" });
  arrowHead(pen, [gridX - 150, hall], [gridX - 150, hall - 13], 5);
  pen.line([gridX + 5, store + 2], [gridX - 34, store - 22], { width: "hair" });
  arrowHead(pen, [gridX + 1, store + 1], [gridX - 34, store - 22], 5);
  pen.text("EDGE ANGLE: NO RACEWAY", [gridX - 40, store - 22], { size: 7, align: "end" });
  pen.text("AGAINST THE DECK EDGE", [gridX - 40, store - 31], { size: 7, align: "end" });
  viewTitle(pen, [x + 14, y - 6], "3", "STEP AT GRID 4", `3/4" = 1'-0"`);
}
