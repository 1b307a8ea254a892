import { degrees, PDFDocument, PDFHexString, PDFName, type PDFRef } from "@cantoo/pdf-lib";
import { drawPng } from "./draw-png.ts";

/** What a page of the set is, by which a test knows it again. */
export interface SetPage {
  /** 1 for the first page. */
  readonly page: number;
  /** As its title block says it; null where it has no title block. */
  readonly number: string | null;
  readonly name: string | null;
  readonly rotate: 0 | 90 | 180 | 270;
  /** The paper as displayed, 1/72 in. */
  readonly size: readonly [number, number];
  readonly is: "drawing" | "picture" | "mixed" | "no-lines";
  /** Annotations on it. */
  readonly marks: number;
  /** Names of the layers that something on it belongs to. */
  readonly layers: readonly string[];
}

/** Disciplines of an invented set: letter, names of their sheets. */
const SERIES: readonly (readonly [string, readonly string[]])[] = [
  ["G", ["Sheet List and Symbols"]],
  ["C", ["Site Plan", "Grading Plan"]],
  ["A", ["Floor Plan", "Reflected Ceiling Plan", "Roof Plan", "Building Sections"]],
  ["S", ["Foundation Plan", "Roof Framing Plan", "Steel Details"]],
  ["M", ["Ductwork Plan", "Equipment Schedules"]],
  ["P", ["Drainage Plan"]],
  ["E", ["Lighting Plan", "Power Plan", "One-Line Diagram"]],
];
const WINGS = ["North Shed", "South Shed", "Dye House", "Carding Loft", "Weigh Room"];
/** ARCH D, ANSI D, A1, and a size without a name. */
const PAPERS: readonly (readonly [number, number])[] = [
  [2592, 1728],
  [2448, 1584],
  [2384, 1684],
  [2000, 1400],
];
const TURNS = [0, 90, 180, 270] as const;
export const SET_LAYERS = ["Grid", "Lighting", "Notes"] as const;

/** What the pages of the set are: one in sixteen has no title block, one in twenty is a scan, one in twenty-five a drawing over a picture. */
export function largeSetPages(count: number): readonly SetPage[] {
  const numbers = new Map<string, number>();
  return Array.from({ length: count }, (_, i) => {
    const [letter, names] = SERIES[i % SERIES.length]!;
    const serial = (numbers.get(letter) ?? 0) + 1;
    numbers.set(letter, serial);
    const named = i % 16 !== 15;
    const is = i % 20 === 9 ? "picture" : i % 25 === 12 ? "mixed" : "drawing";
    const name = `${names[serial % names.length]}, ${WINGS[i % WINGS.length]}`;
    return {
      page: i + 1,
      number: named ? `${letter}-${100 + serial}` : null,
      name: named ? name.toUpperCase() : null,
      rotate: TURNS[i % 4]!,
      size: PAPERS[(i >> 2) % PAPERS.length]!,
      is,
      marks: i % 7 === 3 ? 2 : 0,
      layers: is === "picture" ? [] : letter === "E" ? [...SET_LAYERS] : letter === "A" ? ["Grid"] : [],
    };
  });
}

/** A large set of an invented building: title blocks of three kinds, pages turned all ways, half of them with a crop box that begins off the origin. */
export async function drawLargeSet(pages: readonly SetPage[]): Promise<Uint8Array> {
  const doc = await PDFDocument.create();
  const { context } = doc;
  const font = await doc.embedFont("Helvetica");
  const scan = await doc.embedPng(drawPng(160, 112, (x, y) => ((x >> 3) + (y >> 3)) % 2 === 0));
  const groups = SET_LAYERS.map((name) =>
    context.register(context.obj({ Type: "OCG", Name: PDFHexString.fromText(name) })),
  );
  doc.catalog.set(PDFName.of("OCProperties"), context.obj({ OCGs: groups, D: { Order: groups, ON: groups } }));
  for (const one of pages) {
    const [across, up] = one.size;
    const [w, h] = one.rotate % 180 === 0 ? [across, up] : [up, across];
    // Every second page lies on a larger medium: what is shown begins at (40, 30).
    const [x0, y0] = one.page % 2 === 0 ? [40, 30] : [0, 0];
    const page = doc.addPage([w + 2 * x0, h + 2 * y0]);
    page.setCropBox(x0, y0, w, h);
    page.setRotation(degrees(one.rotate));
    const layers = Object.fromEntries(
      one.layers.map((name, i) => [`L${i}`, groups[SET_LAYERS.indexOf(name as never)]!]),
    );
    page.node.set(
      PDFName.of("Resources"),
      context.obj({ Font: { F: font.ref }, XObject: { Scan: scan.ref }, Properties: layers }),
    );
    const picture = one.is === "drawing" ? "" : `q ${across} 0 0 ${up} 0 0 cm /Scan Do Q\n`;
    const lines = one.is === "picture" ? "" : drawnLines(one);
    const content = `${upright(one.rotate, w, h, x0, y0)} cm\n${picture}${lines}${titleBlock(one)}`;
    page.node.set(PDFName.of("Contents"), context.register(context.flateStream(content)));
    const marks: PDFRef[] = Array.from({ length: one.marks }, (_, i) =>
      context.register(context.obj({ Type: "Annot", Subtype: "Square", Rect: [60 + 90 * i, 60, 120 + 90 * i, 100] })),
    );
    if (marks.length > 0) page.node.set(PDFName.of("Annots"), context.obj(marks));
  }
  return doc.save();
}

/** Maps what is drawn upright, from the lower left corner of the page as displayed, to a page that is turned when displayed (ISO 32000-2, table 31). */
function upright(rotate: SetPage["rotate"], w: number, h: number, x0: number, y0: number): string {
  const maps = {
    0: [1, 0, 0, 1, x0, y0],
    90: [0, 1, -1, 0, x0 + w, y0],
    180: [-1, 0, 0, -1, x0 + w, y0 + h],
    270: [0, -1, 1, 0, x0, y0 + h],
  } as const;
  return maps[rotate].join(" ");
}

/** Rows of short strokes, part of them on each layer of the page: more than a border and a stamp. */
function drawnLines({ size: [across, up], layers }: SetPage): string {
  const stroke = (i: number) => {
    const [x, y] = [80 + ((i * 37) % (across * 0.6)), 120 + ((i * 53) % (up - 240))];
    return `${x} ${y} m ${x + 20} ${y} l ${x + 20} ${y + 12} l S\n`;
  };
  const all = Array.from({ length: 320 }, (_, i) => stroke(i));
  const parts = layers.map((_, k) => `/OC /L${k} BDC\n${all.filter((_stroke, i) => i % 8 === k).join("")}EMC\n`);
  return `0.5 w\n${parts.join("")}${all.filter((_stroke, i) => i % 8 >= layers.length).join("")}`;
}

/** A title block in the lower right corner: of one kind with its labels, of another with a project above, of a third with the number alone below the name. */
function titleBlock({ page, number, name, size: [across] }: SetPage): string {
  const right = across - 260;
  const notes = Array.from({ length: 12 }, (_, i) =>
    text(`General note ${i + 1} of this sheet, see also the next`, 120, 300 + 14 * i, 7),
  );
  if (number === null || name === null) return notes.join("");
  const lines = name.split(", ").map((line, i, all) => (i < all.length - 1 ? `${line},` : line));
  const named = lines.map((line, i) => text(line, right, 128 - 15 * i, 12)).join("");
  const kinds = [
    text("SHEET TITLE", right, 146, 5) + text("SCALE", right, 92, 5) + text("DATE", right + 120, 92, 5),
    text("WOOLGATE MILL CONVERSION", right, 210, 16),
    "",
  ];
  return `${notes.join("")}${named}${kinds[page % kinds.length]}${text(number, right, 50, 30)}`;
}

/** ISO 32000-2, 9.4: the strings here hold no sign that needs an escape. */
const text = (words: string, x: number, y: number, size: number): string =>
  `BT /F ${size} Tf ${x} ${y} Td (${words}) Tj ET\n`;
