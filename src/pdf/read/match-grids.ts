import { distance2, type Point2 } from "../../geometry/point.ts";
import { fitSimilarity, type Similarity } from "../../geometry/similarity.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { crossingPoint, type FoundGrid, type GridAxis } from "./find-grid.ts";

/** A crossing of two grid lines that both sheets show. Each place is in the space of its own sheet. */
export interface SharedCrossing {
  readonly labels: readonly [string, string];
  readonly here: Point2;
  readonly there: Point2;
  /** How far it lies from its partner, in the units of the other sheet. */
  readonly residual: number;
}

/** How one sheet's grid lies on another's. */
export interface GridMatch {
  /** From this sheet's space to the other's. */
  readonly sim: Similarity;
  readonly crossings: readonly SharedCrossing[];
  /** Root mean square of the residuals, in the units of the other sheet. */
  readonly rms: number;
  /** The greatest residual as a part of the greatest distance between crossings: 0 for a perfect fit, whatever the scales. */
  readonly misfit: number;
  /** For each shared label, the root mean square of the residuals of its crossings, in the units of the other sheet. */
  readonly byLabel: readonly { readonly label: string; readonly rms: number }[];
  /** Labels without which the rest fits: one of them is probably another line on the other sheet. Empty where it fits, or where no one label explains it. */
  readonly suspects: readonly string[];
  /** Whether the other sheet shows the plan from the other side. */
  readonly mirrored: boolean;
  /** Whether the grids are the same within `FITS`. */
  readonly fits: boolean;
}

/** Grids of two drawings of one building agree to this part of their extent: half a thousandth is 1/8 in. in 20 ft. */
export const FITS = 5e-4;
/** Leaving out a wrong label makes the rest fit at least this many times better. */
const TELLING = 8;

/**
 * Lays one grid on another by the crossings whose two labels both show. Problems: `grid.too-few-shared` with fewer than two
 * shared crossings, and those of `fitSimilarity`. A match that does not fit is an answer, not a problem: see `fits`.
 */
export function matchGrids(here: FoundGrid, there: FoundGrid): Result<GridMatch> {
  const pairs = sharedCrossings(here, there);
  if (pairs.length < 2) return fail("grid.too-few-shared", "", { count: pairs.length });
  const whole = fitted(pairs);
  if (!whole.ok) return whole;
  const { sim, residuals, rms, mirrored, misfit } = whole.value;
  const crossings = pairs.map((pair, i) => ({ ...pair, residual: residuals[i]! }));
  const labels = [...new Set(pairs.flatMap((pair) => pair.labels))];
  const byLabel = labels.map((label) => {
    const own = crossings.filter((crossing) => crossing.labels.includes(label));
    return { label, rms: Math.sqrt(own.reduce((sum, { residual }) => sum + residual * residual, 0) / own.length) };
  });
  const fits = misfit <= FITS && !mirrored;
  const suspects = fits || mirrored ? [] : labels.filter((label) => explains(label, pairs, rms));
  return ok({ sim, crossings, rms, misfit, byLabel, suspects, mirrored, fits });
}

type Pair = Omit<SharedCrossing, "residual">;

/** The crossings of lines whose labels both grids have, once each; lines without a label take no part. */
export function sharedCrossings(here: FoundGrid, there: FoundGrid): Pair[] {
  const other = new Map(there.axes.flatMap((axis) => (axis.label === null ? [] : [[axis.label, axis] as const])));
  const shared = here.axes.flatMap((axis) => {
    const twin = axis.label === null ? undefined : other.get(axis.label);
    return twin ? [{ label: axis.label!, axis, twin }] : [];
  });
  return shared.flatMap((a, i) =>
    shared.slice(i + 1).flatMap((b): Pair[] => {
      const [at, partner] = [crossed(a.axis, b.axis), crossed(a.twin, b.twin)];
      return at && partner ? [{ labels: [a.label, b.label], here: at, there: partner }] : [];
    }),
  );
}

/** Where two lines cross, also beyond their ends: a grid line means the whole line. */
function crossed(a: GridAxis, b: GridAxis): Point2 | undefined {
  return crossingPoint(a, b, Number.POSITIVE_INFINITY);
}

function fitted(pairs: readonly Pair[]) {
  const fit = fitSimilarity(pairs.map(({ here, there }) => ({ from: here, to: there })));
  if (!fit.ok) return fit;
  let extent = 0;
  for (const { there } of pairs) extent = Math.max(extent, distance2(there, pairs[0]!.there));
  const worst = Math.max(...fit.value.residuals);
  return ok({ ...fit.value, misfit: extent > 0 ? worst / extent : Number.POSITIVE_INFINITY });
}

/** Whether what is left without a label still says something, and fits. */
function explains(label: string, pairs: readonly Pair[], rms: number): boolean {
  const rest = pairs.filter(({ labels }) => !labels.includes(label));
  // Two crossings always fit.
  if (rest.length < 3) return false;
  const fit = fitted(rest);
  return fit.ok && fit.value.misfit <= FITS && fit.value.rms * TELLING < rms;
}
