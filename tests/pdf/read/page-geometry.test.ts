import { getDocument } from "pdfjs-dist/legacy/build/pdf.mjs";
import { beforeAll, describe, expect, test } from "vitest";
import { applyTo } from "../../../src/geometry/similarity.ts";
import { applyMatrix } from "../../../src/pdf/read/matrix.ts";
import {
  displaySize,
  displayTransform,
  type PageGeometry,
  pageAsShown,
  pageRotation,
  sheetTransform,
  uprightAngle,
} from "../../../src/pdf/read/page-geometry.ts";
import { blankPagePdf } from "./tiny-pdf.ts";

const BOXES = [
  [0, 0, 612, 792],
  [36, -18, 500, 700],
  [-100.5, 20.25, 300, 220],
] as const;
const ROTATIONS = [0, 90, 180, 270] as const;
const USER_UNITS = [1, 2.5, 1 / 3] as const;

const CASES: PageGeometry[] = BOXES.flatMap((view) =>
  ROTATIONS.flatMap((rotate) => USER_UNITS.map((userUnit) => ({ page: 1, view, rotate, userUnit }))),
);

interface Viewport {
  transform: number[];
  width: number;
  height: number;
}

// Oracle: the viewport pdfjs-dist computes for a real one-page file with the same boxes.
describe.each(CASES)("page $view rotate $rotate user unit $userUnit", (geometry) => {
  const seen = new Map<number, Viewport>();
  let read: { view: number[]; rotate: number; userUnit: number };

  beforeAll(async () => {
    const task = getDocument({ data: blankPagePdf(geometry), verbosity: 0 });
    const page = await (await task.promise).getPage(1);
    read = { view: page.view, rotate: page.rotate, userUnit: page.userUnit };
    for (const scale of [1, 0.37, 8]) seen.set(scale, page.getViewport({ scale }) as Viewport);
    await task.destroy();
  });

  test("the file carries what the case says", () => {
    expect(read.rotate).toBe(geometry.rotate);
    expect(read.userUnit).toBeCloseTo(geometry.userUnit, 6);
    read.view.forEach((v, i) => {
      expect(v).toBeCloseTo(geometry.view[i]!, 6);
    });
  });

  test("transform and size agree with the viewport of pdf.js", () => {
    for (const [scale, viewport] of seen) {
      const ours = displayTransform(geometry, scale);
      viewport.transform.forEach((v, i) => {
        expect(ours[i]).toBeCloseTo(v, 3);
      });
      expect(displaySize(geometry).width * scale).toBeCloseTo(viewport.width, 3);
      expect(displaySize(geometry).height * scale).toBeCloseTo(viewport.height, 3);
    }
  });

  test("there and back", () => {
    const p = [123.456, -7.5] as const;
    const back = applyMatrix(sheetTransform(geometry, 3), applyMatrix(displayTransform(geometry, 3), p));
    expect(back[0]).toBeCloseTo(p[0], 9);
    expect(back[1]).toBeCloseTo(p[1], 9);
  });

  test("upright text runs to the right on the displayed page", () => {
    const angle = uprightAngle(geometry);
    const m = displayTransform(geometry);
    const from = applyMatrix(m, [50, 60]);
    const to = applyMatrix(m, [50 + Math.cos(angle), 60 + Math.sin(angle)]);
    expect(to[0] - from[0]).toBeCloseTo(geometry.userUnit, 9);
    expect(to[1] - from[1]).toBeCloseTo(0, 9);
  });

  test("paper inches run right and up as displayed, from the lower left corner", () => {
    const shown = pageAsShown(geometry);
    const size = displaySize(geometry);
    for (const p of [
      [geometry.view[0], geometry.view[1]],
      [geometry.view[2], geometry.view[3]],
      [10, 400],
    ] as const) {
      const [px, py] = applyMatrix(displayTransform(geometry), p);
      const [x, y] = applyTo(shown, p);
      expect(x).toBeCloseTo(px / 72, 9);
      expect(y).toBeCloseTo((size.height - py) / 72, 9);
    }
  });
});

test("any multiple of 90 degrees is taken, the rest goes to the nearest", () => {
  expect([-90, 450, 720, 0, 89, -180, 271].map(pageRotation)).toEqual([270, 90, 0, 0, 90, 180, 270]);
});
