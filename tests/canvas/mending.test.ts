import fc from "fast-check";
import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { type DeviceRect, deviceRect, type MarksView } from "../../src/canvas/marks-view.ts";
import { Mending } from "../../src/canvas/mending.ts";
import type { Stroke } from "../../src/canvas/resting-picture.ts";
import type { SheetRect } from "../../src/canvas/screen-mark.ts";
import { takeMessages } from "../../src/canvas/take-messages.ts";

const view: MarksView = { toScreen: [1, 0, 0, -1, -20, 280], width: 400, height: 250, ratio: 1 };
const [WIDE, HIGH] = [400, 250];

/** Milliseconds that pass from one look at the clock to the next. */
let pace = 0;
beforeEach(() => {
  let now = 0;
  vi.spyOn(performance, "now").mockImplementation(() => {
    now += pace;
    return now;
  });
});
afterEach(() => vi.restoreAllMocks());

/** A picture of which nothing is kept but how often each pixel was asked for and is still to be mended, with so many strokes in each pixel. */
function pictureOf(density: number) {
  const stale = new Uint8Array(WIDE * HIGH);
  const mended: DeviceRect[] = [];
  const counts: number[] = [];
  const each = ({ x, y, width, height }: DeviceRect, what: (pixel: number) => void) => {
    for (let j = y; j < y + height; j++) for (let i = x; i < x + width; i++) what(j * WIDE + i);
  };
  const mending = new Mending(
    {
      drawnFor: view,
      mend(part, strokes) {
        mended.push(part);
        counts.push(strokes.length);
        each(part, (pixel) => {
          stale[pixel] = 0;
        });
      },
    },
    (_, { width, height }) => Array.from({ length: Math.ceil(width * height * density) }, (): Stroke => () => {}),
  );
  return {
    mending,
    mended,
    counts,
    add(places: readonly SheetRect[]) {
      for (const place of places) {
        const part = deviceRect(view, place, 5);
        if (part)
          each(part, (pixel) => {
            stale[pixel] = 1;
          });
      }
      mending.add(places, 5);
    },
    left: () => stale.reduce((sum, one) => sum + one, 0),
  };
}

const rect = (x0: number, y0: number, width: number, height: number): SheetRect => ({
  x0,
  y0,
  x1: x0 + width,
  y1: y0 + height,
});
/** In sheet space the view shows x from 20 to 420 and y from 30 to 280; some lie beyond it. */
const places = fc.array(
  fc
    .tuple(
      fc.integer({ min: -60, max: 460 }),
      fc.integer({ min: -60, max: 320 }),
      fc.nat({ max: 150 }),
      fc.nat({ max: 150 }),
    )
    .map(([x, y, width, height]) => rect(x, y, width, height)),
  { maxLength: 6 },
);
type Step = { readonly kind: "add"; readonly places: SheetRect[] } | { readonly kind: "start" | "pause" | "wait" };
const steps = fc.array(
  fc.oneof(
    places.map((added): Step => ({ kind: "add", places: added })),
    fc.constantFrom("start", "pause", "wait").map((kind): Step => ({ kind })),
  ),
  { maxLength: 12 },
);

describe("mending", () => {
  test("loses nothing of what is asked for, whatever comes between two slices, and stays in the view", async () => {
    await fc.assert(
      fc.asyncProperty(steps, fc.constantFrom(0, 4, 9), fc.constantFrom(0.001, 0.03), async (asked, each, density) => {
        pace = each;
        const picture = pictureOf(density);
        for (const step of asked) {
          if (step.kind === "add") picture.add(step.places);
          else if (step.kind === "wait") await takeMessages();
          else picture.mending[step.kind]();
        }
        picture.mending.start();
        for (let turn = 0; picture.left() > 0 && turn < 500; turn++) await takeMessages();
        expect(picture.left()).toBe(0);
        for (const { x, y, width, height } of picture.mended) {
          expect(Math.min(x, y)).toBeGreaterThanOrEqual(0);
          expect(Math.min(width, height)).toBeGreaterThan(0);
          expect(x + width).toBeLessThanOrEqual(WIDE);
          expect(y + height).toBeLessThanOrEqual(HIGH);
        }
      }),
      { numRuns: 60 },
    );
  });

  test("joins places that overlap, and leaves those apart that do not", () => {
    pace = 0;
    const picture = pictureOf(0.001);
    picture.add([rect(100, 100, 40, 40), rect(300, 200, 10, 10), rect(120, 110, 40, 40)]);
    picture.mending.start();
    expect(picture.mended).toHaveLength(2);
    expect(picture.mended).toContainEqual({ x: 75, y: 125, width: 70, height: 60 });
  });

  test("halves a part with too much in it, each pixel of it mended once", () => {
    pace = 0;
    const picture = pictureOf(0.03);
    picture.add([rect(40, 50, 300, 200)]);
    picture.mending.start();
    expect(picture.mended.length).toBeGreaterThan(1);
    expect(Math.max(...picture.counts)).toBeLessThanOrEqual(250);
    expect(picture.left()).toBe(0);
    expect(picture.mended.reduce((sum, { width, height }) => sum + width * height, 0)).toBe(310 * 210);
  });

  test("does not halve without end where much lies in one spot", () => {
    pace = 0;
    const picture = pictureOf(10);
    picture.add([rect(100, 100, 200, 100)]);
    picture.mending.start();
    expect(picture.left()).toBe(0);
    for (const { width, height } of picture.mended) expect(Math.max(width, height)).toBeGreaterThanOrEqual(48);
  });

  test("does at once what a slice has time for, and leaves the page its turn before the rest", async () => {
    pace = 7;
    const picture = pictureOf(0.03);
    picture.add([rect(40, 50, 300, 200)]);
    picture.mending.start();
    const atOnce = picture.left();
    expect(atOnce).toBeGreaterThan(0);
    for (let turn = 0; picture.left() > 0 && turn < 500; turn++) await takeMessages();
    expect(picture.left()).toBe(0);
  });

  test("does not more in a turn for being started again and again", async () => {
    pace = 7;
    const picture = pictureOf(0.001);
    picture.add(Array.from({ length: 12 }, (_, i) => rect(25 + 30 * i, 50, 4, 4)));
    for (let time = 0; time < 3; time++) picture.mending.start();
    expect(picture.mended).toHaveLength(1);
    await takeMessages();
    await takeMessages();
    expect(picture.mended.length).toBeLessThanOrEqual(3);
    for (let turn = 0; turn < 50; turn++) await takeMessages();
    expect(picture.mended).toHaveLength(12);
  });

  test("rests while the view moves, and goes on where it stopped", async () => {
    pace = 4;
    const picture = pictureOf(0.03);
    picture.add([rect(40, 50, 300, 200)]);
    picture.mending.start();
    await takeMessages();
    picture.mending.pause();
    const left = picture.left();
    expect(left).toBeGreaterThan(0);
    for (let turn = 0; turn < 20; turn++) await takeMessages();
    expect(picture.left()).toBe(left);
    picture.mending.start();
    for (let turn = 0; picture.left() > 0 && turn < 500; turn++) await takeMessages();
    expect(picture.left()).toBe(0);
  });

  test("has nothing left to do when all is as it should be", () => {
    pace = 0;
    const picture = pictureOf(0.001);
    picture.add([rect(100, 100, 40, 40)]);
    picture.mending.clear();
    picture.mending.start();
    expect(picture.mended).toEqual([]);
  });
});
