import { formatLength } from "../../../src/units/format-length.ts";
import { inches } from "../../../src/units/quantity.ts";
import { arrowHead, dimension, elevationTag, numberedNotes, titleStrip, viewTitle } from "../drafting.ts";
import type { DrawnPage } from "../pdf-file.ts";
import { type Metrics, type Paper, Pen } from "../pen.ts";
import { FOOT, type GridLine } from "../plan-place.ts";
import { type DeckName, GRID, LEVEL_1, lowest, MEZZANINE, PAPER } from "./building.ts";
import { LAYERS, STORE } from "./store-project.ts";

/** Points an inch at 3/32" = 1'-0", both ways. */
const S = 72 / 128;

/** three sections through the building, and the canopy larger. */
export function sectionsSheet(metrics: Metrics): DrawnPage {
  const { width, height } = PAPER;
  const pen = new Pen(metrics, LAYERS, [1, 0, 0, 1, 0, 0]);
  pen.on("TITLE", () =>
    titleStrip(pen, width, height, { number: "A-301", name: "BUILDING|SECTIONS", scale: "AS NOTED" }, STORE),
  );
  pen.on("DETAILS", () => {
    alongX(pen, [232, 1300]);
    alongY(pen, [232, 860], 54 * FOOT, "2", "SECTION THROUGH SALES FLOOR AND STOCK ROOM", [
      ["sales-south", 0, 64],
      ["sales-north", 64, 128],
      ["stock", 128, 160],
    ]);
    alongY(pen, [232, 400], 224 * FOOT, "3", "SECTION THROUGH PHARMACY, MEZZANINE AND RECEIVING", [
      ["pharmacy", 0, 64],
      ["mezzanine", 64, 96],
      ["penthouse", 64, 96],
      ["receiving", 96, 160],
    ]);
    canopy(pen, [1500, 420]);
  });
  pen.on("NOTES", () => {
    numberedNotes(
      pen,
      "SECTION NOTES",
      [
        ["Elevations to the surfaces named, above the project", `datum; LEVEL 1 is 100'-0".`],
        ["Decks are drawn by their lowest surface. Insulation", "is drawn to scale only in 2/A-120."],
        ["Steel below the decks is left out."],
      ],
      [2046, 1640],
    );
  });
  return { width, height, rotate: 0, content: pen.content, label: "A-301", plans: [] };
}

/** A deck in section: its lowest surface by points, 1 1/2 in. of deck or more, and roofing over it. */
function deckBand(pen: Pen, points: readonly Paper[], depth: number, over: number): void {
  const up = (by: number): Paper[] => points.map(([x, y]) => [x, y + by]);
  pen.path([...points, ...up(depth).reverse()], { width: "medium", fill: 0.35, close: true });
  if (over > 0) pen.path([...up(depth), ...up(depth + over).reverse()], { width: "thin", fill: 0.93, close: true });
}

/** Grid bubbles over a section, with the floor line and its elevation. */
function frame(pen: Pen, [x, y]: Paper, lines: readonly GridLine[], top: number): void {
  const far = lines.at(-1)!.at;
  pen.line([x - 40, y], [x + far * S + 40, y], { width: "border" });
  for (let px = x - 36; px < x + far * S + 36; px += 14)
    pen.line([px, y - 1], [px - 7, y - 8], { width: "hair", grey: 0.4 });
  elevationTag(pen, [x - 60, y + 14], "FINISHED FLOOR, LEVEL 1", `EL. 100'-0"`, "left");
  pen.line([x - 60, y + 9], [x - 60, y], { width: "hair" });
  for (const { name, at } of lines) {
    const px = x + at * S;
    pen.line([px, y], [px, y + top], { width: "hair", dash: [16, 3, 3, 3], grey: 0.25 });
    pen.circle([px, y + top + 11], 11, { width: "medium", fill: 1 });
    pen.text(name, [px, y + top + 7], { size: 11, bold: true, align: "middle" });
  }
}

const level = (y: number, z: number): number => y + (z - LEVEL_1) * S;

/** Section 1: from west to east through the sales floor and the pharmacy, 26 ft north of grid A. */
function alongX(pen: Pen, [x, y]: Paper): void {
  const cut = 26 * FOOT;
  frame(pen, [x, y], GRID.x, 190);
  const at = (deck: DeckName, px: number): Paper => [x + px * S, level(y, lowest(deck, [px, cut]))];
  deckBand(pen, [at("sales-south", 0), at("sales-south", 180 * FOOT)], 2, 4);
  deckBand(pen, [at("pharmacy", 180 * FOOT), at("pharmacy", 240 * FOOT)], 2, 4);
  const wall = (px: number, top: number): void =>
    pen.rect([x + px * FOOT * S - 2.2, y], 4.4, top, { width: "thin", fill: 0.85 });
  wall(0, level(0, 1452));
  wall(180, level(0, 1452));
  wall(240, level(0, 1410));
  // Ceiling of the pharmacy.
  pen.line([x + 180 * FOOT * S, y + 120 * S], [x + 240 * FOOT * S, y + 120 * S], { width: "thin", dash: [3, 2] });
  elevationTag(pen, [x + 210 * FOOT * S, y + 104 * S], "LAY-IN CEILING", `+10'-0" A.F.F.`);
  elevationTag(pen, [x + 60 * FOOT * S, level(y, 1450)], "T.O. STEEL, 38'-0\" SOUTH OF RIDGE", `T.O.S. 117'-6 1/2"`);
  elevationTag(pen, [x + 184 * FOOT * S, level(y, 1352)], "B.O. DECK AT GRID 7", `EL. 114'-6"`);
  elevationTag(pen, [x + 236 * FOOT * S, level(y, 1336)], "B.O. DECK AT GRID 9", `EL. 113'-3"`, "left");
  pen.text("SALES FLOOR", [x + 90 * FOOT * S, y + 60], { size: 9, bold: true, align: "middle" });
  pen.text("PHARMACY", [x + 210 * FOOT * S, y + 30], { size: 9, bold: true, align: "middle" });
  dimension(pen, [x, y - 24], [x + 180 * FOOT * S, y - 24], `180'-0"`);
  dimension(pen, [x + 180 * FOOT * S, y - 24], [x + 240 * FOOT * S, y - 24], `60'-0"`);
  viewTitle(pen, [x - 60, y - 66], "1", "SECTION THROUGH SALES FLOOR AND PHARMACY", `3/32" = 1'-0"`);
}

/** A section from south to north at a place across: decks from their low to their high feet along. */
function alongY(
  pen: Pen,
  [x, y]: Paper,
  cut: number,
  number: string,
  title: string,
  decks: readonly (readonly [DeckName, number, number])[],
): void {
  frame(pen, [x, y], GRID.y, 200);
  for (const [deck, from, to] of decks) {
    const points = Array.from({ length: to - from + 1 }, (_, i): Paper => {
      const along = (from + i) * FOOT;
      return [x + along * S, level(y, lowest(deck, [cut, along]))];
    });
    const bends = points.filter((_, i) => i === 0 || i === points.length - 1 || (from + i) % 32 === 0);
    const floor = deck === "mezzanine";
    deckBand(pen, bends, floor ? 4 : 2, floor ? 0 : 4);
    // No wall under the ridge: the sales floor goes through.
    for (const edge of [from, to].filter((at) => number !== "2" || at !== 64)) {
      const top = level(y, lowest(deck, [cut, edge * FOOT])) - y;
      pen.rect([x + edge * FOOT * S - 2, y], 4, top, { width: "thin", fill: 0.85 });
    }
  }
  const tag = (along: number, z: number, what: string, value: string, side: "left" | "right" = "right"): void =>
    elevationTag(pen, [x + along * FOOT * S, level(y, z)], what, value, side);
  const room = (text: string, along: number): void =>
    pen.text(text, [x + along * FOOT * S, y + 40], { size: 9, bold: true, align: "middle" });
  if (number === "2") {
    tag(66, 1456, "T.O. STEEL AT RIDGE", `T.O.S. 118'-4"`);
    tag(6, 1380, "T.O. STEEL AT GRID A", `T.O.S. 117'-0"`);
    tag(98, 1386, "VALLEY, T.O. STEEL AT ITS HIGH POINTS", `T.O.S. 117'-8"`);
    tag(132, 1342, "T.O. STEEL, FLAT", `T.O.S. 114'-0"`);
    tag(132, 1400, "T.O. ROOFING AT DRAIN", `EL. 114'-6 1/4"`);
    room("SALES FLOOR", 60);
    room("STOCK ROOM", 144);
  } else {
    tag(70, 1526, "T.O. STEEL, ROOF OVER MEZZANINE LEVEL", `T.O.S. 124'-0"`);
    tag(68, 1372, "T.O. SLAB, MECHANICAL MEZZANINE", `EL. ${formatLength(inches(MEZZANINE), "imperial")}`);
    tag(100, 1362, "T.O. DECK, LEVEL", `EL. 116'-3"`);
    tag(6, 1340, "B.O. DECK, FALLS EAST", `B.O. DECK VARIES`);
    room("PHARMACY AND STAFF", 32);
    room("REFRIGERATION", 80);
    room("RECEIVING", 128);
  }
  dimension(pen, [x, y - 24], [x + 160 * FOOT * S, y - 24], `160'-0"`);
  viewTitle(pen, [x - 60, y - 66], number, title, `3/32" = 1'-0"`);
}

/** Section 4: the canopy at 1/2" = 1'-0". */
function canopy(pen: Pen, [x, y]: Paper): void {
  const s = 3;
  const under = y + 132 * s * 0.55;
  const out = 14 * FOOT * s;
  pen.line([x - 20, y], [x + out + 90, y], { width: "border" });
  pen.rect([x, under], out, 1.5 * s, { width: "medium", fill: 0.55 });
  for (let at = 6 * s; at < out; at += 6 * s)
    pen.line([x + at, under], [x + at, under + 1.5 * s], { width: "hair", grey: 1 });
  pen.rect([x, under + 1.5 * s], out, 4, { width: "thin", fill: 0.95 });
  for (const at of [4, 170, 336, out - 8]) pen.rect([x + at, under - 18], 12, 18, { width: "medium", fill: 0.85 });
  pen.rect([x + out, y], 16, under - y + 90, { width: "medium", fill: 0.85 });
  pen.path(
    [
      [x + out - 6, under - 70],
      [x + out + 22, under - 62],
      [x + out - 6, under - 54],
      [x + out + 22, under - 46],
    ],
    { width: "thin" },
  );
  elevationTag(pen, [x + 90, under - 34], "B.O. DECK, WOOD BOARDS", `B.O. DECK +11'-0" A.F.F.`);
  pen.line([x + 90, under - 29], [x + 90, under], { width: "hair" });
  arrowHead(pen, [x + 90, under], [x + 90, under - 29], 5);
  pen.text(`1 1/2" WOOD BOARDS, MEMBRANE OVER`, [x + 190, under + 24], { size: 7 });
  pen.line([x + 186, under + 26], [x + 150, under + 3], { width: "hair" });
  arrowHead(pen, [x + 150, under + 3], [x + 186, under + 26], 5);
  pen.text("FLOOR NOT TO HEIGHT", [x + 20, y + 8], { size: 6.5 });
  pen.circle([x + out + 8, under + 112], 11, { width: "medium", fill: 1 });
  pen.text("A", [x + out + 8, under + 108], { size: 11, bold: true, align: "middle" });
  viewTitle(pen, [x, y - 60], "4", "ENTRANCE CANOPY", `1/2" = 1'-0"`);
}
