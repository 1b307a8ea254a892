import { describe, expect, it } from "vitest";
import { compareWitnesses } from "../../src/pdf/read/compare-witnesses.ts";
import type { ScaleWitness } from "../../src/pdf/read/scale-witnesses.ts";
import { comparisonWords, witnessName } from "../../src/ui/scale-witness-words.ts";

const PAGE = [0, 0, 1224, 792] as const;
const note = (text: string, ratio: number): ScaleWitness => ({
  kind: "note",
  text,
  ratio,
  place: [100, 100],
  region: PAGE,
  of: null,
  measured: false,
  stretch: null,
  doubts: [],
});
const dimensions = (ratio: number, all: number, spread = 0): ScaleWitness => ({
  ...note(`${all} dimensions`, ratio),
  kind: "dimensions",
  of: { agreeing: all, all, spread },
  measured: true,
});
const bar = (ratio: number): ScaleWitness => ({ ...note("0 4 8", ratio), kind: "bar", measured: true });
const told = (...witnesses: readonly ScaleWitness[]) => comparisonWords(compareWitnesses(witnesses));

describe("what the witnesses of a scale come to, in words", () => {
  it("says of a sheet that was printed reduced by how much, and what that may mean", () => {
    // 48 / 129.02 = 0.372.
    expect(told(note(`1/4" = 1'-0"`, 48), dimensions(129.02, 19))).toEqual([
      {
        agrees: false,
        words: `The note says 1/4" = 1'-0", but the dimensions measure 1:129: the drawing has 0.372 of the size it has by the note. The sheet was printed reduced, or the note is of another drawing.`,
      },
    ]);
  });

  it("warns where there is little to go by", () => {
    expect(told(note(`1/4" = 1'-0"`, 48), dimensions(129.02, 2))[0]!.words).toMatch(
      /Only 2 dimensions could be read: measure a long one/,
    );
  });

  it("tells once what agrees with a note", () => {
    expect(told(note(`1/8" = 1'-0"`, 96), bar(96), dimensions(96, 9))).toEqual([
      {
        agrees: true,
        words: `The note says 1/8" = 1'-0", and the scale bar and the measure of 9 dimensions agree with it.`,
      },
    ]);
  });

  it("names a witness by what it is, with how many dimensions agree", () => {
    expect(witnessName({ ...dimensions(96, 9, 0.004), of: { agreeing: 7, all: 9, spread: 0.004 } })).toBe(
      "7 of 9 dimensions, half within 0.4%",
    );
    expect(witnessName(bar(96))).toBe("Scale bar");
  });
});
