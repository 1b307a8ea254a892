import type Flatbush from "flatbush";
import type { SceneRun } from "./building-scene.ts";

/** The floor of a check: every segment of the runs through the index of the faces' boxes alone, `limit` beyond its radius. Answers the hits. */
export function bareQueries(tree: Flatbush, runs: readonly SceneRun[], limit: number): number {
  let hits = 0;
  for (const { vertices, radius } of runs) {
    const reach = limit + radius;
    for (let i = 1; i < vertices.length; i++) {
      const [p, q] = [vertices[i - 1]!, vertices[i]!];
      hits += tree.search(
        Math.min(p[0], q[0]) - reach,
        Math.min(p[1], q[1]) - reach,
        Math.max(p[0], q[0]) + reach,
        Math.max(p[1], q[1]) + reach,
      ).length;
    }
  }
  return hits;
}
