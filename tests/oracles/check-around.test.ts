import { describe, expect, test } from "vitest";
import { aroundAny, checkElement } from "../../src/check/check-element.ts";
import { BareFinding } from "../../src/check/found-finding.ts";
import { checkKindOf } from "../../src/check/kinds/kinds.ts";
import { surveyOf } from "../../src/check/round-survey.ts";
import { makeScene } from "../../src/check/scene.ts";
import { parseJob } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { buildingJob } from "../bench/check-job.bench.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { KINDS, type Kind } from "./drawn-scenes.ts";
import { randomJob } from "./random-jobs.ts";

/*
 * What is around most elements is found in one pass over numbers side by side; its slow twin asks piece by piece. Both have to come to the very same
 * findings, to the last bit. The seed is the number of the day unless SCENES_SEED names one.
 */
const seed = Number(process.env.SCENES_SEED ?? Math.floor(Date.now() / 86_400_000));

const inch = (value: number) => ({ value, unit: "in" as const });

/** The same job with every reading in doubt, and couplings on every run. */
const inDoubt = (job: Job): Job => ({
  ...job,
  settings: {
    ...job.settings,
    job: { ...job.settings.job, tolerances: { tags: inch(1 / 8), decks: inch(1 / 4), plan: inch(1 / 2) } },
  },
  elements: Object.fromEntries(
    Object.entries(job.elements).map(([id, element]) => [
      id,
      element.kind === "run" ? { ...element, couplings: { is: "own", length: inch(2) } } : element,
    ]),
  ),
});

/** The findings of every element, found both ways, and of how many elements the quick way could tell. */
function bothWays(job: Job) {
  const scene = makeScene(job);
  let quick = 0;
  const pairs = Object.entries(job.elements).map(([id, element]) => {
    const kind = checkKindOf(element);
    if (!kind.findings && !kind.members) {
      const shape = kind.shape(scene, element, id);
      if (shape.pieces.length > 0 && surveyOf(scene.frame(shape.root ?? "")).around(scene, shape)) quick++;
    }
    const bare = (find?: typeof aroundAny) =>
      checkElement(scene, id, element, undefined, find).map((finding) => new BareFinding(finding));
    return [bare(), bare(aroundAny)] as const;
  });
  return { pairs, quick };
}

describe(`elements surveyed in one pass and piece by piece have the same findings (SCENES_SEED=${seed})`, () => {
  test.each(Object.keys(KINDS) as Kind[])(
    "%s",
    (kind) => {
      for (let number = 0; number < 120; number++) {
        const { json } = randomJob(kind, seeded(seed * 100_003 + number * 37 + kind.length));
        const job = parseJob(json);
        if (!job.ok) continue;
        for (const [quick, slow] of bothWays(number % 2 === 0 ? job.value : inDoubt(job.value)).pairs)
          expect(quick, `SCENES_SEED=${seed}, ${kind}, scene ${number}`).toEqual(slow);
      }
    },
    60_000,
  );

  test("a building of many bays, nearly all of it by the quick way", () => {
    const job = buildingJob(6, 5, 400, 10);
    const { pairs, quick } = bothWays(job);
    for (const [one, other] of [...pairs, ...bothWays(inDoubt(job)).pairs]) expect(one).toEqual(other);
    expect(quick).toBeGreaterThan(300);
    expect(new Set(pairs.flatMap(([found]) => found.map(({ verdict }) => verdict))).size).toBeGreaterThan(3);
  });
});
