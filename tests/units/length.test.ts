import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatLength } from "../../src/units/format-length.ts";
import { type Length, type LengthUnit, toInches } from "../../src/units/length.ts";
import { parseLength } from "../../src/units/parse-length.ts";
import { inches } from "../../src/units/quantity.ts";

const read = (text: string, unit?: LengthUnit): Length | string => {
  const result = parseLength(text, unit);
  return result.ok ? result.value : result.problems[0]!.code;
};
const readInches = (text: string): number => {
  const result = parseLength(text);
  if (!result.ok) throw new Error(`${text}: ${result.problems[0]!.code}`);
  return toInches(result.value);
};

describe("inches from millimetres and feet (1 in. = 25.4 mm exactly: NIST SP 811, B.8)", () => {
  it.each<[Length, number]>([
    [{ value: 25.4, unit: "mm" }, 1],
    [{ value: 3810, unit: "mm" }, 150],
    [{ value: 3.81, unit: "m" }, 150],
    [{ value: 9.525, unit: "mm" }, 0.375],
    [{ value: 0.396875, unit: "mm" }, 1 / 64],
    [{ value: 304.8, unit: "mm" }, 12],
    [{ value: 12.5, unit: "ft" }, 150],
    [{ value: 0.1, unit: "ft" }, 1.2],
    [{ value: -38.1, unit: "mm" }, -1.5],
    [{ value: 7, unit: "in" }, 7],
  ])("%j is %d in.", (length, expected) => expect(toInches(length)).toBe(expected));

  it("keeps 38 mm short of 1 1/2 in.", () => {
    expect(toInches({ value: 38, unit: "mm" })).toBeCloseTo(1.4960629921259843, 15);
  });
});

describe("parseLength", () => {
  it.each<[string, Length]>([
    [`27'-6"`, { value: 330, unit: "in" }],
    [`27' 6"`, { value: 330, unit: "in" }],
    [`27'6"`, { value: 330, unit: "in" }],
    [`27'-6`, { value: 330, unit: "in" }],
    [`12'-6 1/2"`, { value: 150.5, unit: "in" }],
    [`12'-6-1/2"`, { value: 150.5, unit: "in" }],
    [`0'-7 3/4"`, { value: 7.75, unit: "in" }],
    [`0'-0"`, { value: 0, unit: "in" }],
    ["12 ft", { value: 12, unit: "ft" }],
    [`12'`, { value: 12, unit: "ft" }],
    [`12.5'`, { value: 12.5, unit: "ft" }],
    ["12ft 6in", { value: 150, unit: "in" }],
    ["12 ft. 6 in.", { value: 150, unit: "in" }],
    ["12 feet 6 inches", { value: 150, unit: "in" }],
    [`6"`, { value: 6, unit: "in" }],
    [`1-1/2"`, { value: 1.5, unit: "in" }],
    ["1 1/2 in", { value: 1.5, unit: "in" }],
    [`3/64"`, { value: 0.046875, unit: "in" }],
    [`.5"`, { value: 0.5, unit: "in" }],
    ["3810 mm", { value: 3810, unit: "mm" }],
    ["38mm", { value: 38, unit: "mm" }],
    ["3.81 m", { value: 3.81, unit: "m" }],
    ["12′-6½″", { value: 150.5, unit: "in" }],
    ["12’–6 ⅜”", { value: 150.375, unit: "in" }],
    ["12''", { value: 12, unit: "in" }],
    [`+12'-6"`, { value: 150, unit: "in" }],
    [`-0'-3 1/4"`, { value: -3.25, unit: "in" }],
    ["−2 mm", { value: -2, unit: "mm" }],
    ['± 1/2"', { value: 0.5, unit: "in" }],
    [`+/-1/4"`, { value: 0.25, unit: "in" }],
    [`1/3"`, { value: 1 / 3, unit: "in" }],
    ["  12'\u00a0- 6\"  ", { value: 150, unit: "in" }],
    [`12'-6 1/2" `, { value: 150.5, unit: "in" }],
  ])("reads %s", (text, expected) => expect(read(text)).toEqual(expected));

  it.each<[string, string]>([
    ["", "length.empty"],
    ["   ", "length.empty"],
    ["-", "length.empty"],
    [`12'-14"`, "length.inches-over-twelve"],
    [`12'-12"`, "length.inches-over-twelve"],
    [`12'-12.5"`, "length.inches-over-twelve"],
    ["150", "length.no-unit"],
    ["1 1/2", "length.no-unit"],
    [`6 5/4"`, "length.fraction-not-proper"],
    [`1/0"`, "length.zero-denominator"],
    [`12'-6 1/0"`, "length.zero-denominator"],
    [`12.5'-6"`, "length.not-a-length"],
    ["twelve feet", "length.not-a-length"],
    [`12'-6'`, "length.not-a-length"],
    ["12 mm 6 in", "length.not-a-length"],
    ["1e3 mm", "length.not-a-length"],
    ["3,81 m", "length.not-a-length"],
    [`--6"`, "length.not-a-length"],
    ["NaN", "length.not-a-length"],
    ["Infinity mm", "length.not-a-length"],
    [`1/2/3"`, "length.not-a-length"],
    ["99999999999 mm", "length.too-large"],
    [`99999999999'-6"`, "length.too-large"],
  ])("refuses %s: %s", (text, code) => expect(read(text)).toBe(code));

  it("gives a bare number the default unit, and leaves written units alone", () => {
    expect(read("12", "ft")).toEqual({ value: 12, unit: "ft" });
    expect(read("12 1/2", "ft")).toEqual({ value: 12.5, unit: "ft" });
    expect(read("3810", "mm")).toEqual({ value: 3810, unit: "mm" });
    expect(read(`6"`, "mm")).toEqual({ value: 6, unit: "in" });
  });
});

describe("formatLength", () => {
  it.each<[number, string]>([
    [150.5, `12'-6 1/2"`],
    [0.875, `7/8"`],
    [0, `0"`],
    [-0, `0"`],
    [-3.25, `-0'-3 1/4"`],
    [-15, `-1'-3"`],
    [12, `1'-0"`],
    [12.5, `1'-0 1/2"`],
    [11.984375, `11 63/64"`],
    [0.922, `0.922"`],
    [12.922, `1'-0.922"`],
    [1 / 128, `0.0078125"`],
    [330, `27'-6"`],
  ])("writes %d in. as %s", (n, text) => expect(formatLength(inches(n), "imperial")).toBe(text));

  it.each<[number, string]>([
    [150, "3810 mm"],
    [1.5, "38.1 mm"],
    [toInches({ value: 38, unit: "mm" }), "38 mm"],
    [0, "0 mm"],
    [-1, "-25.4 mm"],
  ])("writes %d in. as %s", (n, text) => expect(formatLength(inches(n), "metric")).toBe(text));

  it("rounds to a step, the way it is told", () => {
    const sixteenth = (n: number, round: "nearest" | "down" | "up") =>
      formatLength(inches(n), "imperial", { nearest: 1 / 16, round });
    expect(sixteenth(150.04, "nearest")).toBe(`12'-6 1/16"`);
    expect(sixteenth(150.04, "down")).toBe(`12'-6"`);
    expect(sixteenth(150.01, "up")).toBe(`12'-6 1/16"`);
    expect(sixteenth(150.03125, "nearest")).toBe(`12'-6 1/16"`);
    expect(sixteenth(-0.01, "nearest")).toBe(`0"`);
    expect(sixteenth(-0.01, "down")).toBe(`-0'-0 1/16"`);
    expect(sixteenth(11.99, "nearest")).toBe(`1'-0"`);
    expect(formatLength(inches(1.5), "metric", { nearest: 1 })).toBe("38 mm");
    expect(formatLength(inches(1.5), "metric", { nearest: 1, round: "up" })).toBe("39 mm");
    // 3 x 0.1 is not 0.3 in binary; a value on a step stays there whichever way it is rounded.
    expect(formatLength(inches(0.3), "imperial", { nearest: 0.1, round: "up" })).toBe(`0.3"`);
  });

  it("throws for what is not a length", () => {
    expect(() => formatLength(inches(Number.NaN), "imperial")).toThrow(RangeError);
    expect(() => formatLength(inches(1), "imperial", { nearest: 0 })).toThrow(RangeError);
  });
});

describe("what formatLength writes, parseLength reads back", () => {
  const building = fc.double({ min: -1e5, max: 1e5, noNaN: true });
  const sixtyFourths = fc.integer({ min: -640_000, max: 640_000 }).map((n) => n / 64);
  const thousandthsMm = fc.integer({ min: -5e6, max: 5e6 }).map((n) => toInches({ value: n / 1000, unit: "mm" }));

  it("any number of inches, exactly, in feet and inches", () => {
    fc.assert(
      fc.property(fc.oneof(building, sixtyFourths, thousandthsMm), (n) => {
        expect(readInches(formatLength(inches(n), "imperial"))).toBe(n === 0 ? 0 : n);
      }),
    );
  });
  it("sixty-fourths of an inch and thousandths of a millimetre, exactly, in millimetres", () => {
    fc.assert(
      fc.property(fc.oneof(sixtyFourths, thousandthsMm), (n) => {
        expect(readInches(formatLength(inches(n), "metric"))).toBe(n === 0 ? 0 : n);
      }),
    );
  });
  it("any number of inches, within one rounding, in millimetres", () => {
    // Parts in 10^16: two roundings of 1.1 each way, and 4.5 for the short decimal that is taken.
    const comesBack = (n: number) => {
      const back = readInches(formatLength(inches(n), "metric"));
      expect(Math.abs(back - n)).toBeLessThanOrEqual(Math.abs(n) * 9e-16 + Number.MIN_VALUE);
    };
    comesBack(6.879751046476004e-18);
    comesBack(0.000006059130454803796);
    fc.assert(fc.property(building, comesBack));
  });
  it("rounded lengths stay within their step", () => {
    fc.assert(
      fc.property(building, fc.constantFrom(1 / 16, 1 / 8, 1 / 4, 1 / 2, 1), (n, nearest) => {
        const way = (round: "nearest" | "down" | "up") =>
          readInches(formatLength(inches(n), "imperial", { nearest, round }));
        expect(Math.abs(way("nearest") - n)).toBeLessThanOrEqual(nearest / 2 + 1e-9);
        expect(way("down")).toBeLessThanOrEqual(n + 1e-9 * Math.max(1, Math.abs(n)));
        expect(way("up")).toBeGreaterThanOrEqual(n - 1e-9 * Math.max(1, Math.abs(n)));
        expect(way("up") - way("down")).toBeLessThanOrEqual(nearest);
      }),
    );
  });
  it("never throws on any text", () => {
    fc.assert(
      fc.property(fc.oneof(fc.string(), fc.stringMatching(/^[-+0-9./' "inftm½]{0,12}$/)), (text) => {
        const result = parseLength(text);
        if (result.ok) expect(Number.isFinite(result.value.value)).toBe(true);
        else expect(result.problems.length).toBeGreaterThan(0);
      }),
    );
  });
});
