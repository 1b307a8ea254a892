import type { PDFPageProxy, RenderTask } from "pdfjs-dist";
import type { OpenPlan } from "../pdf/read/open-plan.ts";
import type { CoarseRequest, PixelRegion, RenderedPage, RenderRequest } from "./page-renderer-protocol.ts";
import { takeMessages } from "./take-messages.ts";

/** Boxes of what each operator of a page touches, as parts of the page (0 to 1). */
interface OperatorBoxes {
  isEmpty(i: number): boolean;
  minX(i: number): number;
  minY(i: number): number;
  maxX(i: number): number;
  maxY(i: number): number;
}

/** Takes a coarse picture of what is drawn so far. */
export type TakeUnfinished = (bitmap: ImageBitmap) => void;

/** The first coarse picture of what is drawn so far is taken after so long, milliseconds, and the next after so long, then ever less often. */
const FIRST_UNFINISHED_MS = 60;
const UNFINISHED_EVERY_MS = 200;
/** Taking them takes at most this part of the time. */
const UNFINISHED_SHARE = 0.04;
/** Length of the long side of such a picture, in pixels. */
const UNFINISHED_SIDE = 1000;
/** Length of the long side of the picture on which operator boxes are recorded, in pixels. */
const RECORDING_SIDE = 1400;

/**
 * Draws one page of one document onto OffscreenCanvases. After the first pictures it records what each operator
 * touches (`record`), so that a part of the page at a large scale draws only what it shows.
 */
export class PageArtist {
  readonly #plan: OpenPlan;
  readonly #page: PDFPageProxy;
  readonly #filtersMissed: () => boolean;
  /** By the set of hidden layers: a recording made while a layer is hidden lacks what is on it. */
  readonly #boxes = new Map<string, OperatorBoxes>();

  constructor(plan: OpenPlan, page: PDFPageProxy, filtersMissed: () => boolean) {
    this.#plan = plan;
    this.#page = page;
    this.#filtersMissed = filtersMissed;
  }

  /** Draws what is asked. Rejects with an AbortError when the signal comes first. */
  async draw(request: RenderRequest, signal: AbortSignal, take?: TakeUnfinished): Promise<RenderedPage> {
    const whole = this.#page.getViewport({ scale: request.scale });
    const region = request.region ?? { x: 0, y: 0, width: Math.ceil(whole.width), height: Math.ceil(whole.height) };
    const boxes = request.region ? this.#boxes.get(layersKey(request.hiddenLayers)) : undefined;
    const canvas = await this.#run(request.scale, region, request.hiddenLayers, signal, {
      operationsFilter: boxes ? touching(boxes, region, whole.width, whole.height) : null,
      ...(take && { take }),
    });
    return { bitmap: canvas.transferToImageBitmap(), region, approximate: this.#filtersMissed() };
  }

  /** Draws the whole page small. */
  coarse({ handle, page, side }: CoarseRequest, signal: AbortSignal): Promise<RenderedPage> {
    const { width, height } = this.#page.getViewport({ scale: 1 });
    return this.draw({ handle, page, scale: side / Math.max(width, height) }, signal);
  }

  /** True when parts of the page with these layers hidden can be drawn without going through all of it. */
  isRecorded(hiddenLayers: readonly string[] | undefined): boolean {
    return this.#boxes.has(layersKey(hiddenLayers));
  }

  /** Records the boxes, by drawing the page once more on a canvas nobody sees. */
  async record(hiddenLayers: readonly string[] | undefined, signal: AbortSignal): Promise<void> {
    const { width, height } = this.#page.getViewport({ scale: 1 });
    const scale = RECORDING_SIDE / Math.max(width, height);
    const region = { x: 0, y: 0, width: Math.ceil(width * scale), height: Math.ceil(height * scale) };
    this.#page.recordedBBoxes = null;
    try {
      await this.#run(scale, region, hiddenLayers, signal, { recordOperations: true });
      const boxes = this.#page.recordedBBoxes as OperatorBoxes | null;
      if (boxes) this.#boxes.set(layersKey(hiddenLayers), boxes);
    } finally {
      // A cancelled drawing leaves half a recording behind, and a finished one would stop the next.
      this.#page.recordedBBoxes = null;
    }
  }

  /** Lets go of the parsed page; the next picture parses it again. */
  rest(): void {
    this.#boxes.clear();
    this.#page.cleanup();
  }

  async #run(
    scale: number,
    region: PixelRegion,
    hidden: readonly string[] | undefined,
    signal: AbortSignal,
    {
      take,
      ...extra
    }: { operationsFilter?: ((i: number) => boolean) | null; recordOperations?: boolean; take?: TakeUnfinished },
  ): Promise<OffscreenCanvas> {
    const config = await this.#plan.document.getOptionalContentConfig({ intent: "display" });
    if (hidden) for (const { id } of this.#plan.layers) config.setVisibility(id, !hidden.includes(id), false);
    signal.throwIfAborted();
    const canvas = new OffscreenCanvas(region.width, region.height);
    const task = this.#page.render({
      canvas: canvas as unknown as HTMLCanvasElement,
      viewport: this.#page.getViewport({ scale, offsetX: -region.x, offsetY: -region.y }),
      optionalContentConfigPromise: Promise.resolve(config),
      ...extra,
    } as unknown as Parameters<PDFPageProxy["render"]>[0]);
    const cancel = () => task.cancel();
    signal.addEventListener("abort", cancel);
    yieldBetweenSlices(task, take && takingNowAndThen(canvas, take));
    try {
      await task.promise;
      signal.throwIfAborted();
      return canvas;
    } catch (error) {
      signal.throwIfAborted();
      throw error;
    } finally {
      signal.removeEventListener("abort", cancel);
    }
  }
}

const layersKey = (hidden: readonly string[] | undefined): string =>
  hidden ? [...hidden].sort().join(" ") : "as filed";

/** Keeps the operators whose box touches the region; the boxes are rounded outwards to 1/256 of the page. */
const touching = (boxes: OperatorBoxes, region: PixelRegion, width: number, height: number) => {
  const [x0, x1] = [region.x / width, (region.x + region.width) / width];
  const [y0, y1] = [region.y / height, (region.y + region.height) / height];
  return (i: number): boolean =>
    !boxes.isEmpty(i) && boxes.minX(i) <= x1 && boxes.maxX(i) >= x0 && boxes.minY(i) <= y1 && boxes.maxY(i) >= y0;
};

/**
 * Between two slices of drawing the worker's message queue gets its turn: without that a cancel is read when the page
 * is finished.
 */
const yieldBetweenSlices = (task: RenderTask, look?: () => void): void => {
  task.onContinue = (proceed: () => void) => {
    look?.();
    void takeMessages().then(proceed);
  };
};

/** Takes a coarse picture of a canvas when it is time for one. */
const takingNowAndThen = (canvas: OffscreenCanvas, take: TakeUnfinished): (() => void) => {
  let next = performance.now() + FIRST_UNFINISHED_MS;
  let pause = UNFINISHED_EVERY_MS;
  return () => {
    const began = performance.now();
    if (began < next) return;
    const by = Math.min(1, UNFINISHED_SIDE / Math.max(canvas.width, canvas.height));
    const small = new OffscreenCanvas(Math.ceil(canvas.width * by), Math.ceil(canvas.height * by));
    const context = small.getContext("2d", { alpha: false, willReadFrequently: true });
    context?.drawImage(canvas, 0, 0, small.width, small.height);
    take(small.transferToImageBitmap());
    // Pictures on the way must cost the last one little, however slow they are to take.
    const cost = performance.now() - began;
    next = performance.now() + Math.max(pause, cost / UNFINISHED_SHARE);
    pause *= 1.5;
  };
};
