import type { StoreApi } from "zustand/vanilla";
import type { PageRenderer } from "../canvas/page-renderer.ts";
import type { VerdictChange } from "../check/verdict-changes.ts";
import type { BriefLanguage } from "../issue/brief/brief-languages.ts";
import type { HandedOn } from "../issue/handed-on.ts";
import type { IssuedChange } from "../issue/issued-changes.ts";
import type { Mark } from "../issue/mark.ts";
import type { FoundGrid } from "../pdf/read/find-grid.ts";
import type { Linework } from "../pdf/read/linework.ts";
import type { PageGeometry } from "../pdf/read/page-geometry.ts";
import type { PageSurvey } from "../pdf/read/page-survey.ts";
import type { PageWords } from "../pdf/read/page-words.ts";
import type { PlanLayer, TextRun } from "../pdf/read/plan-contents.ts";
import type { FoundViewport } from "../pdf/read/read-viewports.ts";
import type { SheetEntry } from "../pdf/read/sheet-index.ts";
import type { SaveState } from "../store/autosave.ts";
import type { KeptJob } from "../store/job-store.ts";
import type { Problem } from "../units/problem.ts";
import type { IssueHost } from "./new-issue/issue-host.ts";

/** A drawing file of the job, by content hash, and whether it is at hand. */
export type Drawing =
  | {
      readonly is: "open";
      readonly sha256: string;
      readonly name: string;
      readonly bytes: number;
      readonly handle: number;
      readonly pages: readonly PageGeometry[];
      readonly labels: readonly (string | null)[];
      readonly layers: readonly PlanLayer[];
      readonly warnings: readonly Problem[];
    }
  | { readonly is: "opening"; readonly sha256: string; readonly name: string }
  /** Named by the job, but its bytes are not here: the person has to show the file. */
  | { readonly is: "missing"; readonly sha256: string; readonly name: string }
  | { readonly is: "locked"; readonly sha256: string; readonly name: string }
  | { readonly is: "unusable"; readonly sha256: string; readonly name: string; readonly problems: readonly Problem[] };

/** Something the application asks before it can go on. */
export type Question =
  | { readonly is: "password"; readonly sha256: string; readonly name: string; readonly wrong: boolean }
  | { readonly is: "pages"; readonly sha256: string; readonly name: string; readonly suggested: readonly number[] }
  | { readonly is: "told"; readonly title: string; readonly lines: readonly string[] }
  /** What another program did to the marks of an issued PDF whose job was opened. */
  | { readonly is: "changed"; readonly name: string; readonly changes: readonly IssuedChange[] };

/** Work off the main thread that may take long and can be stopped: the check, the findings as data, the comparison with another edition, reading the linework of a page, reading the index of a set, writing sheets and what goes with them. */
export type Work = "check" | "findings" | "edition" | "linework" | "index" | "issue";
/** How far such work is; `total` 0 while that is not known. */
export interface Progress {
  readonly done: number;
  readonly total: number;
}

/** The linework of a page, the grids found in it and what its text says; a page that is a picture has none of them. */
export interface PageLines {
  readonly linework: Linework;
  readonly grids: readonly FoundGrid[];
  readonly words: PageWords;
}

/** What has been read so far of a page for the index of its set; a survey of null: the page could not be looked over. */
export interface IndexedPage {
  readonly entry?: SheetEntry;
  readonly survey?: PageSurvey | null;
}

/** The form findings are written in: those of the command line. */
export type FindingsForm = "json" | "csv" | "text";

/** What another edition would change, and what is doubtful in the job under it. */
export interface EditionChanges {
  readonly changes: readonly VerdictChange[];
  readonly notices: readonly Problem[];
}

/** What the application knows beside the job itself. Replaced, never changed in place. */
export interface HostState {
  /** The start page lists the kept jobs; the desk is a job at work. */
  readonly showing: "start" | "desk";
  readonly jobId: string | null;
  readonly drawings: Readonly<Record<string, Drawing>>;
  /** The drawing whose index is being read, by content hash. */
  readonly indexing: string | null;
  /** What is known of the pages of each drawing, by content hash and page. */
  readonly indexes: Readonly<Record<string, Readonly<Record<number, IndexedPage>>>>;
  readonly save: SaveState | null;
  readonly kept: readonly KeptJob[];
  readonly questions: readonly Question[];
  /** What the application is busy with, in words; null when it is not. */
  readonly busy: string | null;
  /** Work that has taken more than a quarter of a second. */
  readonly progress: Readonly<Record<Work, Progress | null>>;
}

/** What to issue, as chosen at the stage. */
export interface IssueChoice {
  readonly sheets: readonly string[];
  readonly author: string;
  readonly report: "with" | "separate" | "none";
  readonly form: "annotations" | "flattened";
  /** What to issue of a drawing that is signed or damaged, instead of what it allows. */
  readonly copy: "none" | "unsigned" | "repaired";
}
/** What an issue came to. */
export interface Issued {
  readonly files: readonly { readonly name: string; readonly bytes: number }[];
  readonly notes: readonly Problem[];
}

/** What the screens may ask of the application. Everything that touches storage, files, workers or the network is behind this. */
export interface Host {
  readonly state: Pick<StoreApi<HostState>, "getState" | "getInitialState" | "subscribe">;
  readonly renderer: PageRenderer;
  /** The picture of a sheet is there, or cannot be: what waited for it is begun. */
  sheetSeen(): void;
  /**
   * The marks of a sheet of the job checked last, drawn off the main thread; labels keep off `words`. Those that are as they were are the same
   * objects. Null when others were asked for meanwhile.
   */
  marks(sheet: string, words: readonly TextRun[]): Promise<readonly Mark[] | null>;
  /** Takes files that were picked or dropped: drawings become sheets, a job file or an issued PDF becomes the job. */
  takeFiles(files: readonly File[]): Promise<void>;
  /** Opens the system's file picker. */
  chooseFiles(kind: "drawings" | "job"): Promise<void>;
  answerPassword(sha256: string, password: string | null): Promise<void>;
  /** Adds pages of an open drawing to the job as sheets, each called by its number; pages count from 1. */
  addPages(sha256: string, pages: readonly number[]): void;
  /** Reads the whole index of an open drawing into `indexes`, the pages in sight before all others. */
  readIndex(sha256: string): void;
  /** Says which pages of an index are in sight: they are read next, also after the rest was stopped. */
  indexInSight(sha256: string, pages: readonly number[]): void;
  /** What is on one page of an open drawing; null where that cannot be told. */
  pageSurvey(sha256: string, page: number): Promise<PageSurvey | null>;
  /** The viewports a drawing's file names, read once; none where they cannot be read. */
  foundViewports(sha256: string): Promise<readonly FoundViewport[]>;
  /** The linework of a page of an open drawing, read once off the main thread after the first view; null where that was stopped, until it is asked for again. */
  pageLines(handle: number, page: number): Promise<PageLines | null>;
  /** Asks which further pages of an open drawing become sheets. */
  askPages(sha256: string): void;
  dismiss(question: Question): void;
  newJob(): Promise<void>;
  openKept(id: string): Promise<void>;
  forgetKept(id: string): Promise<void>;
  openSample(name: string): Promise<void>;
  showStart(): Promise<void>;
  saveNow(): Promise<void>;
  /** Writes the job file, with the drawings inside it or without. */
  saveJobFile(withDrawings: boolean): Promise<void>;
  issue(choice: IssueChoice): Promise<Issued | { readonly problems: readonly Problem[] }>;
  /** The crew's brief as a PDF of its own. */
  brief(author: string, language: BriefLanguage): Promise<Issued | { readonly problems: readonly Problem[] }>;
  /** Review comments or schedules as a file. */
  handOn(wanted: HandedOn, author: string): Promise<Issued | { readonly problems: readonly Problem[] }>;
  /** The review comments as text to paste. */
  commentsText(author: string): Promise<string | { readonly problems: readonly Problem[] }>;
  /** The findings of the job in the form the command line gives; null when it was stopped. */
  findingsText(form: FindingsForm): Promise<string | null>;
  /** What another edition would change for the job; null when it was stopped. */
  compareEdition(edition: string): Promise<EditionChanges | null>;
  /** New issues of a sheet: choosing, opening and comparing them. */
  readonly issues: IssueHost;
  stop(work: Work): void;
  /** Gives the person a file. */
  download(name: string, content: string | Uint8Array, type: string): void;
  copy(text: string): Promise<void>;
}
