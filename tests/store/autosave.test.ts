import { beforeEach, describe, expect, test } from "vitest";
import { emptyJob, type Job } from "../../src/job/schema.ts";
import { type AutosaveOptions, createAutosave } from "../../src/store/autosave.ts";
import { StorageError } from "../../src/store/storage-error.ts";

interface Attempt {
  readonly name: string;
  readonly after: number;
  complete(): void;
  refuse(error: unknown): void;
}

let said: string[];
let attempts: Attempt[];
let pending: (() => void)[];

const named = (name: string): Job => emptyJob(name, "us-2023");
/** Lets every promise that can settle do so. */
const settle = () => new Promise<void>((resolve) => setImmediate(resolve));
const pauseEnds = () => {
  const due = pending;
  pending = [];
  for (const then of due) then();
};

function autosave(revision = 0) {
  const options: AutosaveOptions = {
    store: {
      save: (_id, job, { after }) =>
        new Promise((resolve, reject) => {
          attempts.push({
            name: job.settings.job.name,
            after,
            complete: () => resolve(after + 1),
            refuse: reject,
          });
        }),
    },
    id: "j",
    revision,
    now: () => "2026-01-05T10:00:00Z",
    pause: (then) => {
      pending.push(then);
      return () => {
        pending = pending.filter((other) => other !== then);
      };
    },
    onState: (state) => void said.push(state.is === "not-saved" ? state.problem.code : state.is),
  };
  return createAutosave(options);
}

beforeEach(() => {
  said = [];
  attempts = [];
  pending = [];
});

describe("autosave", () => {
  test("says saved only when the save has completed", async () => {
    const it = autosave();
    it.changed(named("one"));
    expect(said).toEqual(["saving"]);
    pauseEnds();
    await settle();
    expect(attempts).toHaveLength(1);
    expect(said).not.toContain("saved");
    attempts[0]!.complete();
    await settle();
    expect(said.at(-1)).toBe("saved");
  });

  test("waits for the pause after the last change, and saves the newest job once", async () => {
    const it = autosave();
    it.changed(named("one"));
    it.changed(named("two"));
    expect(pending).toHaveLength(1);
    pauseEnds();
    await settle();
    expect(attempts.map(({ name }) => name)).toEqual(["two"]);
  });

  test("does not say saved for a job that changed while it was being saved, and builds on the completed save", async () => {
    const it = autosave(4);
    it.changed(named("one"));
    pauseEnds();
    it.changed(named("two"));
    attempts[0]!.complete();
    await settle();
    expect(said).not.toContain("saved");
    expect(attempts.map(({ name, after }) => [name, after])).toEqual([
      ["one", 4],
      ["two", 5],
    ]);
    attempts[1]!.complete();
    await settle();
    expect(said.at(-1)).toBe("saved");
  });

  test("says why it is not saved, and tries again with the next change or a flush", async () => {
    const it = autosave();
    it.changed(named("one"));
    pauseEnds();
    attempts[0]!.refuse(Object.assign(new Error("no room"), { name: "QuotaExceededError" }));
    await settle();
    expect(said.at(-1)).toBe("storage.full");
    expect(attempts).toHaveLength(1);
    const flushed = it.flush();
    await settle();
    expect(attempts[1]).toMatchObject({ name: "one", after: 0 });
    attempts[1]!.refuse(new StorageError("changed-elsewhere", "j"));
    await flushed;
    expect(said.at(-1)).toBe("storage.changed-elsewhere");
    it.changed(named("two"));
    pauseEnds();
    attempts[2]!.complete();
    await settle();
    expect(said.at(-1)).toBe("saved");
  });

  test("tries a newer job at once when the older one failed", async () => {
    const it = autosave();
    it.changed(named("one"));
    pauseEnds();
    it.changed(named("two"));
    attempts[0]!.refuse(new Error("gone"));
    await settle();
    expect(attempts.map(({ name }) => name)).toEqual(["one", "two"]);
  });

  test("a flush saves without waiting, and resolves when nothing is left", async () => {
    const it = autosave();
    await it.flush();
    expect(attempts).toEqual([]);
    it.changed(named("one"));
    let isDone = false;
    const flushed = it.flush().then(() => {
      isDone = true;
    });
    expect(pending).toEqual([]);
    await settle();
    expect(isDone).toBe(false);
    attempts[0]!.complete();
    await flushed;
    expect(said.at(-1)).toBe("saved");
  });

  test("saves nothing more once stopped", async () => {
    const it = autosave();
    it.changed(named("one"));
    it.stop();
    pauseEnds();
    await it.flush();
    expect(attempts).toEqual([]);
  });
});
