import type { Job } from "../job/schema.ts";
import type { Result } from "../units/problem.ts";

/** What a list of kept jobs shows without opening them. */
export interface KeptJob {
  readonly id: string;
  /** The job's name when it was last saved. */
  readonly name: string;
  /** When it was last saved: ISO 8601, UTC. */
  readonly savedAt: string;
  /** Counts the saves of this job, from 1. */
  readonly revision: number;
}

/** When a job is saved, and which save it builds on. */
export interface SaveOptions {
  /** ISO 8601, UTC; the clock is the caller's. */
  readonly at: string;
  /** The revision the caller has in hand, 0 for a job never saved. */
  readonly after: number;
}

/**
 * Where jobs and drawings are kept. Every adapter passes the same contract (`tests/contract/job-store-contract.ts`). What the
 * surroundings refuse (no room, no permission, saved by another window meanwhile) rejects with a `StorageError`.
 */
export interface JobStore {
  /**
   * Keeps the job under `id`. Resolves to its new revision once the transaction has completed, not before. Rejects with
   * `storage.changed-elsewhere`, and keeps nothing, when the kept revision is not `after`.
   */
  save(id: string, job: Job, options: SaveOptions): Promise<number>;
  /** The job and its revision; undefined when none is kept under `id`; problems when what is kept is not readable here. */
  load(id: string): Promise<Result<{ readonly job: Job; readonly revision: number }> | undefined>;
  /** Every kept job, last saved first. */
  list(): Promise<readonly KeptJob[]>;
  /** Forgets the job, and its drawings where no other kept job refers to them. Forgetting what is not there is no error. */
  delete(id: string): Promise<void>;
  readonly drawings: DrawingStore;
}

/** Drawings by content hash: the same file is kept once, however many jobs and names it has. */
export interface DrawingStore {
  /** Keeps the bytes; resolves to their SHA-256 once the transaction has completed. */
  put(bytes: Uint8Array): Promise<string>;
  /** The bytes (the caller's own copy), or undefined. */
  get(sha256: string): Promise<Uint8Array | undefined>;
  has(sha256: string): Promise<boolean>;
}
