import type { HitShape, ScreenMark } from "../canvas/screen-mark.ts";
import { type CheckResult, findingKeyText, isQuiet } from "../check/finding.ts";
import type { Point2 } from "../geometry/point.ts";
import { applyTo, type Similarity } from "../geometry/similarity.ts";
import { placePicture } from "../issue/place-picture.ts";
import { radians } from "../units/quantity.ts";

/** From this scale on a finding's mark can be read at its size on paper, CSS pixels per 1/72 in. */
const LEGIBLE = 1.05;
/** How much larger a mark is shown at most: on a very small sheet many of them would cover it. */
const LARGEST = 3.2;

/** How many times larger findings are shown at a scale, in steps, so that marks are not drawn anew with every turn of the wheel. */
export function magnification(scale: number): number {
  if (!(scale > 0) || scale >= LEGIBLE) return 1;
  return Math.min(LARGEST, 1.25 ** Math.round(Math.log(LEGIBLE / scale) / Math.log(1.25)));
}

/** Marks seen through a glass, and how much it enlarged them. */
const enlarged = new WeakMap<ScreenMark, { readonly times: number; readonly mark: ScreenMark }>();

/**
 * Marks of findings seen through a glass, each about its own spot: the same pictures, large enough to be found on a whole sheet. The same mark
 * at the same size is the same object.
 */
export function magnified(
  marks: readonly ScreenMark[],
  result: CheckResult | null,
  times: number,
): readonly ScreenMark[] {
  if (times === 1 || !result) return marks;
  let spots: ReadonlyMap<string, Point2> | undefined;
  return marks.map((mark) => {
    const known = enlarged.get(mark);
    if (known?.times === times) return known.mark;
    spots ??= spotsOf(result);
    const spot = spots.get(mark.key);
    if (!spot) return mark;
    const glass: Similarity = { scale: times, angle: radians(0), dx: spot[0] * (1 - times), dy: spot[1] * (1 - times) };
    const large = {
      ...mark,
      picture: placePicture(mark.picture, glass),
      ...(mark.hit ? { hit: through(mark.hit, glass) } : {}),
    };
    enlarged.set(mark, { times, mark: large });
    return large;
  });
}

/** Where the findings of a result that have marks are, by the keys of these. */
const spotsOf = ({ findings }: CheckResult): ReadonlyMap<string, Point2> =>
  new Map(
    findings.flatMap((finding): [string, Point2][] =>
      isQuiet(finding.verdict) ? [] : [[`finding:${findingKeyText(finding)}`, finding.at]],
    ),
  );

function through(hit: HitShape, glass: Similarity): HitShape {
  const all = (points: readonly Point2[]) => points.map((point) => applyTo(glass, point));
  if (hit.kind === "spot") return { ...hit, at: applyTo(glass, hit.at), radius: hit.radius * glass.scale };
  return hit.kind === "line" ? { ...hit, points: all(hit.points) } : { ...hit, outline: all(hit.outline) };
}
