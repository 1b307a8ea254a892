import { lerp2, type Point2 } from "../geometry/point.ts";
import { locate } from "../geometry/polygon.ts";
import { applyTo } from "../geometry/similarity.ts";
import type { Id } from "../job/fields.ts";
import type { Job } from "../job/schema.ts";
import { type Inches, inches } from "../units/quantity.ts";
import { hasSurface, surfaceAt } from "./deck-area.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import { sceneOf } from "./scene.ts";

/** Lengths that differ by less are one, inches. */
const SAME = 1e-6;

/**
 * The elevation of the centre of wiring above the project datum, at the place of it nearest in plan to one in sheet space. Undefined where it is not
 * known there, or is several, as at a drop.
 */
export function centreThere(job: Job, elementId: Id, at: Point2): Inches | undefined {
  const element = job.elements[elementId];
  const registered = element && sceneOf(job).registration(element.viewport);
  if (!element || !registered?.ok) return undefined;
  const place = applyTo(registered.value.sim, at);
  const pieces = checkKindOf(element)
    .shape(sceneOf(job), element, elementId)
    .pieces.filter(({ curve }) => !curve);
  const near = pieces.map((piece) => {
    const [a, b] = [piece.planAt(piece.from), piece.planAt(piece.to)];
    const t = shareAlong(a, b, place);
    const [x, y] = lerp2(a, b, t);
    const { axis } = piece;
    // An upright piece has one place and all elevations between its ends.
    const ends = axis && (piece.to > piece.from && Math.hypot(b[0] - a[0], b[1] - a[1]) <= SAME ? [0, 1] : [t, t]);
    const heights = axis && ends ? ends.map((share) => axis.from + (axis.to - axis.from) * share) : [Number.NaN];
    return { away: Math.hypot(x - place[0], y - place[1]), heights };
  });
  const least = Math.min(...near.map(({ away }) => away));
  const heights = near.filter(({ away }) => away <= least + SAME).flatMap((one) => one.heights);
  const [first] = heights;
  return first !== undefined && heights.every((z) => Math.abs(z - first) <= SAME) ? inches(first) : undefined;
}

/** How far along from `a` to `b`, from 0 to 1, the place of the line nearest to `p` is. */
function shareAlong(a: Point2, b: Point2, p: Point2): number {
  const [x, y] = [b[0] - a[0], b[1] - a[1]];
  const square = x * x + y * y;
  return square === 0 ? 0 : Math.min(1, Math.max(0, ((p[0] - a[0]) * x + (p[1] - a[1]) * y) / square));
}

/** The lowest deck over a place in sheet space: its label, and the elevation of its lowest surface there above the project datum. Undefined where no deck is known there, or one of them is not. */
export function deckThere(
  job: Job,
  viewport: Id,
  at: Point2,
): { readonly label: string; readonly z: Inches } | undefined {
  const scene = sceneOf(job);
  const registered = scene.registration(viewport);
  if (!registered.ok) return undefined;
  const place = applyTo(registered.value.sim, at);
  const over = scene.frame(registered.value.root).areas.filter(({ polygon }) => locate(polygon, place) !== "outside");
  if (!over.every(hasSurface)) return undefined;
  const found = over.map((deck) => ({ label: deck.area.label, z: surfaceAt(deck, place) }));
  return found.sort((a, b) => a.z - b.z)[0];
}
