import type { DisplaySize } from "./page-geometry.ts";

/** A sheet size of the trade: its two sides in 1/72 in. of paper, the shorter first. */
interface TradeSize {
  readonly name: string;
  readonly sides: readonly [number, number];
}

const inch = (name: string, short: number, long: number): TradeSize => ({ name, sides: [72 * short, 72 * long] });
const metric = (name: string, short: number, long: number): TradeSize => ({
  name,
  sides: [(72 * short) / 25.4, (72 * long) / 25.4],
});

/**
 * Sheet sizes that have a name. A to E: ANSI/ASME Y14.1; A0 to A4: ISO 216 (both from memory). The architectural sizes, in steps of 9 by 12 in.: common
 * practice, no source.
 */
const TRADE_SIZES: readonly TradeSize[] = [
  inch("ANSI A", 8.5, 11),
  inch("ANSI B", 11, 17),
  inch("ANSI C", 17, 22),
  inch("ANSI D", 22, 34),
  inch("ANSI E", 34, 44),
  inch("ARCH A", 9, 12),
  inch("ARCH B", 12, 18),
  inch("ARCH C", 18, 24),
  inch("ARCH D", 24, 36),
  inch("ARCH E1", 30, 42),
  inch("ARCH E", 36, 48),
  metric("A4", 210, 297),
  metric("A3", 297, 420),
  metric("A2", 420, 594),
  metric("A1", 594, 841),
  metric("A0", 841, 1189),
];

/** How far a side may be off: programs round a page to whole points. */
const ROUNDING_PT = 1;

/** The name of the size of a page, whichever way it lies; null where it is none of them exactly. */
export function paperName({ width, height }: DisplaySize): string | null {
  const [short, long] = [Math.min(width, height), Math.max(width, height)];
  const found = TRADE_SIZES.find(
    ({ sides }) => Math.abs(sides[0] - short) <= ROUNDING_PT && Math.abs(sides[1] - long) <= ROUNDING_PT,
  );
  return found?.name ?? null;
}
