import type { Point3 } from "../geometry/point.ts";
import type { ElementShape } from "./kinds/kind.ts";
import type { Piece } from "./piece.ts";
import type { ProfileLine } from "./profile-line.ts";

/** Something traced, laid out along its length: its straight pieces, which of them lies after which vertex, and the stations of its vertices, inches. */
export interface Unrolled {
  /** Without the curves of bends, which stand beside the corners as traced. */
  readonly pieces: readonly Piece[];
  /** The piece from a vertex to the next one, where its elevation is known. */
  readonly after: ReadonlyMap<number, Piece>;
  readonly stations: readonly number[];
  readonly lengthIn: number;
}

/** Lays out a shape of so many vertices; undefined where it has no usable scale. */
export function unroll(shape: ElementShape, vertices: number): Unrolled | undefined {
  const pieces = shape.pieces.filter(({ curve }) => !curve);
  // What is missing for all of a run is no piece of it.
  const unknown = shape.gaps.filter((gap) => !pieces.some(({ from, to }) => gap.from <= from && gap.to >= to));
  const spans = [...pieces, ...unknown]
    .map(({ from, to }) => ({ from, to }))
    .sort((a, b) => a.from - b.from || a.to - b.to);
  if (shape.root === undefined || spans.length !== vertices - 1) return undefined;
  const after = new Map(
    pieces.map((piece) => [spans.findIndex((s) => s.from === piece.from && s.to === piece.to), piece]),
  );
  const stations = [0, ...spans.map((span) => span.to)];
  return { pieces, after, stations, lengthIn: stations.at(-1) ?? 0 };
}

/** Axis of the wiring as the profile draws it: a line a piece. */
export const axisLines = ({ pieces }: Unrolled): readonly ProfileLine[] =>
  pieces.flatMap((p) =>
    p.axis ? [{ from: { station: p.from, z: p.axis.from }, to: { station: p.to, z: p.axis.to } }] : [],
  );

/** How far the surface is from the axis; 0 where no piece is known. */
export const radiusOf = ({ pieces }: Unrolled): number => pieces[0]?.axis?.radius ?? 0;

/** The axis at one of the ends of a straight piece, or anywhere between, building space; undefined for what has none. */
export function axisAt(piece: Piece, station: number): Point3 | undefined {
  const { from, to, axis } = piece;
  if (!axis) return undefined;
  const t = to > from ? (station - from) / (to - from) : 0;
  const [x, y] = piece.planAt(station);
  return [x, y, axis.from + (axis.to - axis.from) * t];
}

/** Takes a station of one of two things that lie along each other, vertex by vertex, to the other's. */
export function stationsAlike(from: readonly number[], to: readonly number[]): (station: number) => number {
  return (station) => {
    let i = 0;
    while (i < from.length - 2 && station > from[i + 1]!) i++;
    const span = (from[i + 1] ?? 0) - from[i]!;
    const t = span > 0 ? Math.min(1, Math.max(0, (station - from[i]!) / span)) : 0;
    return to[i]! + t * ((to[i + 1] ?? to[i]!) - to[i]!);
  };
}
