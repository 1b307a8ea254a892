import { describe, expect, test } from "vitest";
import { elevationIn, scaleNoteIn, sheetNumberIn, slopeIn } from "../../../src/pdf/read/find-notes.ts";
import { toInches } from "../../../src/units/length.ts";
import { textAt } from "./text-at.ts";

describe("scale notes", () => {
  // Ratios worked by hand: 12 in. over the paper inches.
  test.each([
    [`3/64" = 1'-0"`, 256],
    [`SCALE: 3/16" = 1'-0"`, 64],
    [`1 REFLECTED CEILING PLAN  SCALE 1/4"=1'-0"`, 48],
    [`1 1/2" = 1'-0"`, 8],
    ["⅛″ = 1′-0″", 96],
    [`1" = 30'-0"`, 360],
    [`1"=20'`, 240],
    [`3" = 1'-0"`, 4],
    ["1:100", 100],
    ["SCALE 1:80", 80],
    ["1 : 50", 50],
  ])("%s is 1 to %d", (text, ratio) => {
    const note = scaleNoteIn(textAt(text));
    expect(note?.kind).toBe("scale");
    expect(note?.ratio).toBeCloseTo(ratio, 9);
  });

  test.each([
    ["AS NOTED", "as-noted"],
    ["As indicated", "as-noted"],
    ["SCALE: AS SHOWN", "as-noted"],
    ["N.T.S.", "not-to-scale"],
    ["DETAIL - NOT TO SCALE", "not-to-scale"],
    ["SCALE: NONE", "not-to-scale"],
  ])("%s is %s", (text, kind) => {
    expect(scaleNoteIn(textAt(text))).toMatchObject({ kind, ratio: null });
  });

  test.each([
    "9/8/2015 5:21:36 PM",
    `7" / 1'-0"`,
    "1:12",
    "INSTALL AS SHOWN ON DETAIL",
    `27'-6"`,
    "PANTS",
    "ESCALATOR 1",
  ])("%s is no scale note", (text) => {
    expect(scaleNoteIn(textAt(text))).toBeUndefined();
  });

  test("the note comes without what stands around it", () => {
    expect(scaleNoteIn(textAt(`ROOF PLAN SCALE: 3/64" = 1'-0" (SHEET 3)`))?.text).toBe(`3/64" = 1'-0"`);
  });
});

describe("elevations", () => {
  test.each([
    [`EL. 14'-6"`, 174, "EL."],
    [`T.O.S. 118'-3 1/2"`, 1419.5, "T.O.S."],
    [`T/STEEL EL = 112'-0"`, 1344, "T/STEEL EL"],
    [`TOP OF DECK ELEV. 120'-0"`, 1440, "TOP OF DECK ELEV."],
    [`B.O. DECK @ 13'-2 1/8"`, 158.125, "B.O. DECK"],
    [`12'-6 1/2" A.F.F.`, 150.5, "A.F.F."],
    [`+12'-6"`, 150, ""],
    ["+3.810", 150, ""],
    ["-0.254", -10, ""],
    ["EL +3810 mm", 150, "EL"],
  ])("%s is %d in.", (text, inches, words) => {
    const found = elevationIn(textAt(text));
    expect(found && toInches(found.value)).toBeCloseTo(inches, 9);
    expect(found?.words).toBe(words);
  });

  test.each([
    `27'-6"`,
    "EL. BY OTHERS",
    "PANEL 14",
    "4.500",
    "ELEVATION A",
    `3/4" EMT`,
    "MODEL 12.50",
    "REEL 3.25",
    "-A1-",
  ])("%s is no elevation", (text) => {
    expect(elevationIn(textAt(text))).toBeUndefined();
  });
});

describe("the other line of an elevation tag", () => {
  const at = (text: string, along: number, up: number, degrees: number) => {
    const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    return textAt(text, 300 + along * c - up * s, 200 + along * s + up * c, { degrees });
  };
  test.each([0, 90, 180, 270])("is the one right above it, read at %d degrees", (degrees) => {
    const tag = at("EL. 16'-0\"", 0, 0, degrees);
    const name = at("T.O. STEEL", 0, 12, degrees);
    const others = [
      at("HIGHER", 0, 22, degrees),
      at("BELOW", 0, -12, degrees),
      at("BESIDE", 90, 12, degrees),
      at("TURNED", 0, 11, degrees + 90),
    ];
    expect(elevationIn(tag, [...others, name, tag])?.above).toBe("T.O. STEEL");
    expect(elevationIn(tag, [others[1]!, others[2]!, others[3]!, at("FAR", 0, 30, degrees), tag])?.above).toBeNull();
  });
});

describe("slopes", () => {
  test.each([
    [`1/4" / 1'-0"`, 1 / 48],
    [`7" / 1'-0"`, 7 / 12],
    ["1/4 IN/FT", 1 / 48],
    [`SLOPE 1/8" PER FOOT`, 1 / 96],
    [`1/4" : 12"`, 1 / 48],
    [`SLOPES 1/4" PER FOOT TO GRID A`, 1 / 48],
  ])("%s is a rise of %d", (text, rise) => {
    expect(slopeIn(textAt(text))?.rise).toBeCloseTo(rise, 12);
  });
  test.each([`1/4" = 1'-0"`, "12:30", "SALES / FOOT", `27'-6"`])("%s is no slope", (text) => {
    expect(slopeIn(textAt(text))).toBeUndefined();
  });
});

test("the sheet number is the largest text of that form, and larger than the usual text", () => {
  const body = Array.from({ length: 9 }, (_, i) => textAt(`NOTE ${i}`, 0, i * 20));
  expect(sheetNumberIn([...body, textAt("A-110", 0, 0, { height: 30 }), textAt("E201", 0, 0, { height: 12 })])).toBe(
    "A-110",
  );
  expect(sheetNumberIn([...body, textAt("A1", 0, 0)])).toBeNull();
});

test("a per cent beside an arrow is a slope, one inside a sentence is not", () => {
  expect(slopeIn(textAt("2%"))?.rise).toBeCloseTo(0.02, 12);
  expect(slopeIn(textAt("SLOPE 1.5 % DN"))?.rise).toBeCloseTo(0.015, 12);
  expect(slopeIn(textAt("95% COMPACTION"))).toBeUndefined();
});
