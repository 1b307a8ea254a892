import { formatLength } from "../../../src/units/format-length.ts";
import { inches } from "../../../src/units/quantity.ts";
import type { StoreRun, StoreTag } from "./router.ts";

const long = (value: number): string => formatLength(inches(value), "imperial");

/** An elevation tag as the drawing writes it. Without other words it is the centre line above the finished floor of Level 1. */
export function tagWords({ basis, from, inches: value, plusMinus }: StoreTag): string {
  const off = plusMinus === undefined ? "" : ` +/-${long(plusMinus)}`;
  const surface = { bottom: "B.O.C.", centre: "C.L.", top: "T.O.C." }[basis];
  switch (from) {
    case "below-deck":
      return `${surface} ${long(value)} BELOW DECK${off}`;
    case "project":
      return `EL. ${long(value)}${off}`;
    case "mezzanine":
      return `${surface} +${long(value)} A.F.F. MEZZ.${off}`;
    case "aff":
      return basis === "centre" ? `EL. ${long(value)} AFF${off}` : `${surface} ${long(value)} A.F.F.${off}`;
  }
}

/** A run's size as written: tubing unless it says otherwise. */
export function sizeWords({ wiring }: StoreRun): string {
  const size = wiring.size.replace("-", " ");
  if (wiring.type === "emt") return `${size}"C`;
  if (wiring.type === "wireway") return `WIREWAY ${wiring.size.toUpperCase()}`;
  if (wiring.type === "mc") return `MC ${wiring.size}`;
  return `${size}" ${wiring.type.toUpperCase()}`;
}

/** Whether the two ends of a run have elevations of their own. */
export function endsDiffer({ tags }: StoreRun): boolean {
  const [first, last] = [tags[0], tags.at(-1)];
  return !!first && !!last && first.inches !== last.inches;
}

/** What is written along a run; its elevations stand at its ends where they differ. */
export function runWords(run: StoreRun): string {
  const tag = run.tags[0] ?? undefined;
  const elevation = !tag ? "EL. NOT GIVEN" : endsDiffer(run) ? "" : tagWords(tag);
  return [run.label, sizeWords(run), run.circuit.trim(), run.remark, elevation]
    .filter((part) => part !== "")
    .join("  ");
}
