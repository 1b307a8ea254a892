import { drawingFiles } from "../job/drawing-files.ts";
import { jobText, parseJobText } from "../job/parse-job.ts";
import type { Job } from "../job/schema.ts";
import { ok } from "../units/problem.ts";
import type { JobStore, KeptJob } from "./job-store.ts";
import { sha256 } from "./sha256.ts";
import { StorageError } from "./storage-error.ts";

/** What an adapter supplies: values by key. Every promise resolves when its transaction has completed; `update` is one transaction. */
export interface Keyed<T> {
  get(key: string): Promise<T | undefined>;
  set(key: string, value: T): Promise<void>;
  /** Replaces the value by what `change` makes of it; when `change` throws, nothing changes and the promise rejects with what it threw. */
  update(key: string, change: (before: T | undefined) => T): Promise<void>;
  delete(keys: readonly string[]): Promise<void>;
  keys(): Promise<readonly string[]>;
  values(): Promise<readonly T[]>;
}

/** A job as it is kept: its text (what a job file holds), and what a list shows without reading it. */
export interface KeptRecord extends KeptJob {
  /** Content hashes of the drawings it refers to. */
  readonly drawings: readonly string[];
  readonly text: string;
}

/** A `JobStore` over two tables of values by key, one for jobs and one for drawings. `textOf` writes a job, as `jobText` does: elsewhere, where that would take long here. */
export function keyedStore(
  jobs: Keyed<KeptRecord>,
  drawings: Keyed<Uint8Array>,
  textOf: (job: Job) => string | Promise<string> = jobText,
): JobStore {
  return {
    async save(id, job, { at, after }) {
      const record: KeptRecord = {
        id,
        name: job.settings.job.name,
        savedAt: at,
        revision: after + 1,
        drawings: drawingFiles(job).map(({ sha256 }) => sha256),
        text: await textOf(job),
      };
      await trying(id, () =>
        jobs.update(id, (before) => {
          if ((before?.revision ?? 0) !== after) throw new StorageError("changed-elsewhere", id);
          return record;
        }),
      );
      return record.revision;
    },

    async load(id) {
      const record = await trying(id, () => jobs.get(id));
      if (!record) return undefined;
      const parsed = parseJobText(record.text);
      return parsed.ok ? ok({ job: parsed.value, revision: record.revision }) : parsed;
    },

    async list() {
      const records = await trying("", () => jobs.values());
      return records
        .map(({ id, name, savedAt, revision }) => ({ id, name, savedAt, revision }))
        .sort((a, b) => (a.savedAt === b.savedAt ? compare(a.id, b.id) : compare(b.savedAt, a.savedAt)));
    },

    delete: (id) =>
      trying(id, async () => {
        const records = await jobs.values();
        const gone = records.find((record) => record.id === id);
        if (!gone) return;
        const used = new Set(records.filter((record) => record.id !== id).flatMap((record) => record.drawings));
        await jobs.delete([id]);
        await drawings.delete(gone.drawings.filter((hash) => !used.has(hash)));
      }),

    drawings: {
      async put(bytes) {
        const hash = await sha256(bytes);
        await trying(hash, () => drawings.set(hash, bytes));
        return hash;
      },
      get: (hash) => trying(hash, () => drawings.get(hash)),
      has: async (hash) => (await trying(hash, () => drawings.keys())).includes(hash),
    },
  };
}

const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

async function trying<T>(where: string, act: () => Promise<T>): Promise<T> {
  try {
    return await act();
  } catch (thrown) {
    throw StorageError.from(thrown, where);
  }
}
