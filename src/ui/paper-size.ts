import type { DisplaySize } from "../pdf/read/page-geometry.ts";
import type { UnitSystem } from "../units/length.ts";

const INCH = 72;

/** The size of a page on paper: `36 x 24 in.` or `841 x 594 mm`. */
export function paperSize({ width, height }: DisplaySize, system: UnitSystem): string {
  const show = (n: number) =>
    system === "metric" ? `${Math.round((n / INCH) * 25.4)}` : `${Number((n / INCH).toFixed(1))}`;
  return `${show(width)} × ${show(height)} ${system === "metric" ? "mm" : "in."}`;
}
