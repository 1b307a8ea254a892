import type { RunProfile } from "../../check/run-profile.ts";

/** Height of the lane of one raceway under a profile, picture units. */
export const LANE = 11;
/** What the rest of a profile wants at least. */
const REST = 116;

/** How many lanes a picture of that height has; a run has none. */
export function laneCount({ raceways = [] }: RunProfile, height: number): number {
  if (raceways.length < 2) return 0;
  return Math.min(raceways.length, Math.max(2, Math.floor((height - REST) / LANE)));
}

/** How much higher than another a picture has to be that shows every raceway. */
export const lanesHeight = ({ raceways = [] }: RunProfile): number =>
  raceways.length < 2 ? 0 : raceways.length * LANE;
