import { planeThrough, slopeAngle } from "../geometry/plane.ts";
import { applyTo } from "../geometry/similarity.ts";
import { linePairs } from "../job/fold-lines.ts";
import type { Area } from "../job/schema.ts";
import type { Problem } from "../units/problem.ts";
import { MM_PER_INCH } from "../units/quantity.ts";
import { deckSurface } from "./deck-surface.ts";
import type { Scene } from "./scene.ts";
import { edgeName, foldsOf } from "./spot-folds.ts";
import { spotWords } from "./spot-surface.ts";
import { written } from "./words.ts";

/** Less than this is how elevations are rounded, inches. */
const SEEN_FOLD_IN = 1 / 2;
/** Steeper than roofs with a deck are built: 60 degrees. */
const STEEP = Math.PI / 3;

/** What of a deck through spots folds otherwise than its lines say, or stands so steep that a spot is rather off its place. */
export function foldNotices({ job, registration }: Scene, id: string, record: Area): Problem[] {
  const { shape } = record.elevation;
  const registered = registration(record.viewport);
  if (shape.is !== "spots" || shape.spots.length < 4 || !registered.ok) return [];
  const read = deckSurface(job, record, (at) => applyTo(registered.value.sim, at));
  if (!read.known || read.value.surface.is !== "folded") return [];
  const { points, triangulation } = read.value.surface;
  const notice = (code: string, params: Problem["params"]): Problem => ({
    code,
    where: `areas/${id}/elevation/shape`,
    params: { area: record.label, ...params },
  });
  const recorded = new Map(linePairs(shape.lines).map((pair, i) => [edgeName(pair), shape.lines![i]!]));
  const all = foldsOf(triangulation, points);
  const folds = all.filter(({ by }) => by !== undefined && Math.abs(by) > SEEN_FOLD_IN);
  const problems: Problem[] = [];
  for (const { edge, by } of folds) {
    const line = recorded.get(edgeName(edge));
    const falls = by! < 0;
    if (!line || (falls ? line.kind !== "valley" : line.kind !== "ridge" && line.kind !== "hip")) continue;
    const [a, b] = line.between;
    problems.push(notice("area.fold-kind", { a, b, kind: line.kind, is: falls ? "falls away" : "rises" }));
  }
  const chosen = all.filter(
    ({ edge, otherwise = 0 }) => !recorded.has(edgeName(edge)) && Math.abs(otherwise) > SEEN_FOLD_IN,
  );
  const [most] = chosen.toSorted((p, q) => Math.abs(q.otherwise!) - Math.abs(p.otherwise!));
  if (most) {
    const [a, b] = most.edge.map((k) => k + 1).sort((p, q) => p - q) as [number, number];
    const { system } = job.settings.job;
    const step = system === "metric" ? 1 / MM_PER_INCH : 1 / 8;
    const off = written(Math.round(Math.abs(most.otherwise!) / step) * step, system);
    const way = most.otherwise! > 0 ? "higher" : "lower";
    problems.push(notice("area.folds-chosen", { count: chosen.length, a, b, off, way }));
  }
  for (const triple of triangulation.triangles) {
    const plane = planeThrough(points[triple[0]]!, points[triple[1]]!, points[triple[2]]!);
    if (!plane || slopeAngle(plane) <= STEEP) continue;
    const spots = spotWords(triple.map((k) => k + 1).sort((p, q) => p - q));
    problems.push(notice("area.steep", { spots, degrees: Math.round((slopeAngle(plane) * 180) / Math.PI) }));
  }
  return problems;
}
