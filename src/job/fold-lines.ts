import { type Pair, triangulationFaults } from "../geometry/triangulation.ts";
import { fail, ok, type Result } from "../units/problem.ts";
import type { AreaShape, FoldLine } from "./schema.ts";

/** A deck that lies through spots. */
export type SpotsShape = Extract<AreaShape, { is: "spots" }>;
export type Spot = SpotsShape["spots"][number];

/** What a line between two spots may be called, in the order they are offered. */
export const FOLD_KINDS: readonly FoldLine["kind"][] = ["ridge", "hip", "valley", "drain", "edge"];

/** Lines between spots as pairs of places in the list of spots, counted from 0. */
export const linePairs = (lines: readonly FoldLine[] = []): Pair[] =>
  lines.map(({ between: [a, b] }): Pair => [a - 1, b - 1]);

/** The shape with these lines; none leaves no trace. */
export function withLines({ spots }: SpotsShape, lines: readonly FoldLine[]): SpotsShape {
  return { is: "spots", spots, ...(lines.length > 0 ? { lines: [...lines] } : {}) };
}

/**
 * The shape with other spots. `from` tells of each where it was in the list before, counted from 0, undefined for one that was not
 * there: lines go with their spots, and one that loses an end is gone.
 */
export function withSpots(
  { lines = [] }: SpotsShape,
  spots: readonly Spot[],
  from: readonly (number | undefined)[],
): SpotsShape {
  const now = new Map(from.flatMap((before, i) => (before === undefined ? [] : [[before + 1, i + 1] as const])));
  const kept = lines.flatMap(({ between: [a, b], kind }): FoldLine[] => {
    const [one, other] = [now.get(a), now.get(b)];
    return one === undefined || other === undefined ? [] : [{ between: [one, other], kind }];
  });
  return withLines({ is: "spots", spots: [...spots] }, kept);
}

/**
 * The shape with one more line between two spots, by their numbers, counted from 1. Problems: `fold.no-such-spot`, `fold.one-spot`,
 * `fold.twice`, `fold.crosses` (params a, b: the line it crosses), `fold.through` (params spot: the one it passes through).
 */
export function withLine(shape: SpotsShape, line: FoldLine): Result<SpotsShape> {
  const { spots, lines = [] } = shape;
  const [a, b] = line.between;
  for (const spot of [a, b]) if (!spots[spot - 1]) return fail("fold.no-such-spot", "", { spot, count: spots.length });
  const all = [...lines, line];
  const faults = triangulationFaults(
    spots.map(({ at }) => at),
    linePairs(all),
    0,
  );
  for (const fault of faults) {
    if (fault.is === "no-length" && fault.line === lines.length) return fail("fold.one-spot", "", { spot: a });
    if (fault.is === "line-twice" && fault.lines[1] === lines.length) return fail("fold.twice", "", { a, b });
    if (fault.is === "line-through-point" && fault.line === lines.length)
      return fail("fold.through", "", { a, b, spot: fault.point + 1 });
    if (fault.is === "lines-cross" && fault.lines[1] === lines.length) {
      const [c, d] = lines[fault.lines[0]]!.between;
      return fail("fold.crosses", "", { a: c, b: d });
    }
  }
  return ok(withLines(shape, all));
}
