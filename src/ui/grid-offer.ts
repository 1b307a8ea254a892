import { distance2, type Point2 } from "../geometry/point.ts";
import type { Id } from "../job/fields.ts";
import { sheetToBuilding } from "../job/registration.ts";
import type { Job, Viewport } from "../job/schema.ts";
import type { FoundGrid } from "../pdf/read/find-grid.ts";
import { type GridMatch, matchGrids, type SharedCrossing } from "../pdf/read/match-grids.ts";
import { type Inches, inches } from "../units/quantity.ts";

type Pairs = NonNullable<Viewport["registration"]>["pairs"];

/** How one viewport would lie on another by the grid lines both show. */
export interface GridOffer {
  /** The shared labels, each with how far its crossings lie from their partners: in the building where the other viewport has a scale, else on its paper. */
  readonly labels: readonly { readonly label: string; readonly off: Inches; readonly suspect: boolean }[];
  readonly inBuilding: boolean;
  /** Labels that only one of the two shows, in its order. */
  readonly onlyHere: readonly string[];
  readonly onlyThere: readonly string[];
  readonly mirrored: boolean;
  /** Whether the crossings agree, those of suspect labels left out. */
  readonly fits: boolean;
  readonly suspects: readonly string[];
  /** What would be recorded: crossings far apart from one another; none where it must not be laid. */
  readonly pairs: Pairs;
}

/** An offer, or why there is none: no grid was found here or there, or too few lines are shared. */
export type GridAnswer =
  | { readonly is: "offer"; readonly offer: GridOffer }
  | { readonly is: "no-grid-here" | "no-grid-there" | "too-few-shared" };

/** Crossings recorded: so many carry a registration as well as all of them. */
const MOST_PAIRS = 6;

/** Lays the grids found on the page of one viewport on those of another's. Of several grids on a page those that fit best count. */
export function gridOffer(
  job: Job,
  id: Id,
  to: Id,
  here: readonly FoundGrid[],
  there: readonly FoundGrid[],
): GridAnswer {
  const [own, other] = [gridsIn(job.viewports[id], here), gridsIn(job.viewports[to], there)];
  if (own.length === 0) return { is: "no-grid-here" };
  if (other.length === 0) return { is: "no-grid-there" };
  let best: { match: GridMatch; a: FoundGrid; b: FoundGrid; suspects: readonly string[]; rest: GridMatch } | undefined;
  for (const a of own) {
    for (const b of other) {
      const match = matchGrids(a, b);
      if (!match.ok) continue;
      const { suspects } = match.value;
      const without = suspects.length > 0 ? matchGrids(leftOut(a, suspects), b) : match;
      const rest = without.ok ? without.value : match.value;
      const better =
        !best ||
        Number(rest.fits) > Number(best.rest.fits) ||
        (rest.fits === best.rest.fits && rest.crossings.length > best.rest.crossings.length);
      if (better) best = { match: match.value, a, b, suspects, rest };
    }
  }
  if (!best) return { is: "too-few-shared" };
  const { match, a, b, suspects, rest } = best;
  const placed = sheetToBuilding(job, to);
  const sheet = job.sheets[job.viewports[to]!.sheet]!;
  const scale = placed.ok ? placed.value.sim.scale : sheet.userUnit / 72;
  const off = (label: string): number => (match.byLabel.find((one) => one.label === label)?.rms ?? 0) * scale;
  const shared = match.byLabel.map(({ label }) => label);
  const held = rest.crossings.filter(
    (one) => inside(job.viewports[id], one.here) && inside(job.viewports[to], one.there),
  );
  return {
    is: "offer",
    offer: {
      labels: shared.map((label) => ({ label, off: inches(off(label)), suspect: suspects.includes(label) })),
      inBuilding: placed.ok,
      onlyHere: labelsOf(a).filter((label) => !shared.includes(label)),
      onlyThere: labelsOf(b).filter((label) => !shared.includes(label)),
      mirrored: match.mirrored,
      fits: rest.fits,
      suspects,
      pairs: rest.fits ? farApart(held).map(asPair) : [],
    },
  };
}

const labelsOf = ({ axes }: FoundGrid): string[] => axes.flatMap(({ label }) => (label === null ? [] : [label]));

const leftOut = ({ axes }: FoundGrid, labels: readonly string[]): FoundGrid => ({
  axes: axes.filter(({ label }) => label === null || !labels.includes(label)),
});

const asPair = ({ labels, here, there }: SharedCrossing): Pairs[number] => ({
  label: labels.join("/"),
  here: [...here],
  there: [...there],
});

/** The grids with at least one bubble in the viewport, or a line that ends in it. */
export function gridsIn(viewport: Viewport | undefined, grids: readonly FoundGrid[]): readonly FoundGrid[] {
  if (!viewport || viewport.region === null) return grids;
  const parts = grids.map(({ axes }) => ({
    axes: axes.filter(({ line, bubbles }) =>
      [...line, ...bubbles.map(({ centre }) => centre)].some((p) => inside(viewport, p)),
    ),
  }));
  return parts.filter(({ axes }) => axes.length > 0);
}

function inside(viewport: Viewport | undefined, [x, y]: Point2): boolean {
  const region = viewport?.region ?? null;
  return region === null || (x >= region[0] && x <= region[2] && y >= region[1] && y <= region[3]);
}

/** A few crossings, each as far from those before it as can be. */
function farApart(crossings: readonly SharedCrossing[]): readonly SharedCrossing[] {
  const [first] = crossings;
  if (!first) return [];
  const chosen: SharedCrossing[] = [];
  while (chosen.length < Math.min(MOST_PAIRS, crossings.length)) {
    const apart = (one: SharedCrossing): number =>
      Math.min(...(chosen.length > 0 ? chosen : [first]).map((other) => distance2(one.here, other.here)));
    const next = crossings
      .filter((one) => !chosen.includes(one))
      .reduce((far, one) => (apart(one) > apart(far) ? one : far));
    chosen.push(next);
  }
  return chosen;
}
