import { describe, test } from "vitest";
import { memoryStore } from "../../src/store/memory-store.ts";
import { jobStoreContract } from "../contract/job-store-contract.ts";

describe("the memory store keeps the contract", () => {
  for (const [name, holds] of Object.entries(jobStoreContract)) {
    test(name, async () => {
      const store = memoryStore();
      await holds(store, store);
    });
  }
});
