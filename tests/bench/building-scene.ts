import { type Face, makeFace } from "../../src/geometry/face.ts";
import { planeFromSlope } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { inches } from "../../src/units/quantity.ts";

/** A run of the scene: its vertices (axis) and its radius. */
export interface SceneRun {
  readonly vertices: readonly Point3[];
  readonly radius: number;
}

/**
 * A large invented building: `columns` x `rows` deck bays of 30 by 25 ft, each a face of its own at a slope of 1/4 in.
 * per foot to one of four sides (some bays cut to an L, some with an opening), and runs that go square to the grid a
 * little below the deck, some of them too near.
 */
export function buildingScene(random: () => number, columns: number, rows: number, runs: number, segments: number) {
  const [width, depth] = [360, 300];
  const faces: Face[] = [];
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) faces.push(bay(random, i * width, j * depth, width, depth));
  }
  const [east, north] = [columns * width, rows * depth];
  const list: SceneRun[] = Array.from({ length: runs }, () => {
    let at: Point3 = [random() * east, random() * north, 144 - 1 - 12 * random()];
    const vertices = [at];
    let along = random() < 0.5;
    for (let k = 0; k < segments; k++) {
      const step = (random() < 0.5 ? -1 : 1) * (24 + 240 * random());
      const [x, y]: Point2 = along ? [at[0] + step, at[1]] : [at[0], at[1] + step];
      const z = random() < 0.8 ? at[2] : 144 - 1 - 12 * random();
      at = [Math.min(east, Math.max(0, x)), Math.min(north, Math.max(0, y)), z];
      vertices.push(at);
      along = !along;
    }
    return { vertices, radius: [0.353, 0.461, 0.5815, 1.0985][Math.floor(random() * 4)]! };
  });
  return { faces, runs: list };
}

function bay(random: () => number, x: number, y: number, w: number, d: number): Face {
  const kind = random();
  const outline: Point2[] =
    kind < 0.15
      ? [
          [x, y],
          [x + w, y],
          [x + w, y + d / 2],
          [x + w / 2, y + d / 2],
          [x + w / 2, y + d],
          [x, y + d],
        ]
      : [
          [x, y],
          [x + w, y],
          [x + w, y + d],
          [x, y + d],
        ];
  const holes: Point2[][] =
    kind > 0.9
      ? [
          [
            [x + 100, y + 100],
            [x + 160, y + 100],
            [x + 160, y + 160],
            [x + 100, y + 160],
          ],
        ]
      : [];
  const sides: Point2[] = [
    [1, 0],
    [0, 1],
    [-1, 0],
    [0, -1],
  ];
  const downhill = sides[Math.floor(random() * 4)]!;
  const slope = random() < 0.3 ? 0 : 1 / 48;
  return makeFace({ outline, holes }, planeFromSlope([x + w / 2, y + d / 2], inches(144), slope, downhill));
}
