import { checkJob } from "../../src/check/check-job.ts";
import { makeFaceIndex } from "../../src/geometry/face-index.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { type BenchRow, benchRow, leastTime } from "./bench-row.ts";
import { buildingScene } from "./building-scene.ts";
import { buildingJob, SEED } from "./check-job.bench.ts";
import { answerOf } from "./forced-answer.ts";
import { leastByManifold, leastByMeshTree } from "./mesh-peers.mts";

const RUNS = 10_000;
const SEGMENTS = 10;
/** Runs whose least distances the mesh libraries work out: the first of the same job, which was drawn at random. */
const SAMPLE = 100;

/**
 * The whole check, from the job to verdicts, least distances and stretches, for each segment, beside what libraries for meshes need for the least
 * distances of segments of the same job alone. What they make of the decks beforehand is not counted; what the check makes of them is.
 */
export async function run(): Promise<BenchRow[]> {
  const job = buildingJob(40, 25, RUNS, SEGMENTS);
  const { faces, runs } = buildingScene(seeded(SEED), 40, 25, RUNS, SEGMENTS);
  const sample = runs
    .slice(0, SAMPLE)
    .flatMap(({ vertices, radius }) => vertices.slice(1).map((q, i) => ({ p: vertices[i]!, q, radius })));
  const byManifold = await leastByManifold(faces, makeFaceIndex(faces));
  const byTree = leastByMeshTree(faces);
  let sink = 0;
  const keep = (n: number): void => {
    sink += n;
  };
  const each = leastTime(5, () => answerOf(checkJob(job)), keep) / (RUNS * SEGMENTS);
  const solids = leastTime(3, () => byManifold(sample), keep) / sample.length;
  const triangles = leastTime(5, () => byTree(sample), keep) / sample.length;
  if (!(sink > 0)) throw new Error("nothing was measured");
  return [
    benchRow(
      "the whole check, one of 100,000 segments",
      each,
      "one segment, manifold-3d minGap, 16 sides",
      solids,
      `${sample.length} segments of the same job; 0.02 = 50 times faster; decks built beforehand`,
    ),
    benchRow(
      "the whole check, one of 100,000 segments",
      each,
      "one segment, three-mesh-bvh",
      triangles,
      "one tree over all decks, built beforehand",
    ),
  ];
}
