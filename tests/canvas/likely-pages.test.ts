import { expect, test } from "vitest";
import { type CoarseRenderer, LikelyPages } from "../../src/canvas/likely-pages.ts";
import type { CoarseRequest } from "../../src/canvas/page-renderer-protocol.ts";

/** A renderer of pictures of 100 by 100 pixels that notes what is asked, answers when told to, and what is closed. */
const standIn = () => {
  const asked: number[] = [];
  const closed: number[] = [];
  const called: number[] = [];
  const renderer: CoarseRenderer = {
    coarse: ({ page }: CoarseRequest, signal?: AbortSignal) => {
      asked.push(page);
      return new Promise((resolve, reject) => {
        signal?.addEventListener("abort", () => {
          called.push(page);
          reject(signal.reason);
        });
        queueMicrotask(() => {
          const bitmap = { width: 100, height: 100, close: () => closed.push(page) } as unknown as ImageBitmap;
          resolve({ bitmap, region: { x: 0, y: 0, width: 100, height: 100 }, approximate: false });
        });
      });
    },
  };
  return { asked, closed, called, renderer };
};
const pages = (...numbers: number[]) => numbers.map((page) => ({ handle: 1, page }));

test("pages expected are drawn once, the likeliest first", async () => {
  const { asked, renderer } = standIn();
  const likely = new LikelyPages(renderer);
  likely.expect(pages(4, 2));
  await likely.draw();
  await likely.draw();
  expect(asked).toEqual([4, 2]);
  expect(likely.pictureOf({ handle: 1, page: 2 })).toBeDefined();
  expect(likely.pictureOf({ handle: 2, page: 2 })).toBeUndefined();
});

test("pictures take no more bytes than allowed; those used longest ago go and are let go of", async () => {
  const { closed, renderer } = standIn();
  const likely = new LikelyPages(renderer, 3 * 40_000);
  likely.expect(pages(1, 2, 3));
  await likely.draw();
  expect(likely.bytes).toBe(120_000);
  likely.pictureOf({ handle: 1, page: 1 });
  likely.expect(pages(4));
  await likely.draw();
  expect(likely.bytes).toBe(120_000);
  expect(closed).toEqual([2]);
  likely.destroy();
  expect([...closed].sort()).toEqual([1, 2, 3, 4]);
  expect(likely.bytes).toBe(0);
});

test("what is being drawn ahead is called off, and taken up again later", async () => {
  const { asked, called, renderer } = standIn();
  const likely = new LikelyPages(renderer);
  likely.expect(pages(1, 2));
  const drawing = likely.draw();
  likely.stop();
  await drawing;
  expect(called).toEqual([1]);
  expect(asked).toEqual([1]);
  await likely.draw();
  expect(asked).toEqual([1, 1, 2]);
});
