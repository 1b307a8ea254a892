import { describe, expect, test } from "vitest";
import { checkJob } from "../../src/check/check-job.ts";
import { parseJob } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { seeded } from "../geometry/random-scenes.ts";
import type { Kind, Random } from "./drawn-scenes.ts";
import type { PlainScene } from "./plain-check.ts";
import { blockToSurface, heightOf, type Place, stickToSurface } from "./plain-distance.ts";
import { randomJob } from "./random-jobs.ts";

/*
 * What readings that may be off can make of an element: it is moved as far as they admit, down and up, and about in plan, and its
 * distance worked out plainly each time. A verdict of clear has to hold wherever it may be.
 */
const seed = Number(process.env.SCENES_SEED ?? Math.floor(Date.now() / 86_400_000));
const KINDS: readonly Kind[] = ["level", "sloped", "spots", "folded", "boxes"];
const SCENES = 150;

const withTolerances = (job: Job, tags: number, decks: number, plan: number): Job => {
  const of = (value: number) => ({ value, unit: "in" as const });
  const tolerances = { tags: of(tags), decks: of(decks), plan: of(plan) };
  return { ...job, settings: { job: { ...job.settings.job, tolerances } } };
};

const moved = ([x, y, z]: Place, by: Place): Place => [x + by[0], y + by[1], z + by[2]];

/** The least distance from an element, moved by so much, to any roof; undefined where some of it comes above one. */
function distance(scene: PlainScene, id: string, by: Place): number | undefined {
  const roofs = scene.areas.filter((area) => area.is === "roof").flatMap((area) => area.surfaces ?? []);
  const run = scene.runs.find((each) => each.id === id);
  const box = scene.boxes.find((each) => each.id === id);
  const places = run ? run.points : box ? [box.block.centre] : [];
  if (places.some((at) => roofs.some((roof) => heightOf(roof, [at[0], at[1]]) < at[2] + by[2] + 1))) return undefined;
  const all = roofs.map((roof) => {
    if (box) return blockToSurface({ ...box.block, centre: moved(box.block.centre, by) }, roof);
    const points = run!.points.map((at) => moved(at, by));
    return Math.min(...points.slice(1).map((q, i) => stickToSurface({ p: points[i]!, q }, roof))) - run!.radius;
  });
  return Math.min(...all);
}

/** Moves to the ends of what the readings admit, and one of none. */
function moves(random: Random, upright: number, plan: number): Place[] {
  const turns = Array.from({ length: 5 }, () => 2 * Math.PI * random());
  const around = turns.map((t): [number, number] => [plan * Math.cos(t), plan * Math.sin(t)]);
  return [[0, 0] as const, ...around].flatMap(([x, y]): Place[] => [
    [x, y, upright],
    [x, y, -upright],
    [x, y, 0],
  ]);
}

describe(`verdicts where readings may be off (SCENES_SEED=${seed})`, () => {
  test.each(KINDS)("%s: clear stays clear wherever it may be, and nothing is nearer than the interval says", (kind) => {
    const wrong: string[] = [];
    const seen = new Map<string, number>();
    for (let number = 0; number < SCENES; number++) {
      const random = seeded(seed * 131 + number);
      const { scene, json } = randomJob(kind, random);
      const parsed = parseJob(json);
      if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
      const [tags, decks, plan] = [0.5 * random(), 0.25 * random(), random() < 0.5 ? 0 : random()];
      const { findings } = checkJob(withTolerances(parsed.value, tags, decks, plan));
      for (const { elementId, verdict, requiredIn, intervalIn } of findings) {
        if (!intervalIn || !["clear", "borderline", "too-close"].includes(verdict)) continue;
        const each = moves(random, tags + decks, plan).map((by) => distance(scene, elementId, by));
        if (each.some((d) => d === undefined)) continue;
        seen.set(verdict, (seen.get(verdict) ?? 0) + 1);
        const least = Math.min(...(each as number[]));
        const where = `SCENES_SEED=${seed}, ${kind} ${number}, ${elementId}`;
        if (verdict === "clear" && least < requiredIn - 1e-6) wrong.push(`${where}: clear, and may be ${least}`);
        if (least < intervalIn[0] - 1e-6) wrong.push(`${where}: not less than ${intervalIn[0]}, and may be ${least}`);
        if (verdict === "borderline" && !(intervalIn[0] < requiredIn && intervalIn[1] >= requiredIn - 1e-6))
          wrong.push(`${where}: borderline from ${intervalIn[0]} to ${intervalIn[1]}`);
      }
    }
    expect(wrong.slice(0, 8), `${wrong.length}`).toEqual([]);
    for (const verdict of ["clear", "borderline"]) expect(seen.get(verdict), verdict).toBeGreaterThan(3);
  });
});
