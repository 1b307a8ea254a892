import { describe, expect, test } from "vitest";
import { visibleRegion } from "../../src/canvas/drawing-layer.ts";
import { fitView, keptInSight, onDevicePixels, sheetToScreen, viewOf, zoomed } from "../../src/canvas/view-state.ts";
import { applyMatrix, invert } from "../../src/pdf/read/matrix.ts";
import { displaySize, type PageGeometry } from "../../src/pdf/read/page-geometry.ts";

const size = { width: 800, height: 600 };
const pages: PageGeometry[] = ([0, 90, 180, 270] as const).map((rotate) => ({
  page: 1,
  view: [100, -50, 2260, 2974],
  rotate,
  userUnit: 2,
}));

describe.each(pages)("a page turned by $rotate degrees", (page) => {
  test("fitted, its corners lie in the view and its middle in the middle", () => {
    const m = sheetToScreen(page, fitView(page, size));
    const [x0, y0, x1, y1] = page.view;
    for (const corner of [
      [x0, y0],
      [x1, y1],
      [x0, y1],
      [x1, y0],
    ] as const) {
      const [x, y] = applyMatrix(m, corner);
      expect(x).toBeGreaterThan(0);
      expect(x).toBeLessThan(size.width);
      expect(y).toBeGreaterThan(0);
      expect(y).toBeLessThan(size.height);
    }
    const middle = applyMatrix(m, [(x0 + x1) / 2, (y0 + y1) / 2]);
    expect(middle[0]).toBeCloseTo(400, 9);
    expect(middle[1]).toBeCloseTo(300, 9);
  });

  test("fitted beside what covers the view, it lies in the rest", () => {
    const m = sheetToScreen(page, fitView(page, size, { right: 300, bottom: 100, left: 50 }));
    const [x0, y0, x1, y1] = page.view;
    const corners = (
      [
        [x0, y0],
        [x1, y1],
      ] as const
    ).map((p) => applyMatrix(m, p));
    expect(Math.min(...corners.map((p) => p[0]))).toBeGreaterThanOrEqual(70);
    expect(Math.max(...corners.map((p) => p[0]))).toBeLessThanOrEqual(480);
    expect(Math.max(...corners.map((p) => p[1]))).toBeLessThanOrEqual(480);
    expect((corners[0]![0] + corners[1]![0]) / 2).toBeCloseTo(275, 6);
  });

  test("zooming keeps the sheet under the pointer", () => {
    const before = fitView(page, size);
    const about = [333, 222] as const;
    const under = applyMatrix(invert(sheetToScreen(page, before)), about);
    for (const factor of [1.5, 20, 0.9]) {
      const after = zoomed(before, factor, about, page, size);
      const [x, y] = applyMatrix(sheetToScreen(page, after), under);
      expect(x).toBeCloseTo(333, 6);
      expect(y).toBeCloseTo(222, 6);
    }
  });

  test("a rectangle of the sheet fills the view without being cut", () => {
    const rect = { x0: 500, y0: 700, x1: 700, y1: 760 };
    const m = sheetToScreen(page, viewOf(page, rect, size));
    const a = applyMatrix(m, [rect.x0, rect.y0]);
    const b = applyMatrix(m, [rect.x1, rect.y1]);
    const [wide, high] = [Math.abs(a[0] - b[0]), Math.abs(a[1] - b[1])];
    expect((a[0] + b[0]) / 2).toBeCloseTo(400, 6);
    expect((a[1] + b[1]) / 2).toBeCloseTo(300, 6);
    expect(wide).toBeLessThanOrEqual(720 + 1e-6);
    expect(high).toBeLessThanOrEqual(520 + 1e-6);
    expect(Math.max(wide / 720, high / 520)).toBeCloseTo(1, 6);
  });

  test("however far it is pushed, some of it stays in sight", () => {
    for (const origin of [
      [1e6, 0],
      [-1e6, 1e6],
      [0, -1e6],
    ] as const) {
      const state = keptInSight({ scale: 0.5, origin }, page, size);
      const region = visibleRegion(page, state, size, 1, 0);
      expect(Math.min(region!.width, region!.height)).toBeGreaterThanOrEqual(60);
    }
  });
});

const page = pages[0]!;

test("zooming has limits at both ends", () => {
  const fit = fitView(page, size);
  expect(zoomed(fit, 1e9, [0, 0], page, size).scale).toBe(64);
  expect(zoomed(fit, 1e-9, [0, 0], page, size).scale).toBeCloseTo(fit.scale / 5, 12);
});

test("onto whole device pixels", () => {
  expect(onDevicePixels({ scale: 2, origin: [10.3, -0.26] }, 2).origin).toEqual([10.5, -0.5]);
});

describe("the part of the page in view", () => {
  const { width, height } = displaySize(page);
  test("whole device pixels, cut to the page", () => {
    const state = { scale: 0.1, origin: [100.4, 50] as const };
    expect(visibleRegion(page, state, { width: 4000, height: 4000 }, 2, 0)).toEqual({
      x: 0,
      y: 0,
      width: Math.ceil(width * 0.2),
      height: Math.ceil(height * 0.2),
    });
  });
  test("zoomed in, the view and its margin", () => {
    const state = { scale: 1, origin: [-1000, -1000] as const };
    expect(visibleRegion(page, state, size, 1, 0)).toEqual({ x: 1000, y: 1000, width: 800, height: 600 });
    expect(visibleRegion(page, state, size, 1, 0.25)).toEqual({ x: 800, y: 850, width: 1200, height: 900 });
  });
  test("nothing, when the page is elsewhere", () => {
    expect(visibleRegion(page, { scale: 0.1, origin: [900, 0] }, size, 1, 0)).toBeUndefined();
  });
});
