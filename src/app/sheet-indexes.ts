import type { StoreApi } from "zustand/vanilla";
import type { PageRenderer } from "../canvas/page-renderer.ts";
import { displaySize } from "../pdf/read/page-geometry.ts";
import type { PageSurvey } from "../pdf/read/page-survey.ts";
import type { SheetEntry } from "../pdf/read/sheet-index.ts";
import type { Drawing, HostState, IndexedPage, Progress } from "../ui/host.ts";

type OpenDrawing = Extract<Drawing, { is: "open" }>;
/** One thing to be read of a page. */
type Part = "entry" | "survey";

/** Reading that takes longer is shown, milliseconds. */
const A_WHILE = 250;
/** What was read is handed to the screen at most so often, milliseconds. */
const BEAT = 250;

/** The indexes of the drawings at hand: page by page in the drawing worker, what is in sight first, one page at a time. */
export class SheetIndexes {
  readonly #renderer: PageRenderer;
  readonly #state: StoreApi<HostState>;
  readonly #told: (progress: Progress | null) => void;
  /** What has been read, by content hash; handed to the screen in beats. */
  readonly #known = new Map<string, Record<number, IndexedPage>>();
  #inSight: readonly number[] = [];
  /** Drawings of which only what is in sight is read: the rest was stopped. */
  readonly #held = new Set<string>();
  #reading: { readonly sha256: string; readonly stop: AbortController } | undefined;
  #beat: ReturnType<typeof setTimeout> | undefined;

  constructor(renderer: PageRenderer, state: StoreApi<HostState>, told: (progress: Progress | null) => void) {
    this.#renderer = renderer;
    this.#state = state;
    this.#told = told;
  }

  /** Reads the whole index of an open drawing. */
  read(sha256: string): void {
    this.#held.delete(sha256);
    this.#begin(sha256);
  }

  /** These pages are in sight: they come next. */
  inSight(sha256: string, pages: readonly number[]): void {
    this.#inSight = pages;
    this.#begin(sha256);
  }

  #begin(sha256: string): void {
    if (this.#reading?.sha256 === sha256) return;
    this.#reading?.stop.abort();
    const stop = new AbortController();
    this.#reading = { sha256, stop };
    this.#state.setState({ indexing: sha256 });
    void this.#run(sha256, stop.signal).finally(() => {
      if (this.#reading?.stop === stop) this.#end();
    });
  }

  /** Stops whatever is being read; what is known stays, and what comes in sight is read all the same. */
  stop(): void {
    if (!this.#reading) return;
    this.#held.add(this.#reading.sha256);
    this.#reading.stop.abort();
    this.#end();
  }

  /** The entries of some pages, in the order of the drawing; of a page that cannot be read, what is known without. */
  async entries(sha256: string, pages: readonly number[]): Promise<readonly SheetEntry[]> {
    const drawing = this.#open(sha256);
    const wanted = (drawing?.pages ?? []).filter(({ page }) => pages.includes(page));
    const entries: SheetEntry[] = [];
    for (const { page } of wanted) entries.push(await this.#entry(drawing!, page));
    this.#show();
    return entries;
  }

  /** What is on a page; null where that cannot be told. */
  async survey(sha256: string, page: number): Promise<PageSurvey | null> {
    const drawing = this.#open(sha256);
    return drawing ? this.#survey(drawing, page) : null;
  }

  async #run(sha256: string, signal: AbortSignal): Promise<void> {
    const drawing = this.#open(sha256);
    if (!drawing) return;
    const since = performance.now();
    for (let next = this.#next(drawing); next; next = this.#next(drawing)) {
      const [page, part] = next;
      try {
        await (part === "entry" ? this.#entry(drawing, page, signal) : this.#survey(drawing, page, signal));
      } catch {
        // Stopped: what failed otherwise is known as unreadable.
        return;
      }
      if (signal.aborted) return;
      if (performance.now() - since > A_WHILE) this.#told(this.#progress(drawing));
    }
  }

  /** Numbers and names before what is on the pages; of each those in sight first, then from the top. */
  #next({ sha256, pages }: OpenDrawing): readonly [number, Part] | undefined {
    const known = this.#pages(sha256);
    const all = pages.map(({ page }) => page);
    const inSight = this.#inSight.filter((page) => all.includes(page));
    const lacks = (list: readonly number[], part: Part) => list.find((page) => known[page]?.[part] === undefined);
    for (const list of this.#held.has(sha256) ? [inSight] : [inSight, all])
      for (const part of ["entry", "survey"] as const) {
        // Of what is out of sight all names come first: they are what is searched.
        const page = lacks(list, part);
        if (page !== undefined) return [page, part];
      }
    return undefined;
  }

  #end(): void {
    this.#reading = undefined;
    this.#show();
    this.#state.setState({ indexing: null });
    this.#told(null);
  }

  async #entry(drawing: OpenDrawing, page: number, signal?: AbortSignal): Promise<SheetEntry> {
    const known = this.#pages(drawing.sha256)[page]?.entry;
    if (known) return known;
    const entry = await this.#renderer.readEntry(drawing.handle, page, signal).catch((): SheetEntry => {
      signal?.throwIfAborted();
      return unreadable(drawing, page);
    });
    this.#keep(drawing.sha256, page, { entry });
    return entry;
  }

  async #survey(drawing: OpenDrawing, page: number, signal?: AbortSignal): Promise<PageSurvey | null> {
    const known = this.#pages(drawing.sha256)[page]?.survey;
    if (known !== undefined) return known;
    const survey = await this.#renderer.surveyPage(drawing.handle, page, signal).catch(() => {
      signal?.throwIfAborted();
      return null;
    });
    this.#keep(drawing.sha256, page, { survey });
    return survey;
  }

  #open(sha256: string): OpenDrawing | undefined {
    const drawing = this.#state.getState().drawings[sha256];
    return drawing?.is === "open" ? drawing : undefined;
  }

  #pages(sha256: string): Record<number, IndexedPage> {
    const known = this.#known.get(sha256) ?? {};
    this.#known.set(sha256, known);
    return known;
  }

  #keep(sha256: string, page: number, part: IndexedPage): void {
    const known = this.#pages(sha256);
    known[page] = { ...known[page], ...part };
    this.#beat ??= setTimeout(() => this.#show(), BEAT);
  }

  #show(): void {
    clearTimeout(this.#beat);
    this.#beat = undefined;
    this.#state.setState({ indexes: Object.fromEntries([...this.#known].map(([key, pages]) => [key, { ...pages }])) });
  }

  #progress({ sha256, pages }: OpenDrawing): Progress {
    const known = this.#pages(sha256);
    const parts = pages.reduce(
      (sum, { page }) => sum + Number(known[page]?.entry !== undefined) + Number(known[page]?.survey !== undefined),
      0,
    );
    // A name and a look at it make a page: with the names alone it is half done.
    return { done: Math.floor(parts / 2), total: pages.length };
  }
}

/** What is known of a page that the worker could not read. */
function unreadable({ pages, labels }: OpenDrawing, page: number): SheetEntry {
  const place = pages.findIndex((known) => known.page === page);
  const geometry = pages[place]!;
  const { width, height } = displaySize(geometry);
  const number = labels[place] ?? null;
  return {
    page,
    number,
    numberFrom: number === null ? null : "page-label",
    name: null,
    paperIn: [width / 72, height / 72],
    rotate: geometry.rotate,
    annotations: {},
    unreadable: true,
  };
}
