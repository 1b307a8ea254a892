import type { ProfileDeck, RunProfile } from "../../check/run-profile.ts";
import type { Point2 } from "../../geometry/point.ts";
import { LANE, laneCount } from "./lane-count.ts";

/** Where on a run's profile something is: station along the run and elevation above the project datum, inches. */
export interface ProfilePoint {
  readonly station: number;
  readonly z: number;
}

/** The picture's size; its origin is at the lower left, y up. Points of paper, or pixels of the screen. */
export interface ProfileSize {
  readonly width: number;
  readonly height: number;
}

/** How a profile is laid on its picture. */
export interface ProfileScale {
  readonly toPicture: (at: ProfilePoint) => Point2;
  readonly toProfile: (at: Point2) => ProfilePoint;
  /** Picture units an inch, along and up. */
  readonly along: number;
  readonly up: number;
  /** How many times heights are drawn larger than lengths. */
  readonly exaggeration: number;
  /** Inside of the rulers: lower left x and y, upper right x and y, picture units. */
  readonly plot: readonly [number, number, number, number];
  /** Lowest and highest elevation shown, and the longest station, inches. */
  readonly low: number;
  readonly high: number;
  readonly end: number;
  /** How many lanes of raceways have room below. */
  readonly lanes: number;
}

/** Room for rulers, tags and names about the plot, picture units. */
const MARGIN = { left: 58, right: 16, bottom: 34, top: 30 } as const;
/** Exaggerations that are easy to say. */
const STEPS = [1, 2, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200, 300, 500, 1000];
/** How far below the lowest deck a profile reaches unless nothing of the wiring would show, inches. */
const DEPTH_SHOWN = 24;

/** Fits a profile into a picture, heights exaggerated by a round number. */
export function profileScale(profile: RunProfile, size: ProfileSize): ProfileScale {
  const lanes = laneCount(profile, size.height);
  const foot = MARGIN.bottom + lanes * LANE;
  const plot = [
    MARGIN.left,
    foot,
    Math.max(size.width - MARGIN.right, MARGIN.left + 1),
    Math.max(size.height - MARGIN.top, foot + 1),
  ] as const;
  const end = profile.lengthIn > 0 ? profile.lengthIn : 1;
  const [bottom, top] = elevations(profile);
  const height = plot[3] - plot[1];
  const rawAlong = (plot[2] - plot[0]) / end;
  const rawUp = height / (top - bottom);
  const exaggeration = STEPS.findLast((step) => step <= rawUp / rawAlong) ?? 1;
  // A short run beside a tall range: both ways at the smaller scale, with paper to spare on the right.
  const along = Math.min(rawAlong, rawUp / exaggeration);
  const up = along * exaggeration;
  // What the round number leaves over goes below, where there is nothing to hide.
  const low = top - height / up;
  return {
    toPicture: ({ station, z }) => [plot[0] + station * along, plot[1] + (z - low) * up],
    toProfile: ([x, y]) => ({ station: (x - plot[0]) / along, z: low + (y - plot[1]) / up }),
    along,
    up,
    exaggeration,
    plot,
    low,
    high: top,
    end,
    lanes,
  };
}

/** The lowest and highest elevation worth showing, with a little room. */
function elevations(profile: RunProfile): readonly [number, number] {
  const { axis, radiusIn, raceways = [], boxes = [], couplingIn = 0 } = profile;
  const others = raceways.flatMap((raceway) => raceway.axis);
  const reach = Math.max(radiusIn, couplingIn / 2, ...raceways.map((raceway) => raceway.radiusIn));
  const wiring = [...axis, ...others].flatMap(({ from, to }) => [from.z, to.z]);
  const decks = decksShown(profile, Math.max(...wiring));
  const undersides = decks.flatMap(({ underside }) => [underside.from.z, underside.to.z]);
  const tops = decks.flatMap(({ underside, depthIn }) => [underside.from.z + depthIn, underside.to.z + depthIn]);
  const limits = decks.flatMap(({ limit }) => (limit ? [limit.from.z, limit.to.z] : []));
  const everything = [
    ...wiring.flatMap((z) => [z - reach, z + reach]),
    ...boxes.flatMap(({ low, high }) => [low, high]),
    ...undersides,
    ...tops,
    ...limits,
  ];
  if (everything.length === 0) return [-6, 6];
  let bottom = Math.min(...everything);
  const top = Math.max(...everything);
  if (undersides.length > 0 && wiring.length > 0) {
    const shown = Math.min(Math.min(...undersides) - DEPTH_SHOWN, Math.max(...wiring) - reach - 2);
    bottom = Math.max(bottom, shown);
  }
  const room = Math.max((top - bottom) * 0.08, 0.5);
  return [bottom - room, top + room];
}

/** All decks; but where the run is too near the edge of one beside it, a roof far above would only make that gap too small to see. */
function decksShown({ decks, beside = [] }: RunProfile, highestWiring: number): readonly ProfileDeck[] {
  if (beside.length === 0) return decks;
  const near = decks.filter(
    ({ underside }) => Math.min(underside.from.z, underside.to.z) - highestWiring < FAR_ABOVE_IN,
  );
  return [...beside, ...near];
}

/** How far above the wiring a roof is left out of the picture of a run beside another one, inches. */
const FAR_ABOVE_IN = 24;
