import fc from "fast-check";
import { expect, test } from "vitest";
import { loupePlace } from "../../src/ui/loupe-place.ts";
import { evenly } from "../geometry/evenly.ts";

const LOUPE = { width: 132, height: 160 };

test("a loupe is wholly in the window and clear of the finger, wherever that is", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 320, max: 2000 }),
      fc.integer({ min: 320, max: 2000 }),
      evenly(0, 1),
      evenly(0, 1),
      (width, height, across, down) => {
        const finger = [across * width, down * height] as const;
        const [left, top] = loupePlace(finger, { width, height }, LOUPE);
        expect(left).toBeGreaterThanOrEqual(0);
        expect(top).toBeGreaterThanOrEqual(0);
        expect(left + LOUPE.width).toBeLessThanOrEqual(width);
        expect(top + LOUPE.height).toBeLessThanOrEqual(height);
        const aside = Math.max(left - finger[0], finger[0] - left - LOUPE.width);
        const above = finger[1] - top - LOUPE.height;
        expect(Math.max(aside, above)).toBeGreaterThan(20);
      },
    ),
  );
});

test("it is above the finger where there is room, else on the side with more", () => {
  const window = { width: 400, height: 800 };
  expect(loupePlace([200, 500], window, LOUPE)).toEqual([134, 296]);
  expect(loupePlace([300, 50], window, LOUPE)[0]).toBeLessThan(300 - LOUPE.width);
  expect(loupePlace([100, 50], window, LOUPE)[0]).toBeGreaterThan(100);
});
