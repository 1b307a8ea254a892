import { emptyJob, type Job } from "../../src/job/schema.ts";
import type { JobStore } from "../../src/store/job-store.ts";
import { sha256 } from "../../src/store/sha256.ts";
import { StorageError } from "../../src/store/storage-error.ts";

/** Fails with both values where `actual` is not `expected`; plain, so that the contract also runs inside a page. */
function same(actual: unknown, expected: unknown, what: string): void {
  const [a, b] = [JSON.stringify(actual), JSON.stringify(expected)];
  if (a !== b) throw new Error(`${what}: expected ${b}, found ${a}`);
}

const codeOf = (thrown: unknown): string => (thrown instanceof StorageError ? thrown.problem.code : String(thrown));

async function refusal(act: Promise<unknown>): Promise<string> {
  try {
    await act;
  } catch (thrown) {
    return codeOf(thrown);
  }
  return "nothing was refused";
}

function jobWith(name: string, ...hashes: string[]): Job {
  const job = emptyJob(name, "us-2023");
  hashes.forEach((hash, i) => {
    job.sheets[`s${i}`] = {
      title: `E-${i + 1}`,
      file: { sha256: hash, name: `plan-${i + 1}.pdf`, bytes: 3 },
      page: 1,
      view: [0, 0, 100, 100],
      rotate: 0,
      userUnit: 1,
    };
  });
  return job;
}

/** What every storage adapter has to do, by name. Each case gets an empty store, and another opened on the same place. */
export const jobStoreContract: Readonly<Record<string, (store: JobStore, again: JobStore) => Promise<void>>> = {
  "answers undefined for a job it does not keep": async (store) => {
    same(await store.load("nothing"), undefined, "load");
    same(await store.list(), [], "list");
  },
  "gives back the job that was saved, also when opened again": async (store, again) => {
    const job = jobWith("North wing", "a".repeat(64));
    same(await store.save("j", job, { at: "2026-01-05T10:00:00Z", after: 0 }), 1, "revision");
    const expected = { ok: true, value: { job, revision: 1 } };
    same(await store.load("j"), expected, "load");
    same(await again.load("j"), expected, "load by a second one");
  },
  "keeps no tie to the object that was saved": async (store) => {
    const job = jobWith("North wing");
    await store.save("j", job, { at: "2026-01-05T10:00:00Z", after: 0 });
    job.settings.job.name = "changed after";
    const loaded = await store.load("j");
    same(loaded?.ok && loaded.value.job.settings.job.name, "North wing", "name");
  },
  "has completed the transaction when a save resolves": async (store, again) => {
    for (let i = 0; i < 5; i++) {
      await store.save("j", jobWith(`Name ${i}`), { at: "2026-01-05T10:00:00Z", after: i });
      const seen = await again.load("j");
      same(seen?.ok && [seen.value.job.settings.job.name, seen.value.revision], [`Name ${i}`, i + 1], "seen elsewhere");
    }
  },
  "refuses to overwrite what another one saved meanwhile": async (store, again) => {
    await store.save("j", jobWith("first"), { at: "2026-01-05T10:00:00Z", after: 0 });
    await again.save("j", jobWith("theirs"), { at: "2026-01-05T10:01:00Z", after: 1 });
    const save = store.save("j", jobWith("mine"), { at: "2026-01-05T10:02:00Z", after: 1 });
    same(await refusal(save), "storage.changed-elsewhere", "refusal");
    const kept = await store.load("j");
    same(kept?.ok && kept.value.job.settings.job.name, "theirs", "kept");
    same(
      (await store.list()).map((entry) => entry.revision),
      [2],
      "revision",
    );
  },
  "lists jobs, last saved first": async (store) => {
    await store.save("b", jobWith("Older"), { at: "2026-01-05T10:00:00Z", after: 0 });
    await store.save("a", jobWith("Newer"), { at: "2026-01-06T10:00:00Z", after: 0 });
    same(
      await store.list(),
      [
        { id: "a", name: "Newer", savedAt: "2026-01-06T10:00:00Z", revision: 1 },
        { id: "b", name: "Older", savedAt: "2026-01-05T10:00:00Z", revision: 1 },
      ],
      "list",
    );
  },
  "knows drawings by their content": async (store, again) => {
    const bytes = Uint8Array.of(37, 80, 68, 70);
    const hash = await store.drawings.put(bytes);
    same(hash, await sha256(bytes), "hash");
    same(await again.drawings.has(hash), true, "has");
    same(await store.drawings.has("0".repeat(64)), false, "has not");
    same(await store.drawings.get("0".repeat(64)), undefined, "get");
    bytes[0] = 0;
    same([...((await again.drawings.get(hash)) ?? [])], [37, 80, 68, 70], "bytes");
    same(await store.drawings.put(Uint8Array.of(37, 80, 68, 70)), hash, "put twice");
  },
  "forgets a job with the drawings that no other job uses": async (store) => {
    const shared = await store.drawings.put(Uint8Array.of(1));
    const own = await store.drawings.put(Uint8Array.of(2));
    const unused = await store.drawings.put(Uint8Array.of(3));
    await store.save("a", jobWith("A", shared, own), { at: "2026-01-05T10:00:00Z", after: 0 });
    await store.save("b", jobWith("B", shared), { at: "2026-01-05T10:00:00Z", after: 0 });
    await store.delete("a");
    await store.delete("a");
    same(
      (await store.list()).map(({ id }) => id),
      ["b"],
      "jobs",
    );
    same(
      await Promise.all([shared, own, unused].map((hash) => store.drawings.has(hash))),
      [true, false, true],
      "drawings",
    );
    same(await store.load("a"), undefined, "load");
    same(await store.save("a", jobWith("A again"), { at: "2026-01-05T10:00:00Z", after: 0 }), 1, "saved anew");
  },
};
