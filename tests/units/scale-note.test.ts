import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatScale, parseScaleNote } from "../../src/units/scale-note.ts";

const ratio = (text: string): number | string => {
  const note = parseScaleNote(text);
  return note.ok ? note.value.ratio : note.problems[0]!.code;
};

describe("parseScaleNote", () => {
  // The usual architect's and engineer's scales; the ratio is arithmetic (12 in. over the paper length).
  it.each<[string, number]>([
    [`3/64" = 1'-0"`, 256],
    [`1/16" = 1'-0"`, 192],
    [`3/32" = 1'-0"`, 128],
    [`1/8" = 1'-0"`, 96],
    [`3/16" = 1'-0"`, 64],
    [`1/4"=1'`, 48],
    [`1 1/2" = 1'-0"`, 8],
    [`3" = 1'-0"`, 4],
    [`1" = 20'`, 240],
    [`1" = 20'-0"`, 240],
    ["1:100", 100],
    ["1 : 50", 50],
    [`SCALE: 1/8" = 1'-0"`, 96],
    [`Scale 1/8"=1'-0"`, 96],
    ["⅛″ = 1′-0″", 96],
    ["10 mm = 1 m", 100],
    ["1/4 in = 1 ft", 48],
  ])("%s is 1:%d", (text, expected) => expect(ratio(text)).toBe(expected));

  it.each<[string, string]>([
    ["AS NOTED", "scale.as-noted"],
    ["SCALE: AS INDICATED", "scale.as-noted"],
    ["N.T.S.", "scale.not-to-scale"],
    ["NTS", "scale.not-to-scale"],
    ["SCALE: NONE", "scale.not-to-scale"],
    ["Not to scale", "scale.not-to-scale"],
    [`0" = 1'-0"`, "scale.zero"],
    [`1/8" = 0'`, "scale.zero"],
    ["1:0", "scale.zero"],
    ["0:100", "scale.zero"],
    ["", "scale.empty"],
    ["SCALE:", "scale.empty"],
    [`1/8" = 1`, "scale.not-a-scale"],
    [`1/8"`, "scale.not-a-scale"],
    [`1/8" = 1' = 2'`, "scale.not-a-scale"],
    [`-1/8" = 1'`, "scale.not-a-scale"],
    ["about 1:100", "scale.not-a-scale"],
  ])("refuses %s: %s", (text, code) => expect(ratio(text)).toBe(code));

  it("keeps the text as written, and reads it again to the same note", () => {
    const note = parseScaleNote(`  Scale: 1/8" = 1'-0" `);
    expect(note.ok && note.value.text).toBe(`Scale: 1/8" = 1'-0"`);
    expect(note.ok && parseScaleNote(note.value.text)).toEqual(note);
  });
});

describe("formatScale", () => {
  it.each<[number, string]>([
    [256, `3/64" = 1'-0"`],
    [96, `1/8" = 1'-0"`],
    [8, `1 1/2" = 1'-0"`],
    [240, `1" = 20'-0"`],
    [100, "1:100"],
    [123.456, "1:123.456"],
  ])("1:%d is %s", (n, text) => expect(formatScale(n)).toBe(text));

  it("reads back to the same ratio", () => {
    const ratios = fc.oneof(
      fc.integer({ min: 1, max: 768 }).map((n) => 768 / n),
      fc.integer({ min: 1, max: 5000 }),
      fc.integer({ min: 1, max: 1e6 }).map((n) => n / 1000),
    );
    fc.assert(
      fc.property(ratios, (n) => {
        const back = ratio(formatScale(n));
        expect(typeof back).toBe("number");
        expect(Math.abs((back as number) - n)).toBeLessThanOrEqual(n * 1e-14);
      }),
    );
  });
});
