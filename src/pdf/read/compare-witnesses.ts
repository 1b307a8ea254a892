import type { SheetBox } from "./gather-linework.ts";
import type { ScaleWitness } from "./scale-witnesses.ts";

/** Two witnesses of one part of a sheet, set against each other. */
export interface WitnessComparison {
  readonly claim: ScaleWitness;
  /** What it is compared with: what was measured, where anything was; else another claim. */
  readonly against: ScaleWitness;
  /**
   * The claimed ratio over the other. With something measured: the size the sheet was printed at, if the claim was true of the
   * sheet as issued (0.405: the paper shows 0.405 of the size the note speaks of).
   */
  readonly factor: number;
  readonly agrees: boolean;
}

/** Two witnesses agree to this part of their ratios, or to three times the spread of the dimensions where that is more. */
const AGREES = 0.01;
/** Dimensions whose spread is larger measure nothing. */
const TOO_WIDE = 0.15;

/**
 * Sets every claim (note, viewport) against what is measured in its part of the sheet, and bars against dimensions. Claims of
 * which nothing is measured are set against each other. A note in the title block is only asked where no view has its own.
 */
export function compareWitnesses(witnesses: readonly ScaleWitness[]): readonly WitnessComparison[] {
  const ownNotes = witnesses.some(({ kind }) => kind === "note");
  const claims = witnesses.filter(({ kind, measured }) => !measured && (kind !== "sheet-note" || !ownNotes));
  const measures = witnesses.filter(({ measured, of }) => measured && (of === null || of.spread <= TOO_WIDE));
  const done: WitnessComparison[] = [];
  const compare = (claim: ScaleWitness, against: ScaleWitness): void => {
    const factor = claim.ratio / against.ratio;
    const within = Math.max(AGREES, 3 * Math.max(claim.of?.spread ?? 0, against.of?.spread ?? 0));
    done.push({ claim, against, factor, agrees: Math.abs(factor - 1) <= within });
  };
  for (const [i, claim] of claims.entries()) {
    const own = measures.filter((each) => speaksOf(claim, each));
    for (const measure of own) compare(claim, measure);
    if (own.length === 0) for (const other of claims.slice(i + 1)) if (speaksOf(claim, other)) compare(claim, other);
  }
  for (const bar of measures)
    if (bar.kind === "bar")
      for (const other of measures)
        if (other.kind === "dimensions" && isSame(bar.region, other.region)) compare(bar, other);
  return done;
}

/** A note speaks of its own view, which may lie inside the reach of another; a viewport and a title block of all they hold. */
const speaksOf = (claim: ScaleWitness, other: ScaleWitness): boolean =>
  isSame(claim.region, other.region) || (claim.kind !== "note" && isWithin(claim.region, other));

const isSame = (a: SheetBox, b: SheetBox): boolean => a.every((edge, i) => edge === b[i]);
const isWithin = ([x0, y0, x1, y1]: SheetBox, { place: [x, y] }: ScaleWitness): boolean =>
  x >= x0 && x <= x1 && y >= y0 && y <= y1;
