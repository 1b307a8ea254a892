import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { formatSlope, parseSlope } from "../../src/units/slope.ts";

const rise = (text: string): number | string => {
  const slope = parseSlope(text);
  return slope.ok ? slope.value.rise : slope.problems[0]!.code;
};

describe("parseSlope", () => {
  // 1/4 in. a foot is 1/48, a shade over 2 %: the usual least slope of a membrane roof (common practice, no source).
  it.each<[string, number]>([
    [`1/4":12"`, 1 / 48],
    [`1/4" per foot`, 1 / 48],
    ["1/4 / ft", 1 / 48],
    [`1/4"/ft`, 1 / 48],
    [`1/4" / 12"`, 1 / 48],
    [`1/4" per 1'-0"`, 1 / 48],
    [`SLOPE 1/4" / FT`, 1 / 48],
    ["1/4:12", 1 / 48],
    ["1:48", 1 / 48],
    ["1/4 in 12", 1 / 48],
    ["½″ per foot", 1 / 24],
    ["3:12", 0.25],
    ["2%", 0.02],
    ["0%", 0],
    [`0" per foot`, 0],
    ["20 mm/m", 0.02],
    ["20 mm per m", 0.02],
    ["45°", Math.tan(Math.PI / 4)],
    ["1.2 deg", 0.020947],
  ])("%s rises %d", (text, expected) => expect(rise(text)).toBeCloseTo(expected, 6));

  it.each<[string, string]>([
    [`-1/4" per foot`, "slope.negative"],
    ["-2%", "slope.negative"],
    ["1:-48", "slope.negative"],
    ["3:0", "slope.zero-run"],
    [`1/4":0"`, "slope.zero-run"],
    ["90°", "slope.too-steep"],
    ["", "slope.empty"],
    ["1/4", "slope.not-a-slope"],
    [`1/4"`, "slope.not-a-slope"],
    [`1/4":12`, "slope.not-a-slope"],
    ["steep", "slope.not-a-slope"],
    ["2%%", "slope.not-a-slope"],
  ])("refuses %s: %s", (text, code) => expect(rise(text)).toBe(code));
});

describe("formatSlope", () => {
  it("writes what the trade writes", () => {
    expect(formatSlope(1 / 48, "imperial")).toBe(`1/4" per foot`);
    expect(formatSlope(0.02, "metric")).toBe("2%");
    expect(formatSlope(0, "imperial")).toBe(`0" per foot`);
    expect(() => formatSlope(-1, "imperial")).toThrow(RangeError);
  });
  it("reads back: exactly where a table would have it, within rounding elsewhere", () => {
    const steps = fc.integer({ min: 0, max: 2000 });
    fc.assert(fc.property(steps, (n) => rise(formatSlope(n / 64 / 12, "imperial")) === n / 64 / 12));
    fc.assert(fc.property(steps, (n) => rise(formatSlope(n / 1000, "metric")) === n / 1000));
    fc.assert(
      fc.property(fc.double({ min: 0, max: 5, noNaN: true }), fc.constantFrom("imperial", "metric"), (n, system) => {
        expect(Math.abs((rise(formatSlope(n, system as "imperial")) as number) - n)).toBeLessThanOrEqual(
          n * 1e-14 + 1e-300,
        );
      }),
    );
  });
});
