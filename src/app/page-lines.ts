import type { PageRenderer } from "../canvas/page-renderer.ts";
import { bytesOf } from "../pdf/read/linework.ts";
import type { PageLines, Progress } from "../ui/host.ts";

/** Linework kept, bytes: that of the pages used last, however many those are; the page in hand is kept whatever it takes. */
const KEPT_BYTES = 256 * 1024 * 1024;
/** Reading that takes longer is shown, milliseconds. */
const A_WHILE = 250;

interface Reading {
  readonly stop: AbortController;
  readonly lines: Promise<PageLines | null>;
  bytes: number;
}

/** The linework of the pages, each read once in the drawing worker and kept as long as there is room. */
export class PageLinesKept {
  readonly #renderer: PageRenderer;
  readonly #told: (progress: Progress | null) => void;
  /** By drawing and page, in the order of use. */
  readonly #read = new Map<string, Reading>();
  readonly #running = new Set<Reading>();

  constructor(renderer: PageRenderer, told: (progress: Progress | null) => void) {
    this.#renderer = renderer;
    this.#told = told;
  }

  /** The linework of a page of an open drawing; null where reading it was stopped, and rejects where it cannot be read. Asked again, it is tried again. */
  of(handle: number, page: number): Promise<PageLines | null> {
    const key = `${handle}/${page}`;
    const known = this.#read.get(key);
    const reading = known ?? this.#begin(key, handle, page);
    // Taken out and put back: the map's order is then the order of use.
    this.#read.delete(key);
    this.#read.set(key, reading);
    return reading.lines;
  }

  /** Stops whatever is being read. */
  stop(): void {
    for (const { stop } of this.#running) stop.abort();
  }

  #begin(key: string, handle: number, page: number): Reading {
    const stop = new AbortController();
    let shown = false;
    const timer = setTimeout(() => {
      shown = true;
      this.#told({ done: 0, total: 0 });
    }, A_WHILE);
    const onProgress = (step: Progress) => {
      if (shown) this.#told(step);
    };
    const lines = this.#renderer.readLines(handle, page, { signal: stop.signal, onProgress }).then(
      (found) => {
        reading.bytes = bytesOf(found.linework);
        this.#makeRoom(key);
        return found;
      },
      (error: unknown) => {
        if (this.#read.get(key) === reading) this.#read.delete(key);
        if (stop.signal.aborted) return null;
        throw error;
      },
    );
    const reading: Reading = { stop, lines, bytes: 0 };
    this.#running.add(reading);
    const done = () => {
      clearTimeout(timer);
      this.#running.delete(reading);
      if (this.#running.size === 0) this.#told(null);
    };
    lines.then(done, done);
    return reading;
  }

  #makeRoom(inHand: string): void {
    let sum = [...this.#read.values()].reduce((bytes, reading) => bytes + reading.bytes, 0);
    for (const [key, { bytes }] of this.#read) {
      if (sum <= KEPT_BYTES) return;
      if (key === inHand || bytes === 0) continue;
      this.#read.delete(key);
      sum -= bytes;
    }
  }
}
