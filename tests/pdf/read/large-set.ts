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
    const [x0, y0, x1, y1] = viewOf(one);
    const page = doc.addPage([x1 + x0, y1 + y0]);
    page.setCropBox(x0, y0, x1 - x0, y1 - y0);
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
    const content = `${upright(one).join(" ")} cm\n${picture}${lines}${titleBlock(one)}`;
    page.node.set(PDFName.of("Contents"), context.register(context.flateStream(content)));
    const marks: PDFRef[] = Array.from({ length: one.marks }, (_, i) =>
      context.register(context.obj({ Type: "Annot", Subtype: "Square", Rect: [60 + 90 * i, 60, 120 + 90 * i, 100] })),
    );
    if (marks.length > 0) page.node.set(PDFName.of("Annots"), context.obj(marks));
  }
  return doc.save();
}

/** Maps what is drawn upright, from the lower left corner of the page as displayed, to a page that is turned when displayed (ISO 32000-2, table 31). */
function upright({ page, rotate, size: [across, up] }: SetPage): readonly number[] {
  const [w, h] = rotate % 180 === 0 ? [across, up] : [up, across];
  const [x0, y0] = cropOf(page);
  return {
    0: [1, 0, 0, 1, x0, y0],
    90: [0, 1, -1, 0, x0 + w, y0],
    180: [-1, 0, 0, -1, x0 + w, y0 + h],
    270: [0, -1, 1, 0, x0, y0 + h],
  }[rotate];
}

/** Where the crop box begins: every second page lies on a larger medium. */
const cropOf = (page: number): readonly [number, number] => (page % 2 === 0 ? [40, 30] : [0, 0]);

/** A place in sheet space, given from the lower left corner of the page as displayed. */
export function placeOn(page: SetPage, [x, y]: readonly [number, number]): readonly [number, number] {
  const [a, b, c, d, e, f] = upright(page) as [number, number, number, number, number, number];
  return [a * x + c * y + e, b * x + d * y + f];
}

/** The crop box of a page, sheet space. */
export function viewOf({ page, rotate, size: [across, up] }: SetPage): [number, number, number, number] {
  const [w, h] = rotate % 180 === 0 ? [across, up] : [up, across];
  const [x0, y0] = cropOf(page);
  return [x0, y0, x0 + w, y0 + h];
}

/** How many strokes a drawing of the set has. */
export const STROKES = 320;
type Seen = readonly [number, number];

/** The two ends and the corner between them of the stroke of that number, from the lower left corner of the page as displayed; no two are alike, or they would be hatching. */
export const strokeAt = (i: number, [across, up]: SetPage["size"]): readonly [Seen, Seen, Seen] => {
  const [x, y] = [80 + ((i * i * 37 + i * 11) % (across * 0.6)), 120 + ((i * 53) % (up - 240))];
  const corner: Seen = [x + 14 + ((i * 7) % 13), y + ((i * 5) % 11) - 5];
  return [[x, y], corner, [corner[0] - 3, corner[1] + 10 + (i % 7)]];
};

/** Rows of short strokes, part of them on each layer of the page: more than a border and a stamp. */
function drawnLines({ size: [across, up], layers }: SetPage): string {
  const stroke = (i: number) => {
    const [from, corner, to] = strokeAt(i, [across, up]);
    return `${from.join(" ")} m ${corner.join(" ")} l ${to.join(" ")} l S\n`;
  };
  const all = Array.from({ length: STROKES }, (_, i) => stroke(i));
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
