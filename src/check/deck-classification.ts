import type { SettledAs } from "../job/storey-outline.ts";
import type { Reason } from "./finding.ts";
import type { Missing } from "./reading.ts";

/** Roof or floor, why, and who says so. */
export interface DeckClassification {
  readonly is: SettledAs;
  readonly reason: string;
  readonly by: string;
  /** The outlines of the storey above it follows from; absent where it was recorded directly. */
  readonly follows?: () => readonly Reason[];
  /** What would settle it, where that can be named; absent otherwise. */
  readonly missing?: readonly Missing[];
}
