import type { Job } from "../job/schema.ts";
import type { Stretch, Verdict } from "./finding.ts";

/** One straight piece of what the profile shows, station against elevation, both in inches; station along the run's true length. */
export interface ProfileLine {
  readonly from: { readonly station: number; readonly z: number };
  readonly to: { readonly station: number; readonly z: number };
}

/** A deck over a part of the run. */
export interface ProfileDeck {
  readonly areaId: string;
  readonly label: string;
  readonly is: "roof" | "floor-above" | "not-settled";
  /** The lowest surface of the deck above the run. */
  readonly underside: ProfileLine;
  /** What the wiring has to stay under: the underside less the required clearance measured square to the deck; absent where nothing is required. */
  readonly limit?: ProfileLine;
  /** Depth of the deck above its lowest surface, for the picture. */
  readonly depthIn: number;
}

/** A run unrolled: what the profile draws. */
export interface RunProfile {
  readonly elementId: string;
  readonly label: string;
  readonly lengthIn: number;
  readonly radiusIn: number;
  /** Axis of the wiring, a line a segment; segments whose elevation cannot be told are left out. */
  readonly axis: readonly ProfileLine[];
  readonly decks: readonly ProfileDeck[];
  readonly stretches: readonly (Stretch & { readonly verdict: Verdict; readonly number: number | null })[];
  /** Stations of the vertices, with the tag text where there is one. */
  readonly vertices: readonly {
    readonly index: number;
    readonly station: number;
    readonly z: number | null;
    readonly tag: string | null;
  }[];
}

/** The profile of a run, or undefined where the element is not a run or has no usable scale. (Being written.) */
export function runProfile(_job: Job, _elementId: string): RunProfile | undefined {
  throw new Error("not written yet");
}

/** The place on the sheet (sheet space) at a station of a run. (Being written.) */
export function stationToSheet(_job: Job, _elementId: string, _station: number): readonly [number, number] | undefined {
  throw new Error("not written yet");
}
