import type { Page } from "playwright-core";

/** A rectangle of the window, CSS pixels. */
export interface Clip {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** How dark each pixel of a part of the window is as it is shown, row by row: 0 is white, 255 black. */
export async function darknessIn(
  page: Page,
  clip: Clip,
): Promise<{ readonly width: number; readonly dark: readonly number[] }> {
  const picture = (await page.screenshot({ clip })).toString("base64");
  return page.evaluate(async (text) => {
    const bytes = Uint8Array.from(atob(text), (one) => one.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: "image/png" }));
    const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext("2d")!;
    context.drawImage(bitmap, 0, 0);
    const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
    const dark = Array.from({ length: data.length / 4 }, (_, i) =>
      Math.round(255 - (data[4 * i]! + data[4 * i + 1]! + data[4 * i + 2]!) / 3),
    );
    return { width: bitmap.width, dark };
  }, picture);
}

/** The part of the window round a place. */
export const around = ([x, y]: readonly [number, number], half: number): Clip => ({
  x: x - half,
  y: y - half,
  width: 2 * half,
  height: 2 * half,
});
