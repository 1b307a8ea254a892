import { formatLength } from "../units/format-length.ts";
import type { UnitSystem } from "../units/length.ts";
import { inches } from "../units/quantity.ts";

/** An elevation above the project datum as it is read off, to a sixteenth of an inch or a millimetre. */
export const elevationText = (z: number, system: UnitSystem): string =>
  formatLength(inches(z), system, { nearest: system === "metric" ? 1 : 1 / 16 });
