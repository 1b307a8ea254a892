import Module from "manifold-3d";
import { BufferAttribute, BufferGeometry, Line3, ShapeUtils, Vector2, Vector3 } from "three";
import { MeshBVH } from "three-mesh-bvh";
import type { Face } from "../../src/geometry/face.ts";
import type { FaceIndex } from "../../src/geometry/face-index.ts";
import { elevationAt } from "../../src/geometry/plane.ts";
import type { Point2, Point3 } from "../../src/geometry/point.ts";
import { signedArea } from "../../src/geometry/polygon.ts";
import { inches } from "../../src/units/quantity.ts";

/** A round segment, building space, inches. */
export interface Tube {
  readonly p: Point3;
  readonly q: Point3;
  readonly radius: number;
}

const SIDES = 16;
const SEARCHED_IN = 12;

const ringOf = (points: readonly Point2[], sign: number): readonly Point2[] =>
  signedArea(points) * sign < 0 ? [...points].reverse() : points;

/** The sum of the least gaps of tubes to the faces within 12 in., by manifold-3d: tubes as cylinders of 16 sides. Decks are made and kept at the first call. */
export async function leastByManifold(
  faces: readonly Face[],
  index: FaceIndex,
): Promise<(tubes: readonly Tube[]) => number> {
  const solid = await Module();
  solid.setup();
  const { Manifold } = solid;
  const decks = new Map<number, InstanceType<typeof Manifold>>();
  const deck = (number: number) => {
    const { polygon, plane } = faces[number]!;
    const rings = [ringOf(polygon.outline, 1), ...polygon.holes.map((hole) => ringOf(hole, -1))];
    const made =
      decks.get(number) ??
      Manifold.extrude(
        rings.map((ring) => ring.map(([x, y]): [number, number] => [x, y])),
        1e-4,
      ).transform([1, 0, plane.gx, 0, 0, 1, plane.gy, 0, 0, 0, 1, 0, 0, 0, plane.c, 1]);
    decks.set(number, made);
    return made;
  };
  return (tubes) => {
    let sum = 0;
    for (const { p, q, radius } of tubes) {
      const length = Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]);
      if (length === 0) continue;
      const tilt = (Math.acos((q[2] - p[2]) / length) * 180) / Math.PI;
      const turn = (Math.atan2(q[1] - p[1], q[0] - p[0]) * 180) / Math.PI;
      const upright = Manifold.cylinder(length, radius, radius, SIDES);
      const turned = upright.rotate([0, tilt, turn]);
      const tube = turned.translate([...p]);
      let least = SEARCHED_IN;
      for (const number of index.query({ p, q, radius: inches(radius) }, inches(SEARCHED_IN)))
        least = Math.min(least, tube.minGap(deck(number), SEARCHED_IN));
      sum += least;
      for (const used of [upright, turned, tube]) used.delete();
    }
    return sum;
  };
}

/** The sum of the least distances of tubes to all faces, by three-mesh-bvh: the axes against the triangles of one tree made beforehand. */
export function leastByMeshTree(faces: readonly Face[]): (tubes: readonly Tube[]) => number {
  const corners = faces.flatMap(({ polygon, plane }) => {
    const rings = [ringOf(polygon.outline, 1), ...polygon.holes.map((hole) => ringOf(hole, -1))];
    const [contour, ...holes] = rings.map((ring) => ring.map(([x, y]) => new Vector2(x, y)));
    const at = rings.flat();
    return ShapeUtils.triangulateShape(contour!, holes).flatMap((triple) =>
      triple.flatMap((i) => [at[i]![0], at[i]![1], elevationAt(plane, at[i]!)]),
    );
  });
  const geometry = new BufferGeometry();
  geometry.setAttribute("position", new BufferAttribute(Float64Array.from(corners), 3));
  const tree = new MeshBVH(geometry);
  const line = new Line3();
  const low = new Vector3();
  const high = new Vector3();
  const apart = (box: { min: Vector3; max: Vector3 }): number => {
    const x = Math.max(0, box.min.x - high.x, low.x - box.max.x);
    const y = Math.max(0, box.min.y - high.y, low.y - box.max.y);
    const z = Math.max(0, box.min.z - high.z, low.z - box.max.z);
    return Math.sqrt(x * x + y * y + z * z);
  };
  return (tubes) => {
    let sum = 0;
    for (const { p, q, radius } of tubes) {
      line.start.set(...p);
      line.end.set(...q);
      low.copy(line.start).min(line.end);
      high.copy(line.start).max(line.end);
      let least = Number.POSITIVE_INFINITY;
      tree.shapecast({
        boundsTraverseOrder: apart,
        intersectsBounds: (_box, _leaf, score) => (score ?? 0) < least,
        intersectsTriangle: (triangle) => {
          least = Math.min(least, triangle.closestPointToSegment(line));
          return false;
        },
      });
      sum += least - radius;
    }
    return sum;
  };
}
