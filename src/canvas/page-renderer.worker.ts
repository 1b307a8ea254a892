/// <reference lib="webworker" />
import { getDocument, PDFWorker } from "pdfjs-dist";
import EngineCore from "pdfjs-dist/build/pdf.worker.min.mjs?worker";
import { findGrid } from "../pdf/read/find-grid.ts";
import { type OpenPlan, openPlan } from "../pdf/read/open-plan.ts";
import { buffersOf, type PackedLinework, packLinework } from "../pdf/read/packed-linework.ts";
import { surveyPage } from "../pdf/read/page-survey.ts";
import { readWords } from "../pdf/read/page-words.ts";
import { readPage } from "../pdf/read/plan-reader.ts";
import { readSheet } from "../pdf/read/read-linework.ts";
import { readSheetEntry } from "../pdf/read/sheet-index.ts";
import type { Result } from "../units/problem.ts";
import { PageArtist, type TakeUnfinished } from "./page-artist.ts";
import type { CallName, FromWorker, RenderRequest, ToWorker, WorkerCalls } from "./page-renderer-protocol.ts";
import { RenderQueue } from "./render-queue.ts";
import { takeMessages } from "./take-messages.ts";

/**
 * The worker that holds opened drawings and draws them: the display half of pdf.js runs here, its core in a worker of
 * its own below this one, so that the page's thread is never held up.
 */
const scope = self as unknown as DedicatedWorkerGlobalScope;
const send = (message: FromWorker, transfer: Transferable[] = []) => scope.postMessage(message, transfer);

/** Parsed pages kept at a time; a large sheet holds 100 MB and more. */
const PAGES_KEPT = 3;
/** How long nothing must have been asked before operator boxes are recorded. */
const IDLE_MS = 350;

interface OpenFile {
  readonly plan: OpenPlan;
  readonly artists: Map<number, PageArtist>;
  readonly filters: { missed: boolean };
}

/** Drawings by handle, also while they are being opened: after a restart requests follow at the heels of `open`. */
const files = new Map<number, Promise<OpenFile | undefined>>();
const running = new Map<number, AbortController>();
const queue = new RenderQueue();
let assets = "";
let core: PDFWorker | undefined;
let recording: AbortController | undefined;
let idleTimer: ReturnType<typeof setTimeout> | undefined;

class WorkerCanvasFactory {
  create(width: number, height: number) {
    const canvas = new OffscreenCanvas(Math.max(1, width), Math.max(1, height));
    return { canvas, context: canvas.getContext("2d", { willReadFrequently: true }) };
  }
  reset(entry: { canvas: OffscreenCanvas | null }, width: number, height: number) {
    if (!entry.canvas) throw new Error("canvas already destroyed");
    entry.canvas.width = width;
    entry.canvas.height = height;
  }
  destroy(entry: { canvas: OffscreenCanvas | null; context: unknown }) {
    if (entry.canvas) entry.canvas.width = entry.canvas.height = 0;
    entry.canvas = entry.context = null;
  }
}

/** SVG filters need a document; pages that ask for one are drawn without it and say so. */
const filterFactoryFor = (filters: { missed: boolean }) => {
  const missed = () => {
    filters.missed = true;
    return "none";
  };
  return class {
    addFilter(maps: unknown) {
      return maps ? missed() : "none";
    }
    addAlphaFilter(map: unknown) {
      return map ? missed() : "none";
    }
    addLuminosityFilter(_map: unknown) {
      return missed();
    }
    addHCMFilter() {
      return "none";
    }
    addHighlightHCMFilter() {
      return "none";
    }
    destroy() {}
  };
};

const engineCore = (): PDFWorker => {
  if (core) return core;
  const port = new EngineCore();
  port.addEventListener("error", (event) =>
    send({ type: "stopped", message: event.message || "the PDF core stopped" }),
  );
  core = new PDFWorker({ port: port as unknown as null });
  return core;
};

const artistOf = async (handle: number, page: number): Promise<PageArtist> => {
  const file = await fileOf(handle);
  const known = file.artists.get(page);
  // Taken out and put back: the map's order is then the order of use.
  file.artists.delete(page);
  const artist = known ?? new PageArtist(file.plan, await file.plan.document.getPage(page), () => file.filters.missed);
  file.artists.set(page, artist);
  for (const [number, old] of file.artists) {
    if (file.artists.size <= PAGES_KEPT) break;
    old.rest();
    file.artists.delete(number);
  }
  return artist;
};

const fileOf = async (handle: number): Promise<OpenFile> => {
  const file = await files.get(handle);
  if (!file) throw new Error(`no open drawing ${handle}`);
  return file;
};

const openFile = async (
  file: Blob,
  filters: { missed: boolean },
  name: string | undefined,
  password: string | undefined,
): Promise<Result<OpenPlan>> =>
  openPlan({ getDocument: getDocument as never }, new Uint8Array(await file.arrayBuffer()), {
    ...(name === undefined ? {} : { name }),
    ...(password === undefined ? {} : { password }),
    engineSettings: {
      worker: engineCore(),
      ownerDocument: { fonts: scope.fonts },
      CanvasFactory: WorkerCanvasFactory,
      FilterFactory: filterFactoryFor(filters),
      useWorkerFetch: true,
      standardFontDataUrl: `${assets}standard_fonts/`,
      cMapUrl: `${assets}cmaps/`,
      cMapPacked: true,
      wasmUrl: `${assets}wasm/`,
      iccUrl: `${assets}iccs/`,
    },
  });

type Handlers = {
  [N in CallName]: (
    ask: WorkerCalls[N]["ask"],
    signal: AbortSignal,
    told: (done: number, total: number) => void,
    take: TakeUnfinished,
  ) => Promise<WorkerCalls[N]["answer"]>;
};

const handlers: Handlers = {
  async open({ handle, file, name, password }, signal) {
    const filters = { missed: false };
    const opening = openFile(file, filters, name, password);
    files.set(
      handle,
      opening.then(
        (done) => (done.ok ? { plan: done.value, artists: new Map(), filters } : undefined),
        () => undefined,
      ),
    );
    const opened = await opening;
    if (!opened.ok || signal.aborted) files.delete(handle);
    if (opened.ok && signal.aborted) await opened.value.close();
    signal.throwIfAborted();
    if (!opened.ok) return opened;
    const { pages, labels, layers, warnings } = opened.value;
    return { ok: true, value: { handle, pages, labels, layers, warnings } };
  },
  async render(request, signal, _told, take) {
    const answer = await queue.run(
      async () =>
        (await artistOf(request.handle, request.page)).draw(request, signal, request.sendUnfinished ? take : undefined),
      signal,
    );
    recordWhenIdle(request);
    return answer;
  },
  async coarse(request, signal) {
    await untilIdle(signal);
    return queue.run(async () => (await artistOf(request.handle, request.page)).coarse(request, signal), signal);
  },
  async contents({ handle, page }, signal) {
    const { plan } = await fileOf(handle);
    // What is being drawn comes first.
    await queue.run(async () => undefined, signal);
    return readPage(plan, page, signal);
  },
  entry: ({ handle, page }, signal) => aside(handle, page, signal, readSheetEntry),
  survey: ({ handle, page }, signal) => aside(handle, page, signal, surveyPage),
  async lines({ handle, page }, signal, told) {
    const file = await fileOf(handle);
    await untilIdle(signal);
    try {
      const { linework, contents } = await readSheet(file.plan, page, {
        signal,
        onProgress: told,
        pause: takeMessages,
      });
      const grids = findGrid(linework, contents.texts);
      await takeMessages();
      const words = await readWords(contents, linework, { signal, pause: takeMessages, grids });
      return { linework: packLinework(linework), grids, words };
    } finally {
      await letGo(file, page);
    }
  },
  async close({ handle }) {
    const file = await files.get(handle);
    files.delete(handle);
    await file?.plan.close();
    return null;
  },
};

/** Reads a page that need not be shown, between one drawing and the next. */
const aside = async <T>(
  handle: number,
  page: number,
  signal: AbortSignal,
  read: (plan: OpenPlan, page: number, signal: AbortSignal) => Promise<T>,
): Promise<T> => {
  const file = await fileOf(handle);
  // Not in the queue itself: the parse of a large page must not keep a picture waiting.
  await queue.run(async () => undefined, signal);
  try {
    return await read(file.plan, page, signal);
  } finally {
    await letGo(file, page);
  }
};

/** The engine's own list of a page goes with the page; of one that is not shown nothing else would let go of it. */
const letGo = async (file: OpenFile, page: number): Promise<void> => {
  if (!file.artists.has(page))
    await file.plan.document.getPage(page).then(
      (proxy) => proxy.cleanup(),
      () => undefined,
    );
};

/** Waits until nothing has been drawn for a moment: the first view comes before what lies in it. */
const untilIdle = async (signal: AbortSignal): Promise<void> => {
  do {
    await new Promise((resolve) => setTimeout(resolve, IDLE_MS));
    signal.throwIfAborted();
  } while (!queue.idle);
};

const recordWhenIdle = (request: RenderRequest) => {
  clearTimeout(idleTimer);
  idleTimer = setTimeout(async () => {
    const artist = (await files.get(request.handle))?.artists.get(request.page);
    if (!artist || !queue.idle || artist.isRecorded(request.hiddenLayers)) return;
    recording = new AbortController();
    const { signal } = recording;
    // A recording that fails costs speed, not the picture: the next idle moment tries again.
    await queue.run(() => artist.record(request.hiddenLayers, signal), signal).catch(() => undefined);
  }, IDLE_MS);
};

/** The parts of an answer that go to the page rather than being copied. */
const handedOver = (answer: unknown): Transferable[] => {
  const { bitmap, linework } = (answer ?? {}) as { bitmap?: ImageBitmap; linework?: PackedLinework };
  return [...(bitmap ? [bitmap] : []), ...(linework ? buffersOf(linework) : [])];
};

const answerCall = async <N extends CallName>(id: number, name: N, ask: WorkerCalls[N]["ask"]) => {
  const controller = new AbortController();
  running.set(id, controller);
  if (name === "render") {
    clearTimeout(idleTimer);
    recording?.abort();
  }
  try {
    const told = (done: number, total: number) => send({ type: "progress", id, done, total });
    const take = (bitmap: ImageBitmap) => send({ type: "unfinished", id, bitmap }, [bitmap]);
    const answer = await handlers[name](ask, controller.signal, told, take);
    send({ type: "answer", id, answer }, handedOver(answer));
  } catch (error) {
    if (controller.signal.aborted) send({ type: "cancelled", id });
    else send({ type: "failed", id, message: error instanceof Error ? error.message : String(error) });
  } finally {
    running.delete(id);
  }
};

// Its file is on its way before there is a drawing to read.
engineCore();
scope.onmessage = ({ data }: MessageEvent<ToWorker>) => {
  if (data.type === "start") assets = data.assets;
  else if (data.type === "cancel") running.get(data.id)?.abort();
  else void answerCall(data.id, data.name, data.ask);
};
