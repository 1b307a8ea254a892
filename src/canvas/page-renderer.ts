import type { FoundGrid } from "../pdf/read/find-grid.ts";
import type { Linework } from "../pdf/read/linework.ts";
import { unpackLinework } from "../pdf/read/packed-linework.ts";
import type { PageSurvey } from "../pdf/read/page-survey.ts";
import type { PageWords } from "../pdf/read/page-words.ts";
import type { PageContents, TextRun } from "../pdf/read/plan-contents.ts";
import type { SheetEntry } from "../pdf/read/sheet-index.ts";
import type { Result } from "../units/problem.ts";
import type {
  CallName,
  CoarseRequest,
  FromWorker,
  OpenedPlan,
  RenderedPage,
  RenderRequest,
  ToWorker,
  WorkerCalls,
} from "./page-renderer-protocol.ts";
import { startDrawingWorker } from "./start-drawing-worker.ts";

/**
 * The drawing worker failed. Nothing of the job is lost: it lives in the page. After a restart the drawings are opened
 * again under their handles and the request may be repeated; when `final` is true the worker would not stay up, and it is
 * for the person to try again.
 */
export class RendererLost extends Error {
  readonly final: boolean;
  constructor(message: string, final: boolean) {
    super(message);
    this.name = "RendererLost";
    this.final = final;
  }
}

/** Surroundings of a `PageRenderer`; the defaults fit the built program. */
export interface PageRendererOptions {
  /** Folder of pdf.js's fonts, character maps and decoders, absolute or relative to the document, ending in "/". */
  readonly assets?: string;
  /** Called when the worker failed; the next request starts another. */
  readonly onLost?: (lost: RendererLost) => void;
  /** Makes the worker, of `page-renderer.worker.ts`. */
  readonly startWorker?: () => Worker;
}

/** How far work on a page is; `total` 0 while that is not known. */
export interface PageProgress {
  readonly done: number;
  readonly total: number;
}

/** What is heard of a call before its answer. */
interface Hears {
  readonly progress?: ((step: PageProgress) => void) | undefined;
  /** Takes the bitmap over and closes it. */
  readonly unfinished?: ((bitmap: ImageBitmap) => void) | undefined;
}

interface Pending {
  hear: Hears;
  resolve(answer: unknown): void;
  reject(error: unknown): void;
}
interface KeptFile {
  readonly file: Blob;
  readonly name?: string;
  readonly password?: string;
}

/** Restarts in a row, without one answer between them, before the renderer gives up. */
const RESTARTS = 3;

/** Opens drawings and draws their pages in a worker. One is enough for a program. */
export class PageRenderer {
  readonly #assets: string;
  readonly #onLost: (lost: RendererLost) => void;
  readonly #startWorker: () => Worker;
  readonly #pending = new Map<number, Pending>();
  /** The files as given, to be opened again when the worker fails. */
  readonly #files = new Map<number, KeptFile>();
  #worker: Worker | undefined;
  #lastCall = 0;
  #lastHandle = 0;
  #restarts = 0;
  #destroyed = false;

  constructor(options: PageRendererOptions = {}) {
    this.#assets = new URL(options.assets ?? `${import.meta.env.BASE_URL}pdfjs/`, document.baseURI).href;
    this.#onLost = options.onLost ?? (() => undefined);
    this.#startWorker = options.startWorker ?? startDrawingWorker;
  }

  /**
   * Opens a drawing. The bytes are copied and stay the caller's. Problems `pdf.*` when it cannot be opened;
   * `pdf.password-needed` and `pdf.password-wrong` ask to try again with a password.
   */
  async open(
    bytes: ArrayBuffer | Uint8Array<ArrayBuffer> | Blob,
    options: { readonly name?: string; readonly password?: string } = {},
    signal?: AbortSignal,
  ): Promise<Result<OpenedPlan>> {
    const file = bytes instanceof Blob ? bytes : new Blob([bytes], { type: "application/pdf" });
    const handle = ++this.#lastHandle;
    const opened = await this.#call("open", { handle, file, ...options }, signal);
    if (opened.ok) this.#files.set(handle, { file, ...options });
    return opened;
  }

  /**
   * Draws a page or a region of it. Rejects with an AbortError when the signal comes first. The caller closes the
   * bitmap, and the coarse ones of what is drawn so far, where it takes them.
   */
  render(
    request: RenderRequest,
    signal?: AbortSignal,
    unfinished?: (bitmap: ImageBitmap) => void,
  ): Promise<RenderedPage> {
    return this.#call("render", unfinished ? { ...request, sendUnfinished: true } : request, signal, { unfinished });
  }

  /** Draws a whole page small, when the worker has nothing else to do. The caller closes the bitmap. */
  coarse(request: CoarseRequest, signal?: AbortSignal): Promise<RenderedPage> {
    return this.#call("coarse", request, signal);
  }

  /** What a page offers: its lines of text, scale notes and elevation tags, in sheet space. */
  readPlan(handle: number, page: number, signal?: AbortSignal): Promise<PageContents> {
    return this.#call("contents", { handle, page }, signal);
  }

  /** What the index of the set says of a page, read when nothing is being drawn. */
  readEntry(handle: number, page: number, signal?: AbortSignal): Promise<SheetEntry> {
    return this.#call("entry", { handle, page }, signal);
  }

  /** What is on a page, looked over when nothing is being drawn. */
  surveyPage(handle: number, page: number, signal?: AbortSignal): Promise<PageSurvey> {
    return this.#call("survey", { handle, page }, signal);
  }

  /** The vector paths of a page, the grids in them and what its text says, read when the worker has nothing else to do. Rejects with an AbortError when the signal comes first. */
  async readLines(
    handle: number,
    page: number,
    { signal, onProgress }: { readonly signal?: AbortSignal; readonly onProgress?: (step: PageProgress) => void } = {},
  ): Promise<{ readonly linework: Linework; readonly grids: readonly FoundGrid[]; readonly words: PageWords }> {
    const { linework, ...found } = await this.#call("lines", { handle, page }, signal, { progress: onProgress });
    return { linework: unpackLinework(linework), ...found };
  }

  /** The lines of text on a page, in sheet space. */
  async text(handle: number, page: number, signal?: AbortSignal): Promise<readonly TextRun[]> {
    return (await this.readPlan(handle, page, signal)).texts;
  }

  /** Lets go of a drawing. */
  async close(handle: number): Promise<void> {
    this.#files.delete(handle);
    if (this.#worker) await this.#call("close", { handle });
  }

  /** Ends the worker; what is still asked rejects with an AbortError. */
  destroy(): void {
    this.#destroyed = true;
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#files.clear();
    this.#rejectAll(new DOMException("The renderer was ended.", "AbortError"));
  }

  #call<N extends CallName>(
    name: N,
    ask: WorkerCalls[N]["ask"],
    signal?: AbortSignal,
    hear: Hears = {},
  ): Promise<WorkerCalls[N]["answer"]> {
    return new Promise((resolve, reject) => {
      if (signal?.aborted) return reject(signal.reason);
      if (this.#destroyed) return reject(new DOMException("The renderer was ended.", "AbortError"));
      const id = ++this.#lastCall;
      const worker = this.#worker ?? this.#start();
      const abort = () => {
        if (!this.#pending.delete(id)) return;
        worker.postMessage({ type: "cancel", id } satisfies ToWorker);
        reject(signal?.reason);
      };
      signal?.addEventListener("abort", abort, { once: true });
      const done = () => signal?.removeEventListener("abort", abort);
      this.#pending.set(id, {
        hear,
        resolve: (answer) => {
          done();
          resolve(answer as WorkerCalls[N]["answer"]);
        },
        reject: (error) => {
          done();
          reject(error);
        },
      });
      worker.postMessage({ type: "call", id, name, ask } as ToWorker);
    });
  }

  #start(): Worker {
    const worker = this.#startWorker();
    this.#worker = worker;
    worker.onmessage = ({ data }: MessageEvent<FromWorker>) => this.#receive(data);
    worker.onerror = (event) => this.#lose(event.message || "the drawing worker stopped");
    worker.onmessageerror = () => this.#lose("a message of the drawing worker could not be read");
    worker.postMessage({ type: "start", assets: this.#assets } satisfies ToWorker);
    // After a loss: the drawings come back before anything else is asked.
    for (const [handle, kept] of this.#files) void this.#call("open", { handle, ...kept }).catch(() => undefined);
    return worker;
  }

  #receive(message: FromWorker): void {
    if (message.type === "stopped") {
      this.#lose(message.message);
      return;
    }
    const pending = this.#pending.get(message.id);
    if (message.type === "progress") {
      pending?.hear.progress?.(message);
      return;
    }
    if (message.type === "unfinished") {
      if (pending?.hear.unfinished) pending.hear.unfinished(message.bitmap);
      else message.bitmap.close();
      return;
    }
    this.#pending.delete(message.id);
    if (message.type === "answer") {
      this.#restarts = 0;
      if (pending) pending.resolve(message.answer);
      // The picture of a cancelled request that was finished all the same.
      else (message.answer as Partial<RenderedPage> | null)?.bitmap?.close();
    } else if (message.type === "failed") pending?.reject(new Error(message.message));
    else pending?.reject(new DOMException("Cancelled.", "AbortError"));
  }

  #lose(message: string): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    const lost = new RendererLost(message, ++this.#restarts > RESTARTS);
    this.#rejectAll(lost);
    this.#onLost(lost);
  }

  #rejectAll(error: unknown): void {
    const waiting = [...this.#pending.values()];
    this.#pending.clear();
    for (const { reject } of waiting) reject(error);
  }
}
