import { formatScale } from "../../units/scale-note.ts";

/** A measured ratio is seldom round: to four digits. */
export const roundedScale = (ratio: number): string => {
  const note = formatScale(ratio);
  return note.startsWith("1:") ? `1:${Number(ratio.toPrecision(4))}` : note;
};
