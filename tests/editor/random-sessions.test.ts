import { readdirSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { ACTS } from "../../src/editor/acts.ts";
import { addStorey } from "../../src/editor/edits/storeys.ts";
import { jobText } from "../../src/job/parse-job.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { EDITS, NO_EDITS } from "./random-edits.ts";
import { RandomSession } from "./random-session.ts";
import { furnished } from "./sample-job.ts";

/** How many edits a session is long, and how many sessions there are; more of them by RANDOM_SESSIONS, from another start by RANDOM_SEED. */
const LONG = 500;
const SESSIONS = Number(process.env.RANDOM_SESSIONS ?? 3);
const SEED = Number(process.env.RANDOM_SEED ?? 20_261_125);
/** Milliseconds; many times what a session takes. */
const PATIENCE = 60_000;

/** What came of all sessions. */
const came = new Map<string, number>();

function begin(seed: number): RandomSession {
  const job = furnished();
  return new RandomSession(
    applyChecked(job, addStorey(job, "level-2", { name: "Level 2", floor: { value: 14, unit: "ft" } })),
    seed,
  );
}

describe(`random sessions of ${LONG} edits`, () => {
  for (const seed of Array.from({ length: SESSIONS }, (_, i) => SEED + i))
    it(
      `are taken back to the first byte and done again to the last, step by step the same records (seed ${seed})`,
      () => {
        const random = begin(seed);
        const { session } = random;
        const first = jobText(random.state.job);
        random.until(LONG);
        const last = jobText(random.state.job);
        expect(last).not.toBe(first);
        for (let left = LONG; left > 0; left--) {
          session.undo();
          expect(random.state.undo).toHaveLength(left - 1);
          random.hold();
        }
        expect(jobText(random.state.job)).toBe(first);
        for (let done = 1; done <= LONG; done++) {
          session.redo();
          expect(random.state.undo).toHaveLength(done);
          random.hold();
        }
        expect(jobText(random.state.job)).toBe(last);
        for (const [what, times] of random.came) came.set(what, (came.get(what) ?? 0) + times);
      },
      PATIENCE,
    );

  it("do every kind of edit there is: one that a file of edits hands out is among them", async () => {
    const handed: string[] = [];
    for (const file of readdirSync("src/editor/edits"))
      for (const [name, value] of Object.entries(await import(/* @vite-ignore */ `../../src/editor/edits/${file}`)))
        if (typeof value === "function") handed.push(name);
    expect(handed.filter((name) => !(name in EDITS) && !NO_EDITS.includes(name))).toEqual([]);
    expect(NO_EDITS.filter((name) => !handed.includes(name))).toEqual([]);
  });

  it("come to edits by nearly every kind of edit, and by many acts", () => {
    const idle = Object.keys(EDITS).filter((name) => !came.has(name));
    expect(idle.length, `never came to anything: ${idle.join(", ")}`).toBeLessThanOrEqual(
      Object.keys(EDITS).length / 5,
    );
    expect(ACTS.filter(({ id }) => came.has(id)).length).toBeGreaterThan(8);
    if (process.env.RANDOM_TOLD)
      console.log(
        [...came].sort(([, a], [, b]) => b - a),
        idle,
      );
  });
});
