import { PDFDocument, type PDFFont, type PDFPage, rgb } from "@cantoo/pdf-lib";
import type { Point2 } from "../../../src/geometry/point.ts";
import { seeded } from "../../geometry/random-scenes.ts";

/** What differs between issues of the invented plan. */
export interface PlanIssue {
  readonly titleBlock?: "right" | "left";
  /** How far the second run lies from its place; null leaves it out. */
  readonly second?: Point2 | null;
  /** The tag beside the first run. */
  readonly tag?: string;
  readonly gridNames?: readonly string[];
  readonly words?: boolean;
  /** Where the tag begins. */
  readonly tagAt?: Point2;
  /** Lines are drawn so many times as wide, in grey: another way to plot the same sheet. */
  readonly plotted?: number;
}

/** The runs of the plan as first issued, sheet space. */
export const FIRST_RUN: readonly Point2[] = [
  [180, 300],
  [420, 300],
  [420, 420],
];
export const SECOND_RUN: readonly Point2[] = [
  [200, 520],
  [560, 520],
];
export const ROOM: readonly Point2[] = [
  [140, 180],
  [660, 180],
  [660, 600],
  [140, 600],
];

/** An invented plan of 1,000 by 720, drawn by another library than the reader's: rooms, a grid, two runs, a tag, a title block. */
export async function planIssue({
  titleBlock = "right",
  second = [0, 0],
  tag = `B.O. CONDUIT EL. 12'-6"`,
  gridNames = ["1", "2", "3", "4"],
  words = true,
  tagAt = [250, 306],
  plotted = 1,
}: PlanIssue = {}): Promise<Uint8Array> {
  const doc = await PDFDocument.create();
  const font = await doc.embedFont("Helvetica");
  const page = doc.addPage([1000, 720]);
  const pen: Pen = { page, font, words, plotted };
  path(pen, [...ROOM, ROOM[0]!], 1.5);
  const random = seeded(7);
  for (let i = 0; i < 40; i++) {
    const [x, y] = [150 + 480 * random(), 190 + 380 * random()];
    const [w, h] = [6 + 24 * random(), 6 + 20 * random()];
    path(
      pen,
      [
        [x, y],
        [x + w, y],
        [x + w, y + h],
        [x, y + h],
        [x, y],
      ],
      0.4,
    );
  }
  [180, 330, 470, 640].forEach((x, i) => {
    path(
      pen,
      [
        [x, 150],
        [x, 640],
      ],
      0.3,
    );
    page.drawCircle({ x, y: 140, size: 10, borderWidth: 0.4, borderColor: rgb(0, 0, 0) });
    text(pen, gridNames[i]!, [x - 3, 136], 10);
  });
  [210, 390, 560].forEach((y, i) => {
    path(
      pen,
      [
        [110, y],
        [690, y],
      ],
      0.3,
    );
    page.drawCircle({ x: 100, y, size: 10, borderWidth: 0.4, borderColor: rgb(0, 0, 0) });
    text(pen, "ABC"[i]!, [97, y - 4], 10);
  });
  path(pen, FIRST_RUN, 1);
  if (second)
    path(
      pen,
      SECOND_RUN.map(([x, y]): Point2 => [x + second[0], y + second[1]]),
      1,
    );
  text(pen, tag, tagAt, 7);
  const left = titleBlock === "right" ? 780 : 10;
  path(
    pen,
    [
      [left, 20],
      [left + 80, 20],
      [left + 80, 700],
      [left, 700],
      [left, 20],
    ],
    1,
  );
  ["NORTHFIELD DEPOT", "ROOF WIRING PLAN", "SHEET E-101", "DRAWN", "CHECKED", "SCALE AS NOTED", "PROJECT 4471"].forEach(
    (line, i) => {
      path(
        pen,
        [
          [left, 60 + 40 * i],
          [left + 80, 60 + 40 * i],
        ],
        0.5,
      );
      text(pen, line, [left + 4, 66 + 40 * i], 6);
    },
  );
  ["OFFICE", "STORE", "DOCK", "PLANT ROOM", "LOBBY", "SEE NOTE 4", "TYPICAL", "OPEN TO ABOVE"].forEach((line, i) => {
    text(pen, line, [160 + 55 * i, 230 + 34 * ((i * 3) % 7)], 6);
  });
  return doc.save();
}

interface Pen {
  readonly page: PDFPage;
  readonly font: PDFFont;
  readonly words: boolean;
  readonly plotted: number;
}

function path({ page, plotted }: Pen, points: readonly Point2[], width: number): void {
  const level = plotted === 1 ? 0 : 0.3;
  const grey = rgb(level, level, level);
  points.slice(1).forEach(([x, y], i) => {
    const [px, py] = points[i]!;
    page.drawLine({ start: { x: px, y: py }, end: { x, y }, thickness: width * plotted, color: grey });
  });
}

function text({ page, font, words }: Pen, line: string, [x, y]: Point2, size: number): void {
  if (words) page.drawText(line, { x, y, size, font });
}
