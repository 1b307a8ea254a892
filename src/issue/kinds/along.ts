import type { Stretch } from "../../check/finding.ts";
import type { ElementShape } from "../../check/kinds/kind.ts";
import type { Point2 } from "../../geometry/point.ts";
import type { Along } from "./drawing.ts";

/** Stations of an element as the check counts them. */
export function alongShape(shape: ElementShape): Along {
  const vertices = new Set([...shape.pieces, ...shape.gaps].flatMap(({ from, to }) => [from, to]));
  return { vertices: [...vertices].sort((a, b) => a - b), at: (station) => shape.sheetAt(station) };
}

/** A stretch as a line: its ends, and the vertices between them; sheet space. */
export const stretchPoints = ({ vertices, at }: Along, { fromIn, toIn }: Stretch): Point2[] =>
  [fromIn, ...vertices.filter((station) => station > fromIn && station < toIn), toIn].map(at);
