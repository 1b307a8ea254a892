import type { PageRenderer } from "./page-renderer.ts";

/** A page that may be wanted next. */
export interface LikelyPage {
  readonly handle: number;
  readonly page: number;
}

/** What drawing pages ahead needs from a renderer. */
export type CoarseRenderer = Pick<PageRenderer, "coarse">;

/** Longer side of a picture kept, in pixels. */
const SIDE = 1200;
/** All pictures kept take at most so many bytes, four to a pixel. */
const MOST_KEPT_BYTES = 32 * 2 ** 20;

/**
 * Coarse pictures of pages that are likely to be wanted next, drawn ahead while nobody does anything, so that they are there at
 * once when they are. Those used longest ago go first when there is no more room.
 */
export class LikelyPages {
  readonly #renderer: CoarseRenderer;
  readonly #mostBytes: number;
  readonly #kept = new Map<string, ImageBitmap>();
  #wanted: readonly LikelyPage[] = [];
  #drawing: AbortController | undefined;

  constructor(renderer: CoarseRenderer, mostBytes: number = MOST_KEPT_BYTES) {
    this.#renderer = renderer;
    this.#mostBytes = mostBytes;
  }

  /** The pages that are likely next, the likeliest first. */
  expect(pages: readonly LikelyPage[]): void {
    this.stop();
    this.#wanted = pages;
  }

  /** Draws what is expected and not there, one after another; to be called when nothing else is to be done. */
  async draw(): Promise<void> {
    if (this.#drawing) return;
    const controller = new AbortController();
    this.#drawing = controller;
    try {
      for (const { handle, page } of this.#wanted) {
        if (this.#kept.has(keyOf({ handle, page }))) continue;
        const { bitmap } = await this.#renderer.coarse({ handle, page, side: SIDE }, controller.signal);
        this.#keep(keyOf({ handle, page }), bitmap);
      }
    } catch {
      // A page that cannot be drawn ahead is asked for again when it is wanted, and says then what is wrong with it.
    } finally {
      if (this.#drawing === controller) this.#drawing = undefined;
    }
  }

  /** Gives up what is being drawn: somebody does something. */
  stop(): void {
    this.#drawing?.abort();
    this.#drawing = undefined;
  }

  /** The picture of a page, where there is one; it stays this object's. */
  pictureOf(page: LikelyPage): ImageBitmap | undefined {
    const key = keyOf(page);
    const bitmap = this.#kept.get(key);
    if (!bitmap) return undefined;
    // Taken out and put back: the map's order is then the order of use.
    this.#kept.delete(key);
    this.#kept.set(key, bitmap);
    return bitmap;
  }

  /** What all pictures kept take. */
  get bytes(): number {
    return [...this.#kept.values()].reduce((sum, bitmap) => sum + bytesOf(bitmap), 0);
  }

  destroy(): void {
    this.stop();
    for (const bitmap of this.#kept.values()) bitmap.close();
    this.#kept.clear();
  }

  #keep(key: string, bitmap: ImageBitmap): void {
    this.#kept.get(key)?.close();
    this.#kept.delete(key);
    this.#kept.set(key, bitmap);
    for (const [old, picture] of this.#kept) {
      if (this.bytes <= this.#mostBytes) break;
      picture.close();
      this.#kept.delete(old);
    }
  }
}

const keyOf = ({ handle, page }: LikelyPage): string => `${handle} ${page}`;
const bytesOf = ({ width, height }: ImageBitmap): number => 4 * width * height;
