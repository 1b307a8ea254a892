import type { CheckResult } from "../../check/finding.ts";
import type { Scene } from "../../check/scene.ts";
import { formatLength } from "../../units/format-length.ts";
import type { UnitSystem } from "../../units/length.ts";
import { inches, MM_PER_INCH } from "../../units/quantity.ts";
import { INK } from "../inks.ts";
import type { Setting } from "../report/block.ts";
import type { BriefWords } from "./brief-words.ts";

/** What every part of a brief is made from. */
export interface BriefSetting {
  readonly scene: Scene;
  readonly result: CheckResult;
  readonly words: BriefWords;
  readonly width: number;
}

/** Large enough to be read on a telephone, where a page is as wide as the screen, and on paper at arm's length. */
export const BIG: Setting = { size: 14, face: "bold", ink: INK };
export const NAME: Setting = { size: 20, face: "bold", ink: INK };
export const FIGURE: Setting = { size: 10.5, face: "regular", ink: INK };
export const FIGURE_NAME: Setting = { size: 10.5, face: "bold", ink: INK };
export const TEXT: Setting = { size: 9.5, face: "regular", ink: INK };
export const HEAD_OF_COLUMN: Setting = { size: 8, face: "regular", ink: INK };

/** The step figures are rounded to, inches: what a tape shows, or a millimetre. */
const stepOf = (system: UnitSystem): number => (system === "metric" ? 1 : 1 / 16);

/** The same step, written: `1/16"`. */
export const stepText = (system: UnitSystem): string =>
  formatLength(inches(system === "metric" ? stepOf(system) / MM_PER_INCH : stepOf(system)), system);

/** A distance to be kept, rounded up. */
export const dropText = (drop: number, system: UnitSystem): string =>
  formatLength(inches(drop), system, { nearest: stepOf(system), round: "up" });

/** An elevation not to be passed, rounded down. */
export const heightText = (height: number, system: UnitSystem): string =>
  formatLength(inches(height), system, { nearest: stepOf(system), round: "down" });
