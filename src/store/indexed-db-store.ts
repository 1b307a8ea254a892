import type { Job } from "../job/schema.ts";
import type { JobStore } from "./job-store.ts";
import { type KeptRecord, type Keyed, keyedStore } from "./keyed-store.ts";

/**
 * The functions of `idb-keyval` that are used here, passed in so that this module loads where there is no IndexedDB. Those that
 * write resolve when their transaction has completed.
 */
export interface KeyValueFunctions<S> {
  readonly createStore: (database: string, table: string) => S;
  readonly get: <T>(key: string, store: S) => Promise<T | undefined>;
  readonly set: (key: string, value: unknown, store: S) => Promise<void>;
  readonly update: <T>(key: string, change: (before: T | undefined) => T, store: S) => Promise<void>;
  readonly delMany: (keys: string[], store: S) => Promise<void>;
  readonly keys: <K extends IDBValidKey>(store: S) => Promise<K[]>;
  readonly values: <T>(store: S) => Promise<T[]>;
}

/** A store in the browser's IndexedDB: two databases, `NAME-jobs` and `NAME-drawings`. `textOf`: what writes jobs, if not this thread. */
export function indexedDbStore<S>(
  functions: KeyValueFunctions<S>,
  name = "underside",
  textOf?: (job: Job) => Promise<string>,
): JobStore {
  const table = <T>(of: string): Keyed<T> => {
    const store = functions.createStore(`${name}-${of}`, of);
    return {
      get: (key) => functions.get<T>(key, store),
      set: (key, value) => functions.set(key, value, store),
      update: (key, change) => functions.update<T>(key, change, store),
      delete: (keys) => functions.delMany([...keys], store),
      keys: () => functions.keys<string>(store),
      values: () => functions.values<T>(store),
    };
  };
  return keyedStore(table<KeptRecord>("jobs"), table<Uint8Array>("drawings"), textOf);
}
