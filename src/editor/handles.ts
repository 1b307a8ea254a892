import type { Point2 } from "../geometry/point.ts";
import type { ElementKind } from "../job/elements/element.ts";
import type { Id, Tag } from "../job/fields.ts";
import { withSpots } from "../job/fold-lines.ts";
import type { Note } from "../job/note.ts";
import type { Area, AreaShape, Job, RecordOf } from "../job/schema.ts";
import type { StoreyOutline } from "../job/storey-outline.ts";
import type { Length } from "../units/length.ts";
import { ok, type Result } from "../units/problem.ts";
import { soundPoints, soundRing } from "./edits/sound.ts";

/** A vertex with what belongs to it. */
export interface Knot {
  /** Sheet space. */
  readonly at: Point2;
  readonly tag?: Tag | null;
  readonly elevation?: Length | null;
  /** For a spot: its place in the list before, counted from 0. What ends at it goes with it. */
  readonly was?: number;
}

/** Vertices of a record that belong together. */
export interface Strand {
  readonly knots: readonly Knot[];
  /** The last is joined to the first. */
  readonly closed: boolean;
  /** Consecutive ones are joined by a line that can be picked and divided. */
  readonly joined: boolean;
  /** Fewer than this there cannot be. */
  readonly least: number;
  /** What each of its points is called, where they are these and no others: none can be put in or taken out. */
  readonly ends?: readonly string[];
}

/** The tables whose records have vertices. */
export type ShapedTable = "areas" | "elements" | "storeyOutlines" | "notes";

/** The sheet a record lies on: its own, or that of its viewport. Undefined where the viewport is gone. */
export const sheetOfRecord = (job: Job, record: RecordOf<ShapedTable>): Id | undefined =>
  "sheet" in record ? record.sheet : job.viewports[record.viewport]?.sheet;

/** How a kind of record lets itself be taken apart into vertices and put together again. */
export interface Handles<R> {
  strands(record: R): readonly Strand[];
  /** The record with other vertices, a list for every strand. */
  rebuilt(record: R, strands: readonly (readonly Knot[])[]): R;
  /** Whether the record may be as it is. */
  sound(where: string, record: R): Result<null>;
  /** The vertex that goes along when its mark is taken hold of beside every vertex and line; left out, none does. */
  readonly grip?: number;
  /** Whether its vertices and lines attract points of other things; left out, they do. */
  readonly attracts?: false;
}

type ElementOf<K extends ElementKind> = Extract<RecordOf<"elements">, { kind: K }>;

const single = <R extends { readonly at: Point2 }>(): Handles<R> => ({
  strands: ({ at }) => [{ knots: [{ at }], closed: false, joined: false, least: 1 }],
  rebuilt: (record, [knots]) => ({ ...record, at: knots?.[0]?.at ?? record.at }),
  sound: (where, { at }) => soundPoints(where, [at]),
});

/** What is traced along vertices with tags. */
const traced = <
  R extends { readonly vertices: readonly { readonly at: Point2; readonly tag: Tag | null }[] },
>(): Handles<R> => ({
  strands: ({ vertices }) => [{ knots: vertices, closed: false, joined: true, least: 2 }],
  rebuilt: (record, [knots]) => ({
    ...record,
    vertices: knots?.map(({ at, tag = null }) => ({ at, tag })) ?? record.vertices,
  }),
  sound: (where, { vertices }) =>
    soundPoints(
      where,
      vertices.map(({ at }) => at),
    ),
});

const elementHandles: { readonly [K in ElementKind]: Handles<ElementOf<K>> } = {
  run: traced(),
  rack: traced(),
  box: single(),
  fitting: single(),
  entry: single(),
};

/** The points by which the shape of a deck's elevation is given: they move with the area, and one by one. */
const shapeKnots: {
  readonly [K in AreaShape["is"]]: {
    readonly least: number;
    of(shape: Extract<AreaShape, { is: K }>): readonly Knot[];
    with(shape: Extract<AreaShape, { is: K }>, knots: readonly Knot[]): AreaShape;
  };
} = {
  level: { least: 0, of: () => [], with: (shape) => shape },
  slope: {
    least: 2,
    of: ({ point, towards }) => [{ at: point }, { at: towards }],
    with: (shape, [point, towards]) => ({
      ...shape,
      point: point?.at ?? shape.point,
      towards: towards?.at ?? shape.towards,
    }),
  },
  spots: {
    least: 3,
    of: ({ spots }) => spots.map((spot, was) => ({ ...spot, was })),
    with: (shape, knots) =>
      withSpots(
        shape,
        knots.map(({ at, elevation = null }) => ({ at, elevation })),
        knots.map(({ was }) => was),
      ),
  },
};

function knotsOfShape<K extends AreaShape["is"]>(shape: Extract<AreaShape, { is: K }>) {
  const way = shapeKnots[shape.is as K];
  return { knots: way.of(shape), least: way.least, with: (knots: readonly Knot[]) => way.with(shape, knots) };
}

const areaHandles: Handles<Area> = {
  strands: ({ outline, holes, elevation: { shape } }) => {
    const { knots, least } = knotsOfShape(shape);
    return [
      ...[outline, ...holes].map((ring) => ({
        knots: ring.map((at) => ({ at })),
        closed: true,
        joined: true,
        least: 3,
      })),
      { knots, closed: false, joined: false, least },
    ];
  },
  rebuilt: (area, strands) => {
    const rings = strands.slice(0, -1).map((knots) => knots.map(({ at }) => at));
    return {
      ...area,
      outline: rings[0] ?? area.outline,
      holes: rings.slice(1),
      elevation: { ...area.elevation, shape: knotsOfShape(area.elevation.shape).with(strands.at(-1) ?? []) },
    };
  },
  sound: (where, { outline, holes, elevation: { shape } }) => {
    const rings = [outline, ...holes].map((ring) => soundRing(where, ring));
    const bad = rings.find((ring) => !ring.ok);
    return (
      bad ??
      soundPoints(
        where,
        knotsOfShape(shape).knots.map(({ at }) => at),
      )
    );
  },
};

const storeyHandles: Handles<StoreyOutline> = {
  strands: ({ outline, holes }) =>
    [outline, ...holes].map((ring) => ({ knots: ring.map((at) => ({ at })), closed: true, joined: true, least: 3 })),
  rebuilt: (storey, strands) => {
    const [outline, ...holes] = strands.map((knots) => knots.map(({ at }) => at));
    return { ...storey, outline: outline ?? storey.outline, holes };
  },
  sound: (where, { outline, holes }) =>
    [outline, ...holes].map((ring) => soundRing(where, ring)).find((ring) => !ring.ok) ?? ok(null),
};

const noteHandles: Handles<Note> = {
  strands: ({ at, place }) => [
    { knots: [{ at }, { at: place }], closed: false, joined: true, least: 2, ends: ["leader", "words"] },
  ],
  rebuilt: (note, [knots]) => ({ ...note, at: knots?.[0]?.at ?? note.at, place: knots?.[1]?.at ?? note.place }),
  sound: (where, { at, place }) => soundPoints(where, [at, place]),
  grip: 1,
  attracts: false,
};

const tableHandles = { areas: areaHandles, storeyOutlines: storeyHandles, notes: noteHandles } as const;

/** The handles of a record of any of the tables. */
export function handlesOf<T extends ShapedTable>(table: T, record: RecordOf<T>): Handles<RecordOf<T>> {
  const found =
    table === "elements"
      ? elementHandles[(record as RecordOf<"elements">).kind]
      : tableHandles[table as keyof typeof tableHandles];
  return found as unknown as Handles<RecordOf<T>>;
}

/** The vertices of a record as they lie on the sheet, worked out once for a record that stays the same. */
export interface Outline {
  readonly strands: readonly Strand[];
  /** All vertices, in the order their numbers count. */
  readonly vertices: readonly Point2[];
  readonly min: Point2;
  readonly max: Point2;
}

const outlines = new WeakMap<object, Outline>();

/** The vertices of a record, and the rectangle round them. */
export function outlineOf<T extends ShapedTable>(table: T, record: RecordOf<T>): Outline {
  const known = outlines.get(record);
  if (known) return known;
  const strands = handlesOf(table, record).strands(record);
  const vertices = strands.flatMap(({ knots }) => knots.map(({ at }) => at));
  const [xs, ys] = [vertices.map(([x]) => x), vertices.map(([, y]) => y)];
  const least = (values: number[]) => values.reduce((a, b) => Math.min(a, b), Infinity);
  const most = (values: number[]) => values.reduce((a, b) => Math.max(a, b), -Infinity);
  const outline = { strands, vertices, min: [least(xs), least(ys)], max: [most(xs), most(ys)] } as const;
  outlines.set(record, outline);
  return outline;
}

/** A segment of a record: the number of the vertex it starts at, and its ends. */
export interface Segment {
  readonly after: number;
  readonly a: Point2;
  readonly b: Point2;
}

/** Every line between two vertices of a record, closing ones included. */
export function* segmentsOf({ strands }: Outline): Generator<Segment> {
  let start = 0;
  for (const { knots, closed, joined } of strands) {
    if (joined)
      for (let i = 0; i + (closed ? 0 : 1) < knots.length; i++)
        yield { after: start + i, a: knots[i]!.at, b: knots[(i + 1) % knots.length]!.at };
    start += knots.length;
  }
}
