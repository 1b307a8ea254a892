import { describe, expect, test } from "vitest";
import { elevationsIn } from "../../../src/pdf/read/elevation-tags.ts";
import { slopeIn } from "../../../src/pdf/read/find-notes.ts";
import { runNoteIn } from "../../../src/pdf/read/run-notes.ts";
import { textAt } from "./text-at.ts";

/** Inches, basis, surface, counted from, and "E" for existing, "~" for approximate. Notations are common practice, no source. */
type Says = readonly [number, string | null, string | null, string | null, string?];

describe("notations of elevations, each worked out by hand", () => {
  const elevations: readonly (readonly [text: string, ...Says])[] = [
    [`T.O.S. EL 118'-3 1/2"`, 1419.5, "top", "steel", null],
    [`EL. +14'-6"`, 174, null, null, null],
    [`EL.: 14'-6"`, 174, null, null, null],
    [`EL.14'-6"`, 174, null, null, null],
    [`EL. 14' 6"`, 174, null, null, null],
    ["EL. 14ft 6in", 174, null, null, null],
    [`TOS=118'-3½"`, 1419.5, "top", "steel", null],
    [`TOS 118'-3"`, 1419, "top", "steel", null],
    [`T.O.S.118'-3"`, 1419, "top", "steel", null],
    [`T. O. S. 15'-0"`, 180, "top", "steel", null],
    [`T.O.STL. 118'-3"`, 1419, "top", "steel", null],
    [`T.O. STL = 118'-3"`, 1419, "top", "steel", null],
    [`TOP STEEL EL 118'-3" (V.I.F.)`, 1419, "top", "steel", null, "~"],
    [`B.O. JST. 14'-0"`, 168, "bottom", "joist", null],
    [`TOD 16'-0"`, 192, "top", "deck", null],
    [`BOD 16'-0"`, 192, "bottom", "deck", null],
    [`B.O.D. = 16'-0"`, 192, "bottom", "deck", null],
    [`T/ DECK 15'-0"`, 180, "top", "deck", null],
    [`U.S. DECK 15'-0"`, 180, "bottom", "deck", null],
    [`UNDERSIDE OF DECK EL. 15'-0"`, 180, "bottom", "deck", null],
    [`BTM. OF DECK 15'-0"`, 180, "bottom", "deck", null],
    [`BOT. DECK 15'-0"`, 180, "bottom", "deck", null],
    [`T.O. ROOF DECK EL. 18'-2"`, 218, "top", "deck", null],
    [`T.O. METAL DECK 18'-2"`, 218, "top", "deck", null],
    [`T.O. STEEL DECK 18'-2"`, 218, "top", "deck", null],
    [`T.O. ROOF 18'-2"`, 218, "top", "roof", null],
    [`T.O. CONC. EL. 0'-0"`, 0, "top", "concrete", null],
    [`F.F.E. 100'-0"`, 1200, "top", "floor", null],
    [`FFE = 100'-0"`, 1200, "top", "floor", null],
    [`FIN. FLOOR 100'-0"`, 1200, "top", "floor", null],
    [`C/L 15'-0"`, 180, "centre", null, null],
    [`℄ 15'-0"`, 180, "centre", null, null],
    [`HIGH PT. 18'-0"`, 216, null, null, null],
    [`LOW POINT EL. 17'-0"`, 204, null, null, null],
    [`+12'-0" AFF (E)`, 144, null, null, "floor", "E"],
    [`EXIST. B.O. DECK 12'-0"`, 144, "bottom", "deck", null, "E"],
    [`AFF 9'-0"`, 108, null, null, "floor"],
    [`CLG @ 9'-0" A.F.F.`, 108, null, null, "floor"],
    [`[+12'-0"]`, 144, null, null, null],
    [`(+12'-0")`, 144, null, null, null],
    [`EL 14'-6" ±`, 174, null, null, null, "~"],
    [`EL. 118'-3" +/-`, 1419, null, null, null, "~"],
    [`~14'-6"`, 174, null, null, null, "~"],
    [`-1'-4"`, -16, null, null, null],
    // 3.450 m and 2.5 m over 0.0254.
    ["EL. +3.450 m", 3.45 / 0.0254, null, null, null],
    ["EL. 2.5 m", 2.5 / 0.0254, null, null, null],
  ];
  test.each(elevations.map(([text, ...says]) => [text, says] as const))("%s", (text, says) => {
    const [inches, basis, surface, from, marks = ""] = says;
    const [tag, ...more] = elevationsIn(textAt(text));
    expect(more).toEqual([]);
    expect(tag).toMatchObject({ basis, surface, from, existing: marks === "E", approximate: marks === "~" });
    expect(tag!.value).toBeCloseTo(inches, 9);
  });

  test.each([
    `118'-3"`,
    // Feet on a civil sheet, metres on others: the figure does not say.
    "EL. 118.29",
    "+3450",
    `TO 4'-0" BELOW`,
    `BOLT 3/4" DIA.`,
    `CLEAR 3'-0" MIN.`,
    `2'-0" x 4'-0"`,
    `10'-0" TO 12'-0"`,
    "REV. 2",
  ])("%s is none", (text) => {
    expect(elevationsIn(textAt(text))).toEqual([]);
  });

  test("two heights in one line, the words before the second", () => {
    expect(elevationsIn(textAt(`C.L. 9'-0" AFF 3'-0"`)).map(({ value, from }) => [value, from])).toEqual([
      [108, "floor"],
    ]);
  });
});

describe("notations of raceways, cables and conductors", () => {
  const notes: readonly (readonly [text: string, size: string | null, type: string | null, conductors: string])[] = [
    [`3/4" CONDUIT`, "3/4", "CONDUIT", ""],
    [`(2) 3/4"C`, "3/4", "C", ""],
    [`2-1"C`, "1", "C", ""],
    [`2-1/2"C`, "2-1/2", "C", ""],
    [`1½" EMT`, "1 1/2", "EMT", ""],
    [`½" EMT`, "1/2", "EMT", ""],
    [`1"ø EMT`, "1", "EMT", ""],
    [`2" SCH 40 PVC`, "2", "PVC", ""],
    [`1" RGS`, "1", "RGS", ""],
    [`1"LFMC`, "1", "LFMC", ""],
    [`3/4''C`, "3/4", "C", ""],
    [`1-1/4"C.O.`, "1-1/4", "C", ""],
    [`3/4"C, 3#10+1#10G`, "3/4", "C", "3#10 1#10G"],
    [`3/4"C-2#12,1#12G`, "3/4", "C", "2#12 1#12G"],
    [`2 #12 + 1 #12 GND IN 3/4"C`, "3/4", "C", "2#12 1#12G"],
    ["(2)#12, (1)#12G", null, null, "2#12 1#12G"],
    ["3#250KCMIL, 1#4G", null, null, "3#250 1#4G"],
    ["4#500 KCMIL, 1#1/0G", null, null, "4#500 1#1/0G"],
    ["12/2 MC", "12/2", "MC", ""],
    ["MC-12/2", "12/2", "MC", ""],
  ];
  test.each(notes)("%s", (text, size, type, conductors) => {
    const note = runNoteIn(textAt(text));
    expect(note).toMatchObject({ size, type });
    expect(
      note!.conductors.map(({ count, size: wire, ground }) => `${count}#${wire}${ground ? "G" : ""}`).join(" "),
    ).toBe(conductors);
  });

  test.each([
    `2" C.I. PIPE`,
    `1" C.W.`,
    `1" C & G`,
    `6" C-STUD`,
    `4" CONC. SLAB`,
    "2#5 BARS CONT.",
    "4#6 REBAR",
    `#4 @ 12" O.C.`,
    "2-#5",
    "3#11",
    `1" CPVC SPRINKLER`,
    "1/2 MCF",
  ])("%s is none", (text) => {
    expect(runNoteIn(textAt(text))).toBeUndefined();
  });
});

describe("notations of slopes, as rise over run", () => {
  test.each([
    [`1/4"/FT`, 1 / 48],
    ["1/4 : 12", 1 / 48],
    ["4:12", 1 / 3],
    [`SLOPE 1/4"/FT.`, 1 / 48],
    [`1/4" IN 12"`, 1 / 48],
    ["2.0 %", 0.02],
    ["SLOPE: 2%", 0.02],
    [`SLOPE DN 1/4" PER FT`, 1 / 48],
    [`MIN. SLOPE 1/4" PER FOOT`, 1 / 48],
    [`1/8" / 12"`, 1 / 96],
  ])("%s", (text, rise) => {
    expect(slopeIn(textAt(text))?.rise).toBeCloseTo(rise, 9);
  });
  test.each(["1:48", "10% SPARE", "80% COMPACTION", `1/4" GAP`, "24/7"])("%s is none", (text) => {
    expect(slopeIn(textAt(text))).toBeUndefined();
  });
});
