import * as functions from "idb-keyval";
import { indexedDbStore } from "../../src/store/indexed-db-store.ts";
import { jobStoreContract } from "../contract/job-store-contract.ts";

/** Runs one case of the storage contract inside a page, on databases named for it alone. */
async function runCase(name: string): Promise<void> {
  const place = `contract ${name}`;
  await jobStoreContract[name]!(indexedDbStore(functions, place), indexedDbStore(functions, place));
}

Object.assign(globalThis, { runCase });
