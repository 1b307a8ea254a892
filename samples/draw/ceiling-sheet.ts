import {
  arrowHead,
  barScale,
  bayDimensions,
  grid,
  northArrow,
  numberedNotes,
  TITLE_STRIP,
  titleStrip,
  viewTitle,
} from "./drafting.ts";
import type { DrawnPage } from "./pdf-file.ts";
import { type Metrics, type Paper, Pen } from "./pen.ts";
import { FOOT, place } from "./plan-place.ts";
import { BOXES, CEILING, CEILING_PAPER, type DrawnRun, ENTRIES, GRID, RUNS } from "./workshop.ts";
import { WORKSHOP } from "./workshop-project.ts";

/** Plan feet to the sheet as read. */
const at = (x: number, y: number): Paper => place(CEILING, [x * FOOT, y * FOOT]);
const UNIT = CEILING.pointsPerInch * FOOT;

/** How the sheet is issued: which raceways it shows, and where its title strip stands. The plan makes room for that. */
export interface CeilingIssue {
  readonly runs: readonly DrawnRun[];
  readonly strip: "left" | "right";
}

/** The sheet as first issued. */
const FIRST_ISSUE: CeilingIssue = { runs: RUNS, strip: "right" };

/** The reflected ceiling sheet, with the raceways that the electrical designer routed on it. */
export function ceilingSheet(
  metrics: Metrics,
  layers: readonly string[],
  { runs, strip }: CeilingIssue = FIRST_ISSUE,
): DrawnPage {
  const { width, height } = CEILING_PAPER;
  const shift = strip === "left" ? TITLE_STRIP : 0;
  const pen = new Pen(metrics, layers, [1, 0, 0, 1, shift, 0]);
  const frame = shift === 0 ? pen : new Pen(metrics, layers, [1, 0, 0, 1, 0, 0]);
  frame.on("TITLE", () =>
    titleStrip(
      frame,
      width,
      height,
      {
        number: "A-131",
        name: "REFLECTED|CEILING PLAN|AND RACEWAYS",
        scale: `1/4" = 1'-0"`,
      },
      WORKSHOP,
      strip,
    ),
  );
  pen.on("GRID", () => {
    grid(pen, CEILING, GRID, [100, 26, 222, 96]);
    bayDimensions(pen, CEILING, GRID, 38, 42);
  });
  pen.on("CEILING", () => ceilings(pen));
  pen.on("WALLS", () => walls(pen));
  pen.on("LIGHTING", () => lights(pen));
  pen.on("RACEWAYS", () => raceways(pen, runs));
  pen.on("NOTES", () => {
    rooms(pen);
    viewTitle(pen, [180, 96], "1", "REFLECTED CEILING PLAN, LEVEL 1", `1/4" = 1'-0"`);
    barScale(pen, [620, 88], UNIT, [0, 2, 4, 8, 16]);
    northArrow(pen, [1040, 92]);
    notes(pen);
  });
  const [x0, y0] = at(-2, -12);
  const [x1, y1] = at(98, 62);
  return {
    width,
    height,
    rotate: 0,
    content: frame === pen ? pen.content : `${frame.content}\n${pen.content}`,
    label: "A-131",
    plans: [
      {
        name: "Reflected ceiling plan",
        box: [x0 + shift, y0, x1 + shift, y1],
        scaleText: `1/4 in = 1 ft`,
        feetPerUnit: 1 / UNIT,
      },
    ],
  };
}

/** A wall by its centre line in feet, filled as cut. */
function wall(pen: Pen, a: readonly [number, number], b: readonly [number, number], thickIn: number): void {
  const half = thickIn / FOOT / 2;
  const [x0, y0] = at(Math.min(a[0], b[0]) - half, Math.min(a[1], b[1]) - half);
  const [x1, y1] = at(Math.max(a[0], b[0]) + half, Math.max(a[1], b[1]) + half);
  pen.rect([x0, y0], x1 - x0, y1 - y0, { width: "medium", fill: 0.78 });
}

function walls(pen: Pen): void {
  wall(pen, [0, 0], [2, 0], 8);
  wall(pen, [22, 0], [96, 0], 8);
  wall(pen, [0, 60], [96, 60], 8);
  wall(pen, [0, 0], [0, 60], 8);
  wall(pen, [96, 0], [96, 60], 8);
  wall(pen, [72, 40], [72, 60], 6);
  wall(pen, [72, 40], [96, 40], 6);
  // The slip door: twenty feet, its track overhead.
  for (const y of [-0.33, 0.33]) pen.line(at(2, y), at(22, y), { width: "thin", dash: [6, 3] });
  pen.text("SLIP DOOR, HEAD 12'-0\"", at(12, 0.8), { size: 7, align: "middle", mask: true });
  // Columns.
  for (const x of [0, 24, 48, 72, 96])
    for (const y of [0, 20, 40, 60]) {
      const [cx, cy] = at(x, y);
      pen.rect([cx - 7, cy - 7], 14, 14, { width: "medium", fill: 1 });
      for (const side of [-5.5, 5.5]) pen.line([cx - 5.5, cy + side], [cx + 5.5, cy + side], { width: "border" });
      pen.line([cx, cy - 5.5], [cx, cy + 5.5], { width: "border" });
    }
}

function ceilings(pen: Pen): void {
  const lattice = (x0: number, y0: number, x1: number, y1: number, dx: number, dy: number): void => {
    for (let x = x0; x <= x1 + 1e-9; x += dx) pen.line(at(x, y0), at(x, y1), { width: "hair", grey: 0.45 });
    for (let y = y0; y <= y1 + 1e-9; y += dy) pen.line(at(x0, y), at(x1, y), { width: "hair", grey: 0.45 });
  };
  // Store: lay-in ceiling, 2 ft by 4 ft. Office: 2 ft by 2 ft. Canopy: boards.
  lattice(73, 1.5, 95, 39.5, 2, 4);
  lattice(73, 41, 95, 59, 2, 2);
  for (const [a, b, c, d] of [
    [72.5, 0.33, 95.67, 39.75],
    [72.25, 40.25, 95.67, 59.67],
  ] as const) {
    const [x0, y0] = at(a, b);
    const [x1, y1] = at(c, d);
    pen.rect([x0, y0], x1 - x0, y1 - y0, { width: "thin" });
  }
  const [cx, cy] = at(24, -10);
  pen.rect([cx, cy], 24 * UNIT, 10 * UNIT, { width: "medium" });
  for (let y = -9; y < 0; y += 1) pen.line(at(24, y), at(48, y), { width: "hair", grey: 0.6 });
  // Bulkhead at the edge of the store ceiling.
  pen.line(at(72.25, 0.33), at(72.25, 39.75), { width: "medium", dash: [8, 4] });
  // Joists above, seen in the hall.
  for (let y = 5; y < 60; y += 5)
    pen.line(at(0.4, y), at(71.7, y), { width: "hair", grey: 0.7, dash: y % 20 === 0 ? [14, 4] : [4, 4] });
  for (const x of [24, 48]) pen.line(at(x, 0.4), at(x, 59.6), { width: "hair", grey: 0.6, dash: [14, 4] });
  hull(pen);
}

/** A boat on the slip below, lightly. */
function hull(pen: Pen): void {
  const centre = 12;
  const side = (sign: number): Paper[] =>
    Array.from({ length: 25 }, (_, i): Paper => {
      const t = i / 24;
      const beam = 4.6 * Math.max(0, Math.sin(Math.PI * (0.1 + 0.9 * t))) ** 0.7;
      return at(centre + sign * beam, 3.5 + t * 21);
    });
  pen.path(side(1), { width: "hair", grey: 0.6, dash: [2, 2] });
  pen.path(side(-1), { width: "hair", grey: 0.6, dash: [2, 2] });
  pen.line(side(1)[0]!, side(-1)[0]!, { width: "hair", grey: 0.6, dash: [2, 2] });
  pen.text("BOAT ON SLIP, BELOW", at(centre, 8.4), { size: 6.5, align: "middle", grey: 0.5 });
}

function lights(pen: Pen): void {
  for (const x of [6, 18, 30, 42, 54, 66])
    for (const y of [7.5, 17.5, 37.5, 57]) {
      const [cx, cy] = at(x, y);
      pen.circle([cx, cy], 8, { width: "medium", fill: 1 });
      pen.line([cx - 5.6, cy - 5.6], [cx + 5.6, cy + 5.6], { width: "thin" });
      pen.line([cx - 5.6, cy + 5.6], [cx + 5.6, cy - 5.6], { width: "thin" });
    }
  const troffer = (x: number, y: number, w: number, h: number): void => {
    const [px, py] = at(x, y);
    pen.rect([px, py], w * UNIT, h * UNIT, { width: "medium", fill: 1 });
    pen.line([px, py], [px + w * UNIT, py + h * UNIT], { width: "hair" });
    pen.line([px, py + h * UNIT], [px + w * UNIT, py], { width: "hair" });
  };
  for (const x of [77, 89]) for (const y of [1.5, 13.5, 21.5, 33.5]) troffer(x, y, 2, 4);
  for (const x of [79, 87]) for (const y of [43, 55]) troffer(x, y, 2, 2);
  for (const x of [28, 36, 44]) {
    const [cx, cy] = at(x, -8);
    pen.circle([cx, cy], 4.5, { width: "medium", fill: 1 });
    pen.circle([cx, cy], 2, { width: "thin" });
  }
}

function raceways(pen: Pen, runs: readonly DrawnRun[]): void {
  for (const run of runs) {
    const points = run.route.map((point) => place(CEILING, point));
    pen.path(points, { width: "heavy", dash: [11, 3.5] });
    for (const end of [points[0]!, points.at(-1)!]) pen.circle(end, 2, { fill: 0, bare: true });
  }
  for (const run of runs) {
    const [x, y] = place(CEILING, run.note.at);
    const upright = run.note.turn === 90;
    const shift = (d: number): Paper => (upright ? [x - d, y] : [x, y + d]);
    const text = `${run.label}   ${run.says}`;
    pen.text(text, shift(5), { size: 7.5, align: "middle", turn: run.note.turn, mask: true });
  }
  type Noted = (typeof BOXES)[keyof typeof BOXES] | (typeof ENTRIES)[keyof typeof ENTRIES];
  const symbol = (box: Noted, draw: (centre: Paper) => void, to: readonly [number, number]): void => {
    const centre = place(CEILING, box.at);
    const corner: Paper = [centre[0] + to[0], centre[1] + to[1]];
    pen.line(centre, corner, { width: "hair" });
    const way = Math.sign(to[0]);
    pen.line(corner, [corner[0] + way * 8, corner[1]], { width: "hair" });
    draw(centre);
    const align = way > 0 ? "start" : "end";
    box.says.forEach((line, i) => {
      pen.text(line, [corner[0] + way * 11, corner[1] + 1 - i * 9], { size: 7.5, align, mask: true });
    });
  };
  symbol(
    BOXES["B-1"],
    ([x, y]) => {
      pen.rect([x - 4.5, y - 4.5], 9, 9, { width: "heavy", fill: 1 });
      pen.text("J", [x, y - 2.4], { size: 6.5, bold: true, align: "middle" });
    },
    [24, 26],
  );
  symbol(
    BOXES["B-2"],
    ([x, y]) => {
      const r = 5.2;
      pen.path(
        Array.from({ length: 8 }, (_, i): Paper => {
          const a = ((i + 0.5) * Math.PI) / 4;
          return [x + r * Math.cos(a), y + r * Math.sin(a)];
        }),
        { width: "heavy", fill: 1, close: true },
      );
      pen.text("J", [x, y - 2.4], { size: 6.5, bold: true, align: "middle" });
    },
    [22, 20],
  );
  symbol(
    BOXES["F-1"],
    ([x, y]) => {
      pen.rect([x - 3, y - 7], 6, 14, { width: "heavy", fill: 1 });
      pen.line([x, y - 3], [x, y + 3], { width: "thin" });
    },
    [30, 22],
  );
  const panel = ([x, y]: Paper): void => pen.rect([x - 12, y - 3.5], 24, 7, { width: "heavy", fill: 1 });
  symbol(ENTRIES["E-1"], panel, [-26, 56]);
  symbol(ENTRIES["E-2"], panel, [-30, -26]);
}

function rooms(pen: Pen): void {
  const room = (name: string, number: string, x: number, y: number): void => {
    const [cx, cy] = at(x, y);
    pen.text(name, [cx, cy + 4], { size: 11, bold: true, align: "middle", mask: true });
    const width = 34;
    pen.rect([cx - width / 2, cy - 14], width, 13, { width: "thin", fill: 1 });
    pen.text(number, [cx, cy - 10.6], { size: 9, align: "middle" });
  };
  const ceiling = (what: string, height: string, x: number, y: number): void => {
    const [cx, cy] = at(x, y);
    const half = Math.max(pen.widthOf(height, 8, true), pen.widthOf(what, 6)) / 2 + 8;
    pen.path(
      [
        [cx - half - 6, cy],
        [cx - half, cy + 10],
        [cx + half, cy + 10],
        [cx + half + 6, cy],
        [cx + half, cy - 10],
        [cx - half, cy - 10],
      ],
      { width: "thin", fill: 1, close: true },
    );
    pen.text(what, [cx, cy + 2.5], { size: 6, align: "middle" });
    pen.text(height, [cx, cy - 7], { size: 8, bold: true, align: "middle" });
  };
  room("BOAT HALL", "101", 50, 44.6);
  ceiling("EXPOSED STRUCTURE", "NO CEILING", 50, 42);
  room("STORE", "102", 84, 27.2);
  ceiling("LAY-IN 2X4", `9'-6" AFF`, 84, 24.6);
  room("OFFICE (LOFT ABOVE)", "103", 80.7, 51.4);
  ceiling("LAY-IN 2X2", `9'-0" AFF`, 80.7, 48.8);
  room("CANOPY", "104", 31.5, -6.4);
  ceiling("BOARDS", `9'-8" AFF`, 36.4, -6.6);
  pen.text("BULKHEAD DOWN TO 9'-6\"; OPEN TO THE HALL ABOVE", [at(72.9, 0)[0], at(0, 20)[1]], {
    size: 6.5,
    align: "middle",
    turn: 90,
    mask: true,
  });
}

function notes(pen: Pen): void {
  const x = 2112;
  const below = numberedNotes(
    pen,
    "CEILING AND RACEWAY NOTES",
    [
      ["AFF: above the finished floor of Level 1", "(0'-0\")."],
      ["Raceway elevations are given at both ends of a", "run alike, unless two are written."],
      ["C.L.: centre line. TOP: top of raceway or box."],
      ["R-3 and the store deck were surveyed."],
      ["R-5 is drawn as the installer asked for it,", "in a flute of the hall deck; not in concrete."],
      ["R-6: fittings and boxes are listed, steel."],
      ["R-7: fittings by the installer, not yet named."],
      ["R-10 and the north half of R-9 hang under", "the loft floor, which is not a roof."],
      ["R-12: route only; elevation to follow."],
      ["Deck elevations: see S-201."],
      ["Bushings at panels go in before conductors", "are pulled."],
    ],
    [x, 1648],
  );
  pen.text("KEY", [x, below - 16], { size: 10, bold: true });
  pen.line([x, below - 20], [x + pen.widthOf("KEY", 10, true), below - 20], { width: "medium" });
  const row = (i: number): number => below - 44 - i * 24;
  const words = (i: number, text: string): void => pen.text(text, [x + 62, row(i) - 2.6], { size: 7.5 });
  pen.line([x, row(0)], [x + 48, row(0)], { width: "heavy", dash: [11, 3.5] });
  words(0, "RACEWAY OR CABLE, ABOVE CEILING");
  pen.rect([x + 19.5, row(1) - 4.5], 9, 9, { width: "heavy", fill: 1 });
  pen.text("J", [x + 24, row(1) - 2.4], { size: 6.5, bold: true, align: "middle" });
  words(1, "BOX, COVER DOWN");
  pen.circle([x + 24, row(2)], 8, { width: "medium", fill: 1 });
  pen.line([x + 18.4, row(2) - 5.6], [x + 29.6, row(2) + 5.6], { width: "thin" });
  pen.line([x + 18.4, row(2) + 5.6], [x + 29.6, row(2) - 5.6], { width: "thin" });
  words(2, "HIGH-BAY LUMINAIRE, PENDANT");
  pen.rect([x + 6, row(3) - 9], 36, 18, { width: "medium", fill: 1 });
  pen.line([x + 6, row(3) - 9], [x + 42, row(3) + 9], { width: "hair" });
  pen.line([x + 6, row(3) + 9], [x + 42, row(3) - 9], { width: "hair" });
  words(3, "LAY-IN LUMINAIRE");
  pen.line([x, row(4)], [x + 48, row(4)], { width: "hair", grey: 0.6, dash: [4, 4] });
  words(4, "JOIST ABOVE");
  const tip: Paper = [x + 46, row(5)];
  pen.line([x, row(5)], tip, { width: "hair" });
  arrowHead(pen, tip, [x, row(5)], 6);
  words(5, "LEADER");
}
