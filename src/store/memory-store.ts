import type { JobStore } from "./job-store.ts";
import { type KeptRecord, type Keyed, keyedStore } from "./keyed-store.ts";

/** A store that lasts as long as the program: for tests, and where nothing else may be used. */
export function memoryStore(): JobStore {
  return keyedStore(keyedMemory<KeptRecord>(), keyedMemory<Uint8Array>());
}

function keyedMemory<T>(): Keyed<T> {
  const held = new Map<string, T>();
  return {
    get: async (key) => structuredClone(held.get(key)),
    set: async (key, value) => void held.set(key, structuredClone(value)),
    update: async (key, change) => void held.set(key, structuredClone(change(structuredClone(held.get(key))))),
    delete: async (keys) => {
      for (const key of keys) held.delete(key);
    },
    keys: async () => [...held.keys()],
    values: async () => [...held.values()].map((value) => structuredClone(value)),
  };
}
