import { createStore } from "zustand/vanilla";
import type { PageRenderer } from "../canvas/page-renderer.ts";
import type { Session } from "../editor/session.ts";
import { sheetsInOrder } from "../editor/sheet-order.ts";
import type { Stage } from "../editor/stage.ts";
import { drawingFiles } from "../job/drawing-files.ts";
import { parseJobText } from "../job/parse-job.ts";
import { emptyJob, type Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { JOB_FILE_EXTENSION, kindOfFile } from "../store/job-file-kind.ts";
import type { JobStore } from "../store/job-store.ts";
import { StorageError } from "../store/storage-error.ts";
import type { Host, HostState, Issued, Question } from "../ui/host.ts";
import type { IssueHost } from "../ui/new-issue/issue-host.ts";
import { pageContents } from "../ui/page-contents.ts";
import { problemWords } from "../ui/problem-words.ts";
import type { Problem } from "../units/problem.ts";
import { fetchSample } from "./asked-ahead.ts";
import type { BackgroundCheck } from "./background-check.ts";
import {
  briefInBackground,
  handOnInBackground,
  issueInBackground,
  jobInside,
  onIssueProgress,
  stopIssuing,
  viewportsIn,
} from "./background-issue.ts";
import { compareIssues } from "./compare-issues.ts";
import { Drawings } from "./drawings.ts";
import { downloadFile, fileName, pickFiles } from "./files.ts";
import type { FirstView } from "./first-view.ts";
import type { IssueAnswer } from "./issue-protocol.ts";
import { Keeping } from "./keeping.ts";
import { WorkerLost } from "./lasting-worker.ts";
import { PageLinesKept } from "./page-lines.ts";
import { SheetIndexes } from "./sheet-indexes.ts";

/** The edition a new job starts from, until somebody decides. */
const FIRST_EDITION = "us-2023";

/** What reads and writes job files comes in a file of its own: most beginnings do without. */
const jobFiles = () => import("../store/job-file.ts");

/** What the application does for the screens, on the real browser. */
export function createHost(
  session: Session,
  renderer: PageRenderer,
  store: JobStore,
  background: BackgroundCheck,
  seen: FirstView,
): Host {
  const state = createStore<HostState>(() => ({
    showing: "start",
    jobId: null,
    drawings: {},
    indexing: null,
    indexes: {},
    save: null,
    kept: [],
    questions: [],
    busy: null,
    progress: { ...background.progress.getState(), linework: null, index: null, issue: null },
  }));
  const told = (progress: Partial<HostState["progress"]>) =>
    state.setState((present) => ({ progress: { ...present.progress, ...progress } }));
  background.progress.subscribe(told);
  onIssueProgress((issue) => told({ issue }));
  const lines = new PageLinesKept(renderer, (linework) => told({ linework }));
  const ask = (question: Question) => state.setState(({ questions }) => ({ questions: [...questions, question] }));
  const indexes = new SheetIndexes(renderer, state, (index) => told({ index }));
  const drawings = new Drawings({ session, renderer, store, state, ask, indexes });
  const keeping = new Keeping(session, store, state);

  const tell = (title: string, problems: readonly Problem[]) =>
    ask({ is: "told", title, lines: problems.map(problemWords) });
  background.onLost = (lost) =>
    tell("The check could not be done", [{ code: "check.lost", where: "", params: { detail: lost.message } }]);
  /** What the background comes to; a worker that is lost for good is told, and is as if the work had been stopped. */
  const orLost = async <T>(work: Promise<T | null>): Promise<T | null> => {
    try {
      return await work;
    } catch (error) {
      if (!(error instanceof WorkerLost)) throw error;
      background.onLost(error);
      return null;
    }
  };
  const listKept = async () => {
    try {
      state.setState({ kept: await store.list() });
    } catch (thrown) {
      state.setState({ kept: [], save: { is: "not-saved", problem: StorageError.from(thrown, "").problem } });
    }
  };
  const busy = async <T>(words: string, work: () => Promise<T>): Promise<T> => {
    state.setState({ busy: words });
    try {
      return await work();
    } finally {
      state.setState({ busy: null });
    }
  };
  /** Puts a job on the desk, with its drawings as far as they are at hand. */
  const show = async (job: Job, id: string, revision: number, { given, begin = "sheet" }: Beginning = {}) => {
    await keeping.flush();
    keeping.stop();
    const sheet = (begin === "check" ? busiestSheet(job) : sheetsInOrder(job)[0]) ?? null;
    const isOpen = () => {
      const drawing = sheet === null ? undefined : job.sheets[sheet]?.file.sha256;
      return drawing !== undefined && state.getState().drawings[drawing]?.is === "open";
    };
    // One that is open may be on the desk as it is: nothing new is seen of it.
    if (sheet === null || isOpen()) seen.over();
    else seen.awaited();
    session.replaceJob(job);
    keeping.follow(id, revision);
    session.setStage(begin);
    session.setSheet(sheet);
    state.setState({ showing: "desk", save: revision > 0 ? { is: "saved", at: "" } : null });
    rememberJob(id);
    await drawings.openFor(job, given);
    if (!isOpen()) seen.over();
  };
  /** A job that came from outside is kept as soon as it is seen. */
  const adopt = async (job: Job, beginning: Beginning = {}, id: string = crypto.randomUUID()) => {
    await show(job, id, 0, beginning);
    await keeping.keepNow();
    const { save } = state.getState();
    if (save?.is === "not-saved") tell("The job is open, but not kept in this browser", [save.problem]);
  };
  const newJob = () => show(emptyJob("Untitled job", FIRST_EDITION), crypto.randomUUID(), 0);

  const takeOne = async (bytes: Uint8Array<ArrayBuffer>, name: string): Promise<void> => {
    const kind = kindOfFile(bytes);
    if (kind === "job") {
      const job = parseJobText(new TextDecoder().decode(bytes));
      if (!job.ok) return tell(`${name} could not be opened`, job.problems);
      return adopt(job.value);
    }
    if (kind === "job-file") {
      const opened = await (await jobFiles()).readJobFile(bytes);
      if (!opened.ok) return tell(`${name} could not be opened`, opened.problems);
      return adopt(opened.value.job, { given: opened.value.drawings });
    }
    if (kind === "pdf") {
      const inside = await jobInside(bytes);
      if (inside) {
        if (!inside.ok) return tell(`The job inside ${name} could not be opened`, inside.problems);
        const { job, drawings: given, changes } = inside.value;
        await adopt(job, { given });
        if (changes.length > 0) ask({ is: "changed", name, changes });
        return;
      }
      if (state.getState().showing === "start") await newJob();
      await drawings.take(bytes, name);
      return;
    }
    tell(`${name} could not be opened`, [{ code: "file.unknown", where: name, params: { name } }]);
  };

  const issues: IssueHost = {
    async choose() {
      const [file] = await pickFiles("application/pdf,.pdf", false);
      return file ? drawings.take(new Uint8Array(await file.arrayBuffer()), file.name, false) : null;
    },
    open: (file) => drawings.openFile(file),
    compare: (asked, onProgress) =>
      compareIssues(
        {
          lines: (handle, page) => lines.of(handle, page),
          words: (handle, page) => pageContents(renderer, handle, page),
        },
        asked,
        onProgress,
      ),
  };

  const viewports = new Map<string, ReturnType<Host["foundViewports"]>>();

  const host: Host = {
    state,
    renderer,
    marks: background.marks,
    takeFiles: (files) =>
      busy("Opening…", async () => {
        for (const file of files) await takeOne(new Uint8Array(await file.arrayBuffer()), file.name);
      }),
    async chooseFiles(kind) {
      const accept = kind === "drawings" ? "application/pdf,.pdf" : `${JOB_FILE_EXTENSION},.json,.pdf,application/pdf`;
      await host.takeFiles(await pickFiles(accept, kind === "drawings"));
    },
    async answerPassword(sha256, password) {
      host.dismiss(state.getState().questions.find((one) => one.is === "password" && one.sha256 === sha256)!);
      await drawings.unlock(sha256, password);
    },
    askPages(sha256) {
      const drawing = state.getState().drawings[sha256];
      if (drawing?.is === "open") ask({ is: "pages", sha256, name: drawing.name, suggested: [] });
    },
    foundViewports(sha256) {
      const known = viewports.get(sha256);
      if (known) return known;
      const read = drawings
        .bytes(sha256)
        .then((bytes) => (bytes ? viewportsIn(bytes, drawings.passwords()[sha256]) : []))
        .catch((error: unknown) => {
          if (!(error instanceof WorkerLost)) throw error;
          viewports.delete(sha256);
          return [];
        });
      viewports.set(sha256, read);
      return read;
    },
    issues,
    // The act that somebody waits to do comes first.
    sheetSeen: () => void requestIdleCallback(() => seen.over(), { timeout: 300 }),
    pageLines: (handle, page) => lines.of(handle, page),
    readIndex: (sha256) => indexes.read(sha256),
    indexInSight: (sha256, pages) => indexes.inSight(sha256, pages),
    pageSurvey: (sha256, page) => indexes.survey(sha256, page),
    addPages: (sha256, pages) => void drawings.addPages(sha256, pages),
    dismiss: (question) =>
      state.setState(({ questions }) => ({ questions: questions.filter((one) => one !== question) })),
    newJob,
    async openKept(id) {
      try {
        const loaded = await store.load(id);
        if (!loaded) return await listKept();
        // What is kept is left as it is: an unreadable job is not overwritten.
        if (!loaded.ok) return tell("This job cannot be opened here", loaded.problems);
        await show(loaded.value.job, id, loaded.value.revision);
      } catch (thrown) {
        tell("This job cannot be opened here", [StorageError.from(thrown, id).problem]);
      }
    },
    async forgetKept(id) {
      await store.delete(id);
      await listKept();
    },
    openSample: (name) =>
      busy("Opening the sample…", async () => {
        // The sample is one job, however often it is opened: what was done to it is kept.
        const id = `sample-${name}`;
        const [asked, files] = [fetchSample(name), jobFiles()];
        asked.catch(() => undefined);
        const kept = await store.load(id).catch(() => undefined);
        if (kept?.ok) return show(kept.value.job, id, kept.value.revision, { begin: "check" });
        const answer = await asked;
        if (!answer.ok)
          return tell("There is no such sample", [{ code: "sample.none", where: name, params: { name } }]);
        const { readJobFile } = await files;
        const opened = await readJobFile(new Uint8Array(await answer.arrayBuffer()));
        if (!opened.ok) return tell("The sample could not be opened", opened.problems);
        // One that is kept but cannot be read here is left as it is, beside the fresh copy.
        const beginning = { given: opened.value.drawings, begin: "check" } as const;
        await adopt(opened.value.job, beginning, kept ? crypto.randomUUID() : id);
      }),
    async showStart() {
      await keeping.flush();
      await listKept();
      rememberJob(null);
      state.setState({ showing: "start" });
    },
    saveNow: () => keeping.flush(),
    async saveJobFile(withDrawings) {
      const { job } = session.getState();
      const files = new Map<string, Uint8Array>();
      if (withDrawings)
        for (const { sha256 } of drawingFiles(job)) {
          const bytes = await drawings.bytes(sha256);
          if (bytes) files.set(sha256, bytes);
        }
      downloadFile(
        `${fileName(job.settings.job.name)}${JOB_FILE_EXTENSION}`,
        await (await jobFiles()).writeJobFile(job, files),
        "application/octet-stream",
      );
    },
    issue: (choice) =>
      busy("Issuing…", async () => {
        const { job, result } = session.getState();
        if (!result) return { problems: [{ code: "issue.not-checked", where: "", params: {} }] };
        const files = new Map<string, Uint8Array>();
        const words: Record<string, readonly TextRun[]> = {};
        for (const id of choice.sheets) {
          const hash = job.sheets[id]?.file.sha256;
          const drawing = hash === undefined ? undefined : state.getState().drawings[hash];
          // A page whose words cannot be read is issued all the same; its labels then look for room among marks alone.
          if (drawing?.is === "open")
            words[id] = await pageContents(renderer, drawing.handle, job.sheets[id]!.page).then(
              ({ texts }) => texts,
              () => [],
            );
          const bytes = hash === undefined || files.has(hash) ? undefined : await drawings.bytes(hash);
          if (hash !== undefined && bytes) files.set(hash, bytes);
        }
        const passwords = drawings.passwords();
        const answer = await issueInBackground({
          job,
          result,
          choice,
          drawings: files,
          words,
          passwords,
          now: Date.now(),
        });
        return given(answer);
      }),
    brief: (author, language) =>
      busy("Writing the brief…", async () =>
        given(await briefInBackground(session.getState().job, author, language, Date.now())),
      ),
    handOn: (wanted, author) =>
      busy("Writing…", async () => given(await handOnInBackground(session.getState().job, wanted, author, Date.now()))),
    commentsText: (author) =>
      busy("Writing the comments…", async () => {
        const wanted = { is: "comments", form: "text" } as const;
        const answer = await handOnInBackground(session.getState().job, wanted, author, Date.now());
        return "problems" in answer ? answer : answer.files[0]!.content.text();
      }),
    findingsText: (form) => orLost(background.findings(session.getState().job, form)),
    compareEdition: (edition) => orLost(background.compare(session.getState().job, edition)),
    stop: (work) => {
      if (work === "linework") lines.stop();
      else if (work === "index") indexes.stop();
      else if (work === "issue") stopIssuing();
      else background.stop(work);
    },
    download: downloadFile,
    copy: (text) => navigator.clipboard.writeText(text),
  };
  return host;
}

/** Gives the person the files that were made; what was made of them, or why nothing was. */
function given(answer: IssueAnswer): Issued | { readonly problems: readonly Problem[] } {
  if ("problems" in answer) return answer;
  for (const { name, content } of answer.files) downloadFile(fileName(name), content, typeOf(name));
  return { files: answer.files.map(({ name, content }) => ({ name, bytes: content.size })), notes: answer.notes };
}

const TYPES: Readonly<Record<string, string>> = {
  pdf: "application/pdf",
  csv: "text/csv",
  txt: "text/plain",
  xlsx: "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet",
};
/** The media type of a file by the end of its name. */
const typeOf = (name: string): string => TYPES[name.split(".").at(-1) ?? ""] ?? "application/octet-stream";

/** How a job is begun with. */
interface Beginning {
  /** Drawings that came with it, by content hash. */
  readonly given?: ReadonlyMap<string, Uint8Array>;
  /** The stage it is shown at; a finished one is best met by its findings. */
  readonly begin?: Stage;
}

/** The sheet with most of the wiring; undefined where there is no sheet. */
function busiestSheet(job: Job): string | undefined {
  const count = (sheet: string) =>
    Object.values(job.elements).filter(({ viewport }) => job.viewports[viewport]?.sheet === sheet).length;
  return [...sheetsInOrder(job)].sort((a, b) => count(b) - count(a))[0];
}

/** The address says which job is on the desk, so that loading the page again comes back to it. */
function rememberJob(id: string | null): void {
  const address = new URL(window.location.href);
  address.search = id === null ? "" : `?job=${id}`;
  window.history.replaceState(null, "", address);
}
