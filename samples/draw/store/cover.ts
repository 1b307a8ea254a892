import { numberedNotes, titleStrip } from "../drafting.ts";
import type { DrawnPage } from "../pdf-file.ts";
import { type Metrics, type Paper, Pen } from "../pen.ts";
import { FOOT } from "../plan-place.ts";
import { OUTLINES, PAPER } from "./building.ts";
import { SHEETS } from "./store-job.ts";
import { LAYERS, STORE } from "./store-project.ts";
import { runLength, type StoreWiring } from "./wiring.ts";

/** G-001: the cover, with the index of sheets, notes, abbreviations and the schedules that the plans refer to. */
export function coverSheet(metrics: Metrics, wiring: StoreWiring): DrawnPage {
  const { width, height } = PAPER;
  const pen = new Pen(metrics, LAYERS, [1, 0, 0, 1, 0, 0]);
  pen.on("TITLE", () => {
    titleStrip(
      pen,
      width,
      height,
      { number: "G-001", name: "COVER, INDEX|AND GENERAL|NOTES", scale: "NO SCALE" },
      STORE,
    );
    STORE.mark(pen, [240, 1540]);
    pen.text("FENNICK LANE STORE", [310, 1540], { size: 46, bold: true });
    pen.text("A GROCER WITH PHARMACY AND BAKERY, ONE STOREY AND A MEZZANINE", [312, 1512], { size: 15 });
    pen.text("INVENTED BUILDING, INVENTED NAMES. NOT FOR CONSTRUCTION.", [312, 1490], { size: 11 });
    pen.line([110, 1460], [2330, 1460], { width: "heavy" });
  });
  pen.on("NOTES", () => {
    table(
      pen,
      [110, 1420],
      "INDEX OF SHEETS",
      ["SHEET", "TITLE"],
      [90, 330],
      SHEETS.map(({ number, title }) => [number, title.toUpperCase()]),
    );
    const area = (x: number): number => x / FOOT / FOOT;
    const floor = area(2880 * 1920).toLocaleString("en");
    table(
      pen,
      [110, 1190],
      "THE BUILDING",
      ["WHAT", "VALUE"],
      [200, 220],
      [
        ["Level 1, floor area", `${floor} sq ft`],
        ["Level 1, finished floor", `EL. 100'-0"`],
        ["Mezzanine level, finished floor", `EL. 112'-5"`],
        ["Highest steel", `T.O.S. 124'-0"`],
        ["Electrical rules", "2026 edition, 300.6(E)"],
        ["Adopted by", "the invented town of Ellowmere"],
      ],
    );
    entries(pen, wiring);
    sizes(pen, wiring);
    numberedNotes(
      pen,
      "GENERAL NOTES",
      [
        ["This set was drawn to try a program on. Nothing in it is for construction."],
        [
          "Elevations: EL., T.O.S., T.O. DECK, T.O. SLAB and T.O. ROOFING are above the project datum.",
          "A.F.F. is above the finished floor of LEVEL 1, which is 100'-0\" above the datum.",
        ],
        [
          'Keep wiring not less than 1 1/2" below the lowest surface of the roof deck (2026 edition, 300.6(E)),',
          "unless it is one of the methods excepted there.",
        ],
        ["Nobody drills a roof on the word of a drawing alone."],
        [
          "Advice from a drawing is not an inspection. Verify on site and against the adopted code with its local",
          "amendments. The authority having jurisdiction decides. Design and installation belong to licensed people.",
        ],
        ["De-energise, lock out and verify before work near existing wiring."],
      ],
      [620, 1408],
    );
    abbreviations(pen, [1240, 1408]);
  });
  pen.on("DETAILS", () => buildingFromAbove(pen, [900, 340]));
  return { width, height, rotate: 0, content: pen.content, label: "G-001", plans: [] };
}

/** A ruled table; returns the level below it. */
function table(
  pen: Pen,
  [x, y]: Paper,
  heading: string,
  columns: readonly string[],
  widths: readonly number[],
  rows: readonly (readonly string[])[],
): number {
  const row = 20;
  const wide = widths.reduce((a, b) => a + b, 0);
  const left = widths.map((_, i) => x + widths.slice(0, i).reduce((a, b) => a + b, 0));
  pen.text(heading, [x, y], { size: 11, bold: true });
  let top = y - 8;
  pen.rect([x, top - row], wide, row, { width: "medium", fill: 0.92 });
  columns.forEach((text, i) => {
    pen.text(text, [left[i]! + 5, top - 13.5], { size: 8, bold: true });
  });
  top -= row;
  for (const cells of rows) {
    pen.rect([x, top - row], wide, row, { width: "thin" });
    cells.forEach((text, i) => {
      pen.text(text, [left[i]! + 5, top - 13.5], { size: 9 });
    });
    top -= row;
  }
  for (const at of left.slice(1)) pen.line([at, y - 8], [at, top], { width: "thin" });
  return top;
}

function entries(pen: Pen, wiring: StoreWiring): void {
  const how = (protection: StoreWiring["entries"][number]["protection"]): string => {
    if (protection.is === "none") return "NONE";
    if (protection.is === "not-recorded") return "NOT SCHEDULED";
    const words: Record<string, string> = {
      "insulating-fitting": "INSULATING BUSHING",
      "listed-metal-fitting": "LISTED METAL FITTING, ROUNDED",
      "integral-hub": "THREADED HUB OF THE ENCLOSURE",
    };
    return `${words[protection.method]!}${protection.ratingC === null ? "" : `, ${protection.ratingC} C`}`;
  };
  table(
    pen,
    [620, 1190],
    "SCHEDULE OF ENTRIES",
    ["ENTRY", "RUN", "INTO", "LARGEST CONDUCTOR", "PROTECTION", "LOCKNUT"],
    [50, 60, 60, 140, 210, 70],
    wiring.entries.map(({ label, run, panel, conductor, insulation, protection, fastened }) => [
      label,
      run,
      panel,
      `${conductor} AWG ${insulation}`,
      how(protection),
      fastened === null ? "-" : fastened ? "YES" : "NO",
    ]),
  );
}

/** How much of each raceway the set shows. */
function sizes(pen: Pen, wiring: StoreWiring): void {
  const lengths = new Map<string, { runs: number; feet: number }>();
  for (const run of wiring.runs) {
    const name = `${run.wiring.type.toUpperCase()} ${run.wiring.size.replace("-", " ")}`;
    const sum = lengths.get(name) ?? { runs: 0, feet: 0 };
    lengths.set(name, { runs: sum.runs + 1, feet: sum.feet + runLength(run) });
  }
  table(
    pen,
    [110, 990],
    "RACEWAYS AND CABLES SHOWN",
    ["TYPE AND SIZE", "RUNS", "FEET IN PLAN"],
    [200, 100, 120],
    [...lengths]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([name, { runs, feet }]) => [name, `${runs}`, `${Math.round(feet)}`]),
  );
}

function abbreviations(pen: Pen, [x, y]: Paper): void {
  const rows: readonly [string, string][] = [
    ["A.F.F., AFF", "ABOVE FINISHED FLOOR"],
    ["B.O.", "BOTTOM OF"],
    ["B.O.C.", "BOTTOM OF CONDUIT"],
    ["C", "CONDUIT: ELECTRICAL METALLIC TUBING"],
    ["C.L.", "CENTRE LINE"],
    ["EL.", "ELEVATION"],
    ["FMC", "FLEXIBLE METAL CONDUIT"],
    ["IMC, RMC", "INTERMEDIATE, RIGID METAL CONDUIT"],
    ["LFMC", "LIQUIDTIGHT FLEXIBLE METAL CONDUIT"],
    ["MC", "METAL-CLAD CABLE"],
    ["MEZZ.", "MEZZANINE LEVEL"],
    ["RD", "ROOF DRAIN"],
    ["T.O.", "TOP OF"],
    ["T.O.C.", "TOP OF CONDUIT"],
    ["T.O.S.", "TOP OF STEEL"],
  ];
  pen.text("ABBREVIATIONS", [x, y], { size: 10, bold: true });
  pen.line([x, y - 4], [x + pen.widthOf("ABBREVIATIONS", 10, true), y - 4], { width: "medium" });
  rows.forEach(([short, full], i) => {
    pen.text(short, [x, y - 22 - i * 13], { size: 7.5, bold: true });
    pen.text(full, [x + 74, y - 22 - i * 13], { size: 7.5 });
  });
}

/** The decks seen from the south west, to no scale: each outline raised by its height. */
function buildingFromAbove(pen: Pen, [x, y]: Paper): void {
  const heights: Readonly<Record<keyof typeof OUTLINES, number>> = {
    receiving: 16,
    bakery: 15.8,
    stock: 14,
    "sales-north": 18.2,
    "sales-south": 17.6,
    training: 12.4,
    mezzanine: 12.4,
    penthouse: 24,
    pharmacy: 14,
    canopy: 11,
  };
  const s = 4.2;
  const at = ([px, py]: readonly [number, number], z: number): Paper => {
    const [fx, fy] = [px / FOOT, py / FOOT];
    return [x + (fx + fy * 0.55) * s, y + (fy * 0.42 - fx * 0.06 + z * 2.2) * s];
  };
  for (const [name, z] of Object.entries(heights) as [keyof typeof OUTLINES, number][]) {
    const ring = OUTLINES[name];
    ring.forEach((a, i) => {
      const b = ring[(i + 1) % ring.length]!;
      if (i === 0 || i === 3)
        pen.path([at(a, 0), at(b, 0), at(b, z), at(a, z)], { width: "hair", close: true, fill: i === 0 ? 0.93 : 0.86 });
    });
    pen.path(
      ring.map((corner) => at(corner, z)),
      { width: "medium", close: true, fill: name === "mezzanine" || name === "training" ? 0.8 : 0.98 },
    );
  }
  pen.text("THE ROOFS FROM THE SOUTH WEST", [x, y - 60], { size: 10, bold: true });
  pen.text("HEIGHTS DRAWN LARGER. NOT TO SCALE.", [x, y - 73], { size: 7 });
}
