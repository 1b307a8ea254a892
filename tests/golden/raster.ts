import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Browser, Page } from "playwright-core";
import { expect } from "vitest";
import type { Picture } from "../../src/geometry/picture.ts";
import { textCorners } from "../../src/issue/text-width.ts";
import { launchChromium } from "../browser/chromium.ts";
import { pictureSvg } from "./golden.ts";

const folder = fileURLToPath(new URL(".", import.meta.url));

/**
 * A pixel differs where one of its channels is off by more than this, of 255; and a picture, where more pixels differ than this part of those
 * that are not white in it. Two Chromiums thirteen versions apart draw paths alike to the pixel, and letters not: what words say and where
 * they stand is held by the pictures kept as SVG, and here their places are left out.
 */
const PIXEL = 24;
const PART = 0.002;
/** About words, their units: letters reach a little beyond their box. */
const ABOUT_WORDS = 3;

/** The part of a picture to be drawn (lower left x and y, upper right x and y), and pixels a unit of it. */
interface Shot {
  readonly box: readonly [number, number, number, number];
  readonly scale: number;
  readonly grey?: true;
}

/** Draws pictures as pixels, in the browser of the tests with the program's own letters. */
export class Rasterizer {
  readonly #browser: Browser;
  readonly #page: Page;

  private constructor(browser: Browser, page: Page) {
    this.#browser = browser;
    this.#page = page;
  }

  static async start(): Promise<Rasterizer> {
    const browser = await launchChromium();
    return new Rasterizer(browser, await browser.newPage());
  }

  close = (): Promise<void> => this.#browser.close();

  /** The picture as PNG, on white. */
  async draw(picture: Picture, { box, scale, grey }: Shot): Promise<Buffer> {
    const [width, height] = [Math.ceil((box[2] - box[0]) * scale), Math.ceil((box[3] - box[1]) * scale)];
    const svg = pictureSvg(picture, box).replace("<svg ", `<svg width="${width}" height="${height}" `);
    const filter = grey ? "svg { filter: grayscale(1) }" : "";
    await this.#page.setViewportSize({ width, height });
    await this.#page.setContent(
      `<style>${faces()} body { margin: 0; background: #fff } svg { display: block } ${filter}</style>${svg}`,
    );
    await this.#page.evaluate(() => document.fonts.ready.then(() => undefined));
    return this.#page.screenshot();
  }

  /** How many pixels of two pictures differ by more than `least`, of those that are that far from white in either; undefined where they are not of one size. */
  async difference(
    one: Buffer,
    other: Buffer,
    { least = PIXEL, words = [] }: { readonly least?: number; readonly words?: readonly Words[] } = {},
  ): Promise<{ differ: number; inked: number } | undefined> {
    const urls = [one, other].map((png) => `data:image/png;base64,${png.toString("base64")}`);
    return this.#page.evaluate(
      async ({ urls, least, words }) => {
        const [a, b] = await Promise.all(
          urls.map(async (url) => {
            const image = new Image();
            image.src = url;
            await image.decode();
            const canvas = new OffscreenCanvas(image.width, image.height);
            const context = canvas.getContext("2d")!;
            context.drawImage(image, 0, 0);
            context.fillStyle = "#fff";
            for (const [x, y, w, h] of words) context.fillRect(x, y, w, h);
            return context.getImageData(0, 0, image.width, image.height);
          }),
        );
        if (a!.width !== b!.width || a!.height !== b!.height) return undefined;
        let differ = 0;
        let inked = 0;
        for (let i = 0; i < a!.data.length; i += 4) {
          let most = 0;
          let ink = 0;
          for (let k = i; k < i + 3; k++) {
            most = Math.max(most, Math.abs(a!.data[k]! - b!.data[k]!));
            ink = Math.max(ink, 255 - a!.data[k]!, 255 - b!.data[k]!);
          }
          if (most > least) differ++;
          if (ink > least) inked++;
        }
        return { differ, inked };
      },
      { urls, least, words },
    );
  }

  /** Compares a picture with the PNG of that name in this folder; a changed one is written beside the old as NAME.changed.png. */
  async expectGolden(name: string, picture: Picture, shot: Shot): Promise<void> {
    const old = `${folder}${name}.png`;
    const changed = `${folder}${name}.changed.png`;
    const drawn = await this.draw(picture, shot);
    if (process.env.GOLDEN === "write") writeFileSync(old, drawn);
    const off = existsSync(old)
      ? await this.difference(readFileSync(old), drawn, { words: wordsIn(picture, shot) })
      : undefined;
    const same = off !== undefined && off.differ <= PART * off.inked;
    if (same) rmSync(changed, { force: true });
    else writeFileSync(changed, drawn);
    const much = off ? `${off.differ} of ${off.inked} inked pixels differ` : "it is of another size, or not there";
    expect(same, `${old} is not as it was: ${much}; the new one is ${changed}`).toBe(true);
  }
}

/** A rectangle of pixels: left, top, width, height. */
type Words = readonly [number, number, number, number];

/** Where words stand in the pixels of a picture. */
const wordsIn = (picture: Picture, { box, scale }: Shot): Words[] =>
  picture.flatMap((item) => {
    if (item.type !== "text") return [];
    const corners = textCorners(item);
    const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
    const pixels = (units: number) => Math.round(units * scale);
    return [
      [
        pixels(Math.min(...xs) - ABOUT_WORDS - box[0]),
        pixels(box[3] - Math.max(...ys) - ABOUT_WORDS),
        pixels(Math.max(...xs) - Math.min(...xs) + 2 * ABOUT_WORDS),
        pixels(Math.max(...ys) - Math.min(...ys) + 2 * ABOUT_WORDS),
      ],
    ];
  });

/** The program's letters as the pictures name them. */
function faces(): string {
  const face = (file: string, more: string) => {
    const path = fileURLToPath(new URL(`../../node_modules/roboto-fontface/fonts/${file}.woff2`, import.meta.url));
    const url = `data:font/woff2;base64,${readFileSync(path).toString("base64")}`;
    return `@font-face { font-family: Roboto; src: url(${url}); ${more} }`;
  };
  return [
    face("roboto/Roboto-Regular", "font-weight: 400; font-stretch: 100%"),
    face("roboto/Roboto-Bold", "font-weight: 700; font-stretch: 100%"),
    face("roboto-condensed/Roboto-Condensed-Regular", "font-weight: 400; font-stretch: 75%"),
  ].join(" ");
}
