import type { StoreApi } from "zustand/vanilla";
import type { PageRenderer } from "../canvas/page-renderer.ts";
import { addSheets } from "../editor/edits/sheets.ts";
import type { Session } from "../editor/session.ts";
import { drawingFiles } from "../job/drawing-files.ts";
import type { Job } from "../job/schema.ts";
import type { JobStore } from "../store/job-store.ts";
import { sha256 as hashOf } from "../store/sha256.ts";
import { StorageError } from "../store/storage-error.ts";
import type { Drawing, HostState, Question } from "../ui/host.ts";
import { problemWords } from "../ui/problem-words.ts";
import { sheetTitles } from "../ui/sheet-titles.ts";
import type { SheetIndexes } from "./sheet-indexes.ts";

/** What opening drawings works with. */
export interface DrawingsOptions {
  readonly session: Session;
  readonly renderer: PageRenderer;
  readonly store: JobStore;
  readonly state: StoreApi<HostState>;
  readonly ask: (question: Question) => void;
  readonly indexes: SheetIndexes;
}

/** So many pages are all offered as sheets; of more, the person chooses. */
const FEW = 4;

/** The drawings at hand: opens them, keeps their bytes, finds those a job names. */
export class Drawings {
  readonly #with: DrawingsOptions;
  /** Files waiting for their password, by content hash. */
  readonly #locked = new Map<string, { readonly file: Blob; readonly name: string; readonly adds: boolean }>();
  /** Passwords that opened a drawing, for this session only. */
  readonly #passwords = new Map<string, string>();
  /** Bytes that the browser would not keep, so that issuing and saving work all the same. */
  readonly #held = new Map<string, Blob>();

  constructor(options: DrawingsOptions) {
    this.#with = options;
  }

  /** Takes a PDF the person chose: shows it where the job already names it, else its pages become sheets, unless they are not to. Its content hash. */
  async take(bytes: Uint8Array<ArrayBuffer>, name: string, adds = true): Promise<string> {
    const { store, session, ask } = this.#with;
    const hash = await hashOf(bytes);
    const file = new Blob([bytes], { type: "application/pdf" });
    this.#held.set(hash, file);
    try {
      await store.drawings.put(bytes);
    } catch (thrown) {
      ask({
        is: "told",
        title: `${name} is open, but not kept in this browser`,
        lines: [problemWords(StorageError.from(thrown, name).problem)],
      });
    }
    const { job } = session.getState();
    const named = drawingFiles(job).some(({ sha256 }) => sha256 === hash);
    if (adds || this.#with.state.getState().drawings[hash]?.is !== "open")
      await this.#open(hash, file, name, adds && !named);
    return hash;
  }

  /** Opens whatever drawings a job names and this browser keeps; the others are missing. `given` come with the job itself. */
  async openFor(job: Job, given: ReadonlyMap<string, Uint8Array> = new Map()): Promise<void> {
    const { store } = this.#with;
    const files = new Map(Object.values(job.sheets).map((sheet) => [sheet.file.sha256, sheet.file.name]));
    for (const [hash, name] of files) {
      if (this.#with.state.getState().drawings[hash]?.is === "open") continue;
      this.#set({ is: "opening", sha256: hash, name });
      const bytes = given.get(hash) ?? (await store.drawings.get(hash).catch(() => undefined));
      if (!bytes) {
        this.#set({ is: "missing", sha256: hash, name });
        continue;
      }
      const file = new Blob([bytes as Uint8Array<ArrayBuffer>], { type: "application/pdf" });
      this.#held.set(hash, file);
      const kept = given.has(hash) ? store.drawings.put(bytes).catch(() => undefined) : undefined;
      await this.#open(hash, file, name, false);
      await kept;
    }
    // Earlier issues that came with the job are kept; they are opened when somebody compares.
    for (const [hash, bytes] of given) {
      if (files.has(hash)) continue;
      this.#held.set(hash, new Blob([bytes as Uint8Array<ArrayBuffer>], { type: "application/pdf" }));
      await store.drawings.put(bytes).catch(() => undefined);
    }
  }

  /** Opens a drawing that this browser keeps, such as an earlier issue of a sheet; else it is missing. */
  async openFile({ sha256, name }: { readonly sha256: string; readonly name: string }): Promise<void> {
    if (this.#with.state.getState().drawings[sha256]?.is === "open") return;
    const bytes = await this.bytes(sha256);
    if (!bytes) return this.#set({ is: "missing", sha256, name });
    const file = new Blob([bytes as Uint8Array<ArrayBuffer>], { type: "application/pdf" });
    this.#held.set(sha256, file);
    await this.#open(sha256, file, name, false);
  }

  /** A password for a protected drawing; null leaves it closed. */
  async unlock(hash: string, password: string | null): Promise<void> {
    const waiting = this.#locked.get(hash);
    if (!waiting || password === null) return;
    await this.#open(hash, waiting.file, waiting.name, waiting.adds, password);
  }

  /** The bytes of a drawing, from this session or from the browser's keeping; undefined when it is not at hand. */
  async bytes(hash: string): Promise<Uint8Array | undefined> {
    const held = this.#held.get(hash);
    if (held) return new Uint8Array(await held.arrayBuffer());
    return this.#with.store.drawings.get(hash).catch(() => undefined);
  }

  /** The passwords given in this session, by content hash. */
  passwords(): Readonly<Record<string, string>> {
    return Object.fromEntries(this.#passwords);
  }

  /** Pages of an open drawing become sheets of the job in one step, each with a viewport and called by its number; the first is shown. */
  async addPages(hash: string, pages: readonly number[]): Promise<void> {
    const { session, state, indexes } = this.#with;
    const drawing = state.getState().drawings[hash];
    if (drawing?.is !== "open") return;
    const { jobId } = state.getState();
    const entries = await indexes.entries(hash, pages);
    // Another job may have been put on the desk meanwhile.
    if (state.getState().jobId !== jobId) return;
    const { job } = session.getState();
    const chosen = drawing.pages.filter(({ page }) => pages.includes(page));
    const titles = sheetTitles(job, drawing, entries);
    const sheets = chosen.map((geometry, index) => {
      const title = titles[index]!;
      const { page, view, rotate, userUnit } = geometry;
      return {
        id: session.newId(),
        viewportId: session.newId(),
        sheet: {
          title,
          file: { sha256: hash, name: drawing.name, bytes: drawing.bytes },
          page,
          view: [...view] as [number, number, number, number],
          rotate,
          userUnit,
        },
      };
    });
    const [first] = sheets;
    if (!first) return;
    session.commit(addSheets(job, sheets));
    session.setSheet(first.id, first.viewportId);
    session.select({ table: "viewports", id: first.viewportId });
  }

  async #open(hash: string, file: Blob, name: string, adds: boolean, password?: string): Promise<void> {
    const { renderer, ask } = this.#with;
    this.#set({ is: "opening", sha256: hash, name });
    const opened = await renderer.open(file, { name, ...(password === undefined ? {} : { password }) });
    if (!opened.ok) {
      const codes = opened.problems.map(({ code }) => code);
      if (codes.includes("pdf.password-needed") || codes.includes("pdf.password-wrong")) {
        this.#locked.set(hash, { file, name, adds });
        this.#set({ is: "locked", sha256: hash, name });
        ask({ is: "password", sha256: hash, name, wrong: codes.includes("pdf.password-wrong") });
        return;
      }
      if (adds) this.#forget(hash);
      else this.#set({ is: "unusable", sha256: hash, name, problems: opened.problems });
      ask({ is: "told", title: `${name} could not be opened`, lines: opened.problems.map(problemWords) });
      return;
    }
    this.#locked.delete(hash);
    if (password !== undefined) this.#passwords.set(hash, password);
    const { handle, pages, labels, layers, warnings } = opened.value;
    this.#set({ is: "open", sha256: hash, name, bytes: file.size, handle, pages, labels, layers, warnings });
    if (warnings.length > 0) ask({ is: "told", title: `${name} is open`, lines: warnings.map(problemWords) });
    if (!adds) return;
    if (pages.length === 1) await this.addPages(hash, [pages[0]!.page]);
    else ask({ is: "pages", sha256: hash, name, suggested: pages.length <= FEW ? pages.map(({ page }) => page) : [] });
  }

  #set(drawing: Drawing): void {
    const { state } = this.#with;
    state.setState({ drawings: { ...state.getState().drawings, [drawing.sha256]: drawing } });
  }

  #forget(hash: string): void {
    const { state } = this.#with;
    const { [hash]: _gone, ...rest } = state.getState().drawings;
    state.setState({ drawings: rest });
  }
}
