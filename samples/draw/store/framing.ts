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
import { hatch } from "../hatching.ts";
import type { DrawnPage } from "../pdf-file.ts";
import { type Metrics, type Paper, Pen } from "../pen.ts";
import { FOOT, place } from "../plan-place.ts";
import { GRID, HOLES, OUTLINES, PAPER, ROOF_PLACE } from "./building.ts";
import { PlanView } from "./plan-view.ts";
import { LAYERS, STORE } from "./store-project.ts";

/** S-120: what carries the decks, and the elevation of each. */
export function framingSheet(metrics: Metrics): DrawnPage {
  const { width, height } = PAPER;
  const pen = new Pen(metrics, LAYERS, [1, 0, 0, 1, 0, 0]);
  const view = new PlanView(pen, ROOF_PLACE, [-2, 242], [-16, 162]);
  pen.on("TITLE", () =>
    titleStrip(pen, width, height, { number: "S-120", name: "ROOF FRAMING|PLAN", scale: `3/32" = 1'-0"` }, STORE),
  );
  pen.on("GRID", () => {
    grid(pen, ROOF_PLACE, GRID, [66, 30, 130, 76]);
    bayDimensions(pen, ROOF_PLACE, GRID, 26, 22);
  });
  pen.on("DECK", () => decks(view));
  pen.on("STEEL", () => steel(view));
  pen.on("NOTES", () => {
    tags(view);
    viewTitle(pen, [136, 108], "1", "ROOF FRAMING PLAN", `3/32" = 1'-0"`);
    barScale(pen, [560, 100], view.foot, [0, 4, 8, 16, 32, 64]);
    northArrow(pen, [1240, 104]);
    notes(pen);
  });
  return { width, height, rotate: 0, content: pen.content, label: "S-120", plans: [] };
}

function decks(view: PlanView): void {
  const { pen } = view;
  for (const name of ["training", "mezzanine"] as const) {
    const [a, , b] = OUTLINES[name];
    hatch(pen, place(ROOF_PLACE, a!), place(ROOF_PLACE, b!), name === "training" ? 6 : 12, 0.72);
  }
  for (const [name, ring] of Object.entries(OUTLINES))
    pen.path(
      ring.map((at) => place(ROOF_PLACE, at)),
      {
        width: name === "penthouse" ? "medium" : "heavy",
        close: true,
        ...(name === "penthouse" ? { dash: [9, 4] } : {}),
      },
    );
  // Openings, crossed.
  for (const hole of Object.values(HOLES).flat()) {
    const ring = hole.map((at) => place(ROOF_PLACE, at));
    pen.path(ring, { width: "medium", close: true, fill: 1 });
    pen.line(ring[0]!, ring[2]!, { width: "hair" });
    pen.line(ring[1]!, ring[3]!, { width: "hair" });
  }
  // Ridges, and the valley with its high and low points.
  const chain = { width: "medium", dash: [12, 3, 2, 3] } as const;
  view.line(0, 64, 180, 64, chain);
  view.line(0, 96, 180, 96, { ...chain, dash: [4, 3] });
  for (let bay = 0; bay < 3; bay++)
    for (const side of [64, 128]) {
      const low = view.at(bay * 60 + 30, 96);
      for (const x of [bay * 60, bay * 60 + 60])
        pen.line(low, view.at(x, side), { width: "hair", dash: [5, 4], grey: 0.35 });
    }
}

function steel(view: PlanView): void {
  const { pen } = view;
  for (const { at } of GRID.x) {
    const x = at / FOOT;
    view.line(x, 0, x, 160, { width: "border", grey: 0.2 });
  }
  for (const { at } of GRID.y) view.line(0, at / FOOT, 240, at / FOOT, { width: "heavy", grey: 0.15 });
  for (let bay = 0; bay < 8; bay++)
    for (let row = 0; row < 5; row++)
      for (let joist = 1; joist < 6; joist++) {
        const y = row * 32 + (joist * 32) / 6;
        pen.line(view.at(bay * 30 + 1, y), view.at(bay * 30 + 29, y), { width: "thin" });
      }
  for (const x of [75, 82.5, 90, 97.5, 105]) view.line(x, -14, x, 0, { width: "medium" });
  view.line(75, -14, 105, -14, { width: "heavy" });
  for (const { at: x } of GRID.x)
    for (const { at: y } of GRID.y) {
      const [px, py] = place(ROOF_PLACE, [x, y]);
      pen.rect([px - 3.4, py - 3.4], 6.8, 6.8, { width: "thin", fill: 1 });
      for (const side of [-2.6, 2.6]) pen.line([px - 2.6, py + side], [px + 2.6, py + side], { width: "heavy" });
      pen.line([px, py - 2.6], [px, py + 2.6], { width: "heavy" });
    }
  const label = (text: string, x: number, y: number, turn: 0 | 90 = 0): void =>
    pen.text(text, view.at(x, y), { size: 5.8, align: "middle", turn, mask: true });
  for (const bay of [0, 2, 4]) {
    label(`22K6 @ 5'-4"`, bay * 30 + 9, 49.2);
    label(`22K6 @ 5'-4"`, bay * 30 + 9, 113.3);
    label(`22K6 @ 5'-4"`, bay * 30 + 9, 17.2);
  }
  label(`20K4 @ 5'-4"`, 15, 145.2);
  label(`20K4 @ 5'-4"`, 133, 150.5);
  label(`18K4 @ 5'-4"`, 195, 17.2);
  label(`W16X31 @ 5'-4"`, 195, 70.2);
  label(`22K7 @ 5'-4"`, 220, 149.2);
  for (const x of [30, 90, 150]) {
    label("W21X44 (SLOPES)", x - 1, 20, 90);
    label("W21X44 (SLOPES)", x - 1, 112, 90);
  }
  label("HSS 6X4 @ 7'-6\"", 90, -12.4);
}

function tags(view: PlanView): void {
  const tag = (x: number, y: number, what: string, value: string, side: "left" | "right" = "right"): void =>
    elevationTag(view.pen, view.at(x, y), what, value, side);
  for (const x of [4, 64, 124]) tag(x, 61, "T.O. STEEL AT RIDGE, GRID C", `T.O.S. 118'-4"`);
  for (const x of [4, 94]) tag(x, 3.4, "T.O. STEEL AT GRID A", `T.O.S. 117'-0"`);
  for (const x of [4, 124]) tag(x, 124.6, "T.O. STEEL AT GRID E", `T.O.S. 118'-4"`);
  for (const x of [30, 90, 150]) tag(x, 98.6, "LOW POINT AT DRAIN", `T.O.S. 117'-4 1/4"`);
  for (const x of [0.6, 60, 120]) tag(x, 93.2, "HIGH POINT OF VALLEY", `T.O.S. 117'-8"`);
  tag(179, 93.2, "HIGH POINT OF VALLEY", `T.O.S. 117'-8"`, "left");
  tag(40, 153.5, "T.O. ROOFING AT DRAIN, SEE 2/A-120", `EL. 114'-6 1/4"`);
  tag(124, 131.4, "T.O. DECK AT GRID E", `EL. 116'-1 1/2"`);
  tag(124, 156.6, "T.O. DECK AT GRID F", `EL. 115'-9 1/2"`);
  tag(183, 29, "B.O. DECK AT GRID 7", `B.O. DECK +14'-6" A.F.F.`);
  tag(237, 36.4, "B.O. DECK AT GRID 9", `B.O. DECK +13'-3" A.F.F.`, "left");
  tag(183, 90.4, "T.O. SLAB, TRAINING ROOM", `EL. 112'-5"`);
  tag(213, 90.4, "T.O. SLAB, MEZZANINE", `EL. 112'-5"`);
  tag(198, 66.8, "ROOF OVER MEZZANINE LEVEL, FLAT", `T.O.S. 124'-0"`);
  tag(184, 101, "T.O. DECK, LEVEL", `EL. 116'-3"`);
  tag(184, 153, "T.O. DECK, LEVEL", `EL. 116'-3"`);
  tag(78, -4.5, "B.O. DECK, CANOPY", `B.O. DECK +11'-0" A.F.F.`);
  const { pen } = view;
  const fall = (x: number, y0: number, y1: number, text: string): void => {
    const [tail, tip] = [view.at(x, y0), view.at(x, y1)];
    pen.line(tail, tip, { width: "medium" });
    arrowHead(pen, tip, tail, 8);
    pen.text(text, [tip[0] - 3.5, (tail[1] + tip[1]) / 2], { size: 6.5, align: "middle", turn: 90, mask: true });
  };
  for (const x of [24, 84, 144]) fall(x, 55, 42, `1/4":12"`);
  for (const x of [46, 106, 166]) {
    fall(x, 78, 88, `1/4":12"`);
    fall(x, 120, 110, `1/4":12"`);
  }
  fall(172, 138, 150, `1/8":12"`);
  const [tail, tip] = [view.at(205, 44), view.at(222, 44)];
  pen.line(tail, tip, { width: "medium" });
  arrowHead(pen, tip, tail, 8);
  pen.text(`1/4":12"`, [(tail[0] + tip[0]) / 2, tip[1] + 3.5], { size: 6.5, align: "middle", mask: true });

  span(pen, view.at(40, 28), `1 1/2" WIDE-RIB STEEL DECK`);
  span(pen, view.at(100, 28), `1 1/2" WIDE-RIB STEEL DECK`);
  span(pen, view.at(158, 28), `1 1/2" WIDE-RIB STEEL DECK`);
  span(pen, view.at(72, 113), `1 1/2" WIDE-RIB STEEL DECK`);
  span(pen, view.at(90, 140), `1 1/2" WIDE-RIB STEEL DECK`);
  span(pen, view.at(146, 142), `1 1/2" WIDE-RIB`);
  span(pen, view.at(212, 24), `1 1/2" WIDE-RIB STEEL DECK`);
  span(pen, view.at(195, 78), `2" COMPOSITE + 3" CONC.`);
  span(pen, view.at(225, 78), `2" COMPOSITE + 3" CONC.`);
  span(pen, view.at(212, 124), `3" DEEP-RIB STEEL DECK`);
  const name = (text: string, under: string, x: number, y: number): void => {
    const [px, py] = view.at(x, y);
    pen.text(text, [px, py], { size: 8.5, bold: true, align: "middle", mask: true });
    pen.text(under, [px, py - 8], { size: 6, align: "middle", mask: true });
  };
  name("SALES ROOF, SOUTH", `FALLS 1/4" PER FOOT TO GRID A`, 66, 33);
  name("SALES ROOF, NORTH", "VALLEY AT GRID D, CRICKETS IN THE STEEL", 118, 108.5);
  name("STOCK ROOM ROOF", "STEEL FLAT, TAPERED INSULATION", 30, 138);
  name("BAKERY ROOF", `FALLS 1/8" PER FOOT`, 135, 144);
  name("PHARMACY ROOF", `FALLS 1/4" PER FOOT TO GRID 9`, 212, 50);
  name("TRAINING ROOM FLOOR", "NOT A ROOF, NOTE 6", 195, 86);
  name("MECH. MEZZANINE", "NOTE 7", 225, 86);
  name("RECEIVING ROOF", "LEVEL", 212, 136);
  name("ENTRANCE CANOPY", `1 1/2" WOOD BOARDS`, 90, -9);
}

/** A deck span mark: the way the flutes run (north), with what the deck is. */
function span(pen: Pen, [x, y]: Paper, text: string): void {
  for (const way of [-1, 1]) {
    pen.line([x, y], [x, y + way * 18], { width: "thin" });
    pen.line([x, y + way * 18], [x + way * 4, y + way * 12], { width: "thin" });
  }
  pen.text(text, [x, y - 2], { size: 5.8, align: "middle", mask: true });
}

function notes(pen: Pen): void {
  const x = 2046;
  const below = numberedNotes(
    pen,
    "FRAMING NOTES",
    [
      [
        `Project datum: LEVEL 1 finished floor is 100'-0".`,
        "T.O.S., T.O. DECK and EL. are above the datum;",
        "A.F.F. is above the finished floor of LEVEL 1.",
      ],
      [
        "Sales roof: deck bears on sloping steel, so T.O.S.",
        "is its lowest surface. The crickets between the",
        "drains of the valley are in the steel: straight",
        "between the points given.",
      ],
      [
        "Stock room: steel and deck are flat. Insulation is",
        "tapered, see A-120. From T.O. roofing at the drain",
        `take off 1/2" membrane and cover board, 4 1/4"`,
        `insulation there, and 1 1/2" deck.`,
      ],
      [`Bakery: T.O. DECK; take off 1 1/2".`, `Receiving: T.O. DECK; take off 3".`],
      ["Pharmacy and canopy: bottom of deck is given."],
      [
        `Training room: composite deck 2" with 3" concrete,`,
        "an occupied room above. It is not a roof. From",
        `T.O. SLAB take off 3" and 2".`,
      ],
      [
        "Mechanical mezzanine: the same deck, with",
        "equipment above it only. Whether it counts as a",
        "roof is with the authority: not settled.",
      ],
      ["Flutes run north, across the joists."],
      [
        "Openings: skylights over the sales floor, hatch",
        "over the stock room, shaft over the ovens; frames",
        "of angle on all four sides.",
      ],
    ],
    [x, 1640],
  );
  let row = below - 16;
  pen.text("KEY", [x, row], { size: 10, bold: true });
  pen.line([x, row - 4], [x + pen.widthOf("KEY", 10, true), row - 4], { width: "medium" });
  const item = (draw: (y: number) => void, text: string): void => {
    row -= 22;
    draw(row + 3);
    pen.text(text, [x + 54, row], { size: 7.5 });
  };
  row -= 4;
  item((y) => pen.line([x, y], [x + 42, y], { width: "border", grey: 0.2 }), "GIRDER");
  item((y) => pen.line([x, y], [x + 42, y], { width: "thin" }), "JOIST OR BEAM");
  item((y) => pen.line([x, y], [x + 42, y], { width: "medium", dash: [12, 3, 2, 3] }), "RIDGE");
  item((y) => pen.line([x, y], [x + 42, y], { width: "medium", dash: [4, 3] }), "VALLEY");
  item((y) => pen.line([x, y], [x + 42, y], { width: "medium", dash: [9, 4] }), "ROOF ABOVE MEZZANINE LEVEL");
  item((y) => {
    pen.rect([x, y - 6], 42, 12, { width: "thin" });
    hatch(pen, [x, y - 6], [x + 42, y + 6], 6, 0.5);
  }, "FLOOR DECK, NOT A ROOF");
  item((y) => {
    pen.rect([x + 14, y - 7], 14, 14, { width: "medium" });
    pen.line([x + 14, y - 7], [x + 28, y + 7], { width: "hair" });
    pen.line([x + 14, y + 7], [x + 28, y - 7], { width: "hair" });
  }, "OPENING IN DECK");
  row -= 6;
  item((y) => elevationTag(pen, [x + 8, y], "WHAT IS GIVEN", `EL. 0'-0"`), "        ELEVATION");
}
