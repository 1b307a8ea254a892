import type { ProfileLine } from "../../check/profile-line.ts";
import type { ProfileDeck, RunProfile } from "../../check/run-profile.ts";

/** What the profile says at one station. Elevations above the project datum, inches. */
export interface ProfileReading {
  readonly station: number;
  /** Axis and top of the wiring; undefined where its elevation cannot be told. */
  readonly axisZ: number | undefined;
  readonly topZ: number | undefined;
  /** The lowest deck above or at this station; undefined where there is none. */
  readonly deck: ProfileDeck | undefined;
  readonly undersideZ: number | undefined;
  /** What the wiring has to stay under; undefined where nothing is required. */
  readonly limitZ: number | undefined;
  /** From the top of the wiring up to the underside, vertically; negative where the wiring reaches above it. */
  readonly gap: number | undefined;
  /** From the top of the wiring up to the limit; negative where it is too high. */
  readonly room: number | undefined;
}

/** Elevation of a piece at a station; undefined beside it. Both ends belong to it. */
export function zAt({ from, to }: ProfileLine, station: number): number | undefined {
  if (station < from.station || station > to.station) return undefined;
  const length = to.station - from.station;
  return length > 0 ? from.z + ((to.z - from.z) * (station - from.station)) / length : Math.max(from.z, to.z);
}

/** How far the surface of a round piece lies above its axis, vertically; at most to its ball end. */
export function topOver({ from, to }: ProfileLine, radius: number): number {
  const length = to.station - from.station;
  const rise = Math.abs(to.z - from.z);
  const plan = Math.sqrt(Math.max(0, length * length - rise * rise));
  return plan > 0 ? Math.min((radius * length) / plan, radius + rise) : radius;
}

/** Reads a profile at a station, which is brought within the run. Where pieces meet, the higher wiring and the lower deck count. */
export function profileReading(profile: RunProfile, at: number): ProfileReading {
  const station = Math.min(Math.max(at, 0), profile.lengthIn);
  let axisZ: number | undefined;
  let topZ: number | undefined;
  for (const piece of profile.axis) {
    const z = zAt(piece, station);
    if (z === undefined) continue;
    const top = z + topOver(piece, profile.radiusIn);
    if (topZ === undefined || top > topZ) [axisZ, topZ] = [z, top];
  }
  let deck: ProfileDeck | undefined;
  let undersideZ: number | undefined;
  for (const candidate of profile.decks) {
    const z = zAt(candidate.underside, station);
    if (z !== undefined && (undersideZ === undefined || z < undersideZ)) [deck, undersideZ] = [candidate, z];
  }
  const limitZ = deck?.limit && zAt(deck.limit, station);
  return {
    station,
    axisZ,
    topZ,
    deck,
    undersideZ,
    limitZ,
    gap: topZ !== undefined && undersideZ !== undefined ? undersideZ - topZ : undefined,
    room: topZ !== undefined && limitZ !== undefined ? limitZ - topZ : undefined,
  };
}
