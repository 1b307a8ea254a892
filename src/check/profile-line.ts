import type { Stretch, Verdict } from "./finding.ts";

/** One straight piece of what the profile shows, station against elevation, both in inches; station along the run's true length. */
export interface ProfileLine {
  readonly from: { readonly station: number; readonly z: number };
  readonly to: { readonly station: number; readonly z: number };
}

/** A stretch that a finding speaks of, with its verdict and the number of the finding. */
export type ProfileStretch = Stretch & { readonly verdict: Verdict; readonly number: number | null };
