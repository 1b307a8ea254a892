import type { Inches } from "../units/quantity.ts";
import type { Nearest } from "./clearance.ts";
import type { Face } from "./face.ts";
import type { Point3 } from "./point.ts";
import type { Box3, Capsule, OrientedBox } from "./solid.ts";

/** The nearest of many faces: its number in the list the index was made from, and the distance to it. */
export interface NearestFace extends Nearest {
  readonly face: number;
}

/** Finds faces by place. Numbers of faces are positions in `faces`. */
export interface FaceIndex {
  readonly faces: readonly Face[];
  /** Numbers, in rising order, of all faces whose box comes within `reach` of the box or capsule; a superset of those that do. */
  query(what: Box3 | Capsule, reach: Inches): number[];
  /** The nearest of all faces (of those `accept` admits) to an axis, however far; undefined when there is none. Ties: the lowest number. */
  nearestToSegment(p: Point3, q: Point3, accept?: (face: number) => boolean): NearestFace | undefined;
  /** The same for a box. */
  nearestToBox(box: OrientedBox, accept?: (face: number) => boolean): NearestFace | undefined;
}

export declare function makeFaceIndex(faces: readonly Face[]): FaceIndex;
