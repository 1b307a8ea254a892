import type { Point2, Point3 } from "../geometry/point.ts";
import { applyTo } from "../geometry/similarity.ts";
import type { Element } from "../job/elements/element.ts";
import { type CheckResult, VERDICTS, type Verdict } from "./finding.ts";
import { checkKindOf } from "./kinds/kinds.ts";
import type { Piece } from "./piece.ts";
import type { Scene } from "./scene.ts";
import { axisAt, type Unrolled } from "./unroll.ts";

/** A box, conduit body or other fitting that a profile shows with its run, at its true size. Elevations above the project datum, inches. */
export interface ProfileBox {
  readonly elementId: string;
  readonly label: string;
  /** What of it lies along the run; it may go beyond the run's ends. */
  readonly fromIn: number;
  readonly toIn: number;
  readonly low: number;
  readonly high: number;
  /** The worst the check says of it, and the number of that finding. */
  readonly verdict: Verdict | undefined;
  readonly number: number | null;
}

/**
 * What stands on a run, or so near to it that a run with a vertex there would count as traced up to it: each kind says how near that is. What
 * has no known size or elevation is left out, for it has no place in the picture.
 */
export function profileBoxes(
  scene: Scene,
  root: string,
  { pieces }: Unrolled,
  result: CheckResult,
): readonly ProfileBox[] {
  return Object.entries(scene.job.elements).flatMap(([id, element]): ProfileBox[] => {
    const place = "at" in element ? placeOf(scene, root, element.at, element) : undefined;
    if (!place) return [];
    const kind = checkKindOf(element);
    const reach = (kind.reach?.(scene, element) ?? 0) * place.scale;
    const near = pieces.flatMap((piece) => nearest(piece, place.at, reach));
    if (near.length === 0) return [];
    const outline = kind.shape(scene, element, id).pieces[0]?.outline();
    if (!outline) return [];
    const { corners, low, high } = outline;
    const onRun = near.filter(({ piece, station }) => {
      const z = axisAt(piece, station)![2];
      return z >= low - reach && z <= high + reach;
    });
    if (onRun.length === 0) return [];
    const { piece, station } = onRun.reduce((best, each) => (each.off < best.off ? each : best));
    const ahead = corners.map((corner) => alongRun(piece, corner, place.at));
    const verdicts = result.findings.filter(({ elementId }) => elementId === id);
    const worst = verdicts.reduce<(typeof verdicts)[number] | undefined>(
      (most, each) => (!most || VERDICTS.indexOf(each.verdict) < VERDICTS.indexOf(most.verdict) ? each : most),
      undefined,
    );
    return [
      {
        elementId: id,
        label: element.label,
        fromIn: station + Math.min(...ahead),
        toIn: station + Math.max(...ahead),
        low,
        high,
        verdict: worst?.verdict,
        number: worst?.number ?? null,
      },
    ];
  });
}

/** Where an element stands in a frame, and the inches a unit of its sheet; undefined where it is in another frame or runs do not bear on its kind. */
function placeOf(scene: Scene, root: string, at: Point2, element: Element) {
  if (!checkKindOf(element).reach) return undefined;
  const registered = scene.registration(element.viewport);
  if (!registered.ok || registered.value.root !== root) return undefined;
  const { sim } = registered.value;
  return { at: applyTo(sim, at), scale: sim.scale };
}

/** The station of a piece nearest in plan to a place, where it comes within reach; of an upright piece, its lower and its upper end. */
function nearest(piece: Piece, at: Point2, reach: number): { piece: Piece; station: number; off: number }[] {
  const [p, q] = [axisAt(piece, piece.from), axisAt(piece, piece.to)];
  if (!p || !q) return [];
  const [dx, dy] = [q[0] - p[0], q[1] - p[1]];
  const square = dx * dx + dy * dy;
  const stations =
    square > 0
      ? [Math.min(1, Math.max(0, ((at[0] - p[0]) * dx + (at[1] - p[1]) * dy) / square))].map(
          (t) => piece.from + t * (piece.to - piece.from),
        )
      : [piece.from, piece.to];
  return stations.flatMap((station) => {
    const [x, y]: Point2 = piece.planAt(station);
    const off = Math.hypot(at[0] - x, at[1] - y);
    return off <= reach ? [{ piece, station, off }] : [];
  });
}

/** How far a corner lies ahead of the middle of what it belongs to, along a piece; for an upright piece, how far off it lies in plan, to either side. */
function alongRun(piece: Piece, corner: Point2, middle: Point2): number {
  const [p, q]: (Point3 | undefined)[] = [axisAt(piece, piece.from), axisAt(piece, piece.to)];
  const [dx, dy] = [q![0] - p![0], q![1] - p![1]];
  const length = Math.hypot(dx, dy);
  const [x, y] = [corner[0] - middle[0], corner[1] - middle[1]];
  return length > 0 ? (x * dx + y * dy) / length : x;
}
