import Flatbush from "flatbush";
import { nearStretches } from "../../src/geometry/clearance.ts";
import { makeFaceIndex } from "../../src/geometry/face-index.ts";
import { totalLength } from "../../src/geometry/interval-set.ts";
import { isCloserThan } from "../../src/geometry/tolerance.ts";
import { inches } from "../../src/units/quantity.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { bareQueries } from "./bare-queries.ts";
import { type BenchRow, benchRow, leastTime, leastTimes } from "./bench-row.ts";
import { buildingScene } from "./building-scene.ts";
import { leastByManifold } from "./mesh-peers.mts";

const seed = 61;
const limit = 1.5;

/**
 * Checks a building of 10,000 runs (100,000 segments) under 1,000 faces, and prints each figure beside its floor: the
 * same segments through the bare index queries.
 */
export async function run(): Promise<BenchRow[]> {
  const random = seeded(seed);
  const { faces, runs } = buildingScene(random, 40, 25, 10_000, 10);
  const index = makeFaceIndex(faces);
  const tree = new Flatbush(faces.length);
  for (const { box } of faces) tree.add(box.min[0], box.min[1], box.max[0], box.max[1]);
  tree.finish();

  const bare = (share: number) => bareQueries(tree, runs.slice(0, runs.length * share), limit);

  let tooClose = 0;
  const check = (share: number) => {
    let length = 0;
    tooClose = 0;
    for (const { vertices, radius } of runs.slice(0, runs.length * share)) {
      const reach = inches(limit + radius);
      for (let i = 1; i < vertices.length; i++) {
        const p = vertices[i - 1]!;
        const q = vertices[i]!;
        const nearest = index.nearestToSegment(p, q);
        if (!nearest || !isCloserThan(nearest.distance, reach)) continue;
        tooClose++;
        for (const number of index.query({ p, q, radius: inches(radius) }, inches(limit))) {
          const known = number === nearest.face ? nearest : undefined;
          length += totalLength(nearStretches(p, q, faces[number]!, reach, known));
        }
      }
    }
    return length;
  };

  /** The same without the distance of what is clear: how far it is to faces beyond the limit is not asked. */
  const verdictsOnly = () => {
    let length = 0;
    for (const { vertices, radius } of runs) {
      const reach = inches(limit + radius);
      for (let i = 1; i < vertices.length; i++) {
        const p = vertices[i - 1]!;
        const q = vertices[i]!;
        for (const number of index.query({ p, q, radius: inches(radius) }, inches(limit))) {
          length += totalLength(nearStretches(p, q, faces[number]!, reach));
        }
      }
    }
    return length;
  };

  const results: number[] = [];
  const keep = (result: number) => results.push(result);
  const works = [() => bare(1), () => check(1), verdictsOnly, () => check(0.1)];
  const [bareMs = 0, checkMs = 0, verdictsMs = 0, tenth = 0] = leastTimes(9, works, keep);
  const percent = Math.round((100 * tooClose) / 10_000);

  const p = runs[0]!.vertices[0]!;
  const q = runs[0]!.vertices[1]!;
  const moves = 2_000;
  const moved = leastTime(
    7,
    () => {
      let sum = 0;
      for (let i = 0; i < moves; i++) {
        // A moved vertex changes the two segments that meet in it.
        const middle = [p[0] + 20 * random(), p[1] + 20 * random(), p[2]] as const;
        sum += (index.nearestToSegment(p, middle)?.distance ?? 0) + (index.nearestToSegment(middle, q)?.distance ?? 0);
      }
      return sum;
    },
    keep,
  );

  const sample = runs
    .slice(0, 60)
    .flatMap(({ vertices, radius }) => vertices.slice(1).map((q, i) => ({ p: vertices[i]!, q, radius })));
  const byManifold = await leastByManifold(faces, index);
  const meshMs = leastTime(3, () => byManifold(sample), keep);

  return [
    benchRow(
      "clearance: 100,000 segments, 1,000 faces, all exact",
      checkMs,
      "bare index queries",
      bareMs,
      `seed ${seed}; ${percent} % too close; sum ${results.reduce((a, b) => a + b, 0).toFixed(3)}`,
    ),
    benchRow(
      "clearance: 100,000 segments, 1,000 faces, verdicts and stretches",
      verdictsMs,
      "bare index queries",
      bareMs,
    ),
    benchRow(
      "clearance: one segment, all exact",
      checkMs / 100_000,
      "one segment, manifold-3d minGap, 16 sides",
      meshMs / sample.length,
      "a mesh library's own answer, decks built beforehand; ratio below 0.02 is 50 times faster",
    ),
    benchRow(
      "clearance: the same, per segment against a tenth of the runs",
      checkMs / 10,
      "a tenth of the runs",
      tenth,
      "1 = cost grows linearly",
    ),
    benchRow("clearance: one moved vertex", moved / moves, "one frame at 60 per second", 1000 / 60),
  ];
}
