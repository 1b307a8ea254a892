import { describe, expect, test } from "vitest";
import { joinText } from "../../../src/pdf/read/join-text.ts";
import { textAt } from "./text-at.ts";

const words = (runs: ReturnType<typeof joinText>) => runs.map((run) => run.text);

describe("pieces of text on one baseline", () => {
  test("touching pieces are one word, spaced ones are words of one line", () => {
    expect(words(joinText([textAt("27'", 0, 0), textAt('-6"', 15, 0)]))).toEqual([`27'-6"`]);
    expect(words(joinText([textAt("ROOF", 0, 0), textAt("PLAN", 24, 0)]))).toEqual(["ROOF PLAN"]);
  });

  test("order in the file does not matter", () => {
    expect(words(joinText([textAt("PLAN", 24, 0), textAt("ROOF", 0, 0)]))).toEqual(["ROOF PLAN"]);
  });

  test("pieces far apart, of other size, or on other lines stay apart", () => {
    expect(words(joinText([textAt("A", 0, 0), textAt("B", 40, 0)]))).toEqual(["A", "B"]);
    expect(words(joinText([textAt("A", 0, 0), textAt("B", 6, 0, { height: 20 })]))).toEqual(["A", "B"]);
    expect(words(joinText([textAt("A", 0, 0), textAt("B", 6, -12)]))).toEqual(["A", "B"]);
  });

  test("a joined line spans from its first piece to the end of its last", () => {
    const [line] = joinText([textAt("ROOF", 100, 50), textAt("PLAN", 124, 50)]);
    expect(line).toMatchObject({ at: [100, 50], width: 44, height: 10 });
  });

  test("words set twice in one place are read once", () => {
    expect(words(joinText([textAt("LOBBY", 0, 0), textAt("LOBBY", 0.3, 0)]))).toEqual(["LOBBY"]);
  });

  test.each([90, 180, 270, -90, 37])("joined along the baseline at %d degrees", (degrees) => {
    const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
    const pieces = [textAt('1/4" =', 200, 300, { degrees }), textAt("1'-0\"", 200 + 33 * c, 300 + 33 * s, { degrees })];
    expect(words(joinText(pieces))).toEqual([`1/4" = 1'-0"`]);
  });

  test("text of different directions is never joined", () => {
    expect(joinText([textAt("A", 0, 0), textAt("B", 5, 0, { degrees: 90 })])).toHaveLength(2);
  });

  test("blank pieces vanish", () => {
    expect(joinText([textAt("  "), textAt("", 5, 5)])).toEqual([]);
  });
});

test("marks that only tell in which direction to write are no part of the words", () => {
  const [line, ...more] = joinText([
    textAt("\u200f\u202bEL. 14'-6\"\u202c\u200e", 100, 100, { width: 45 }),
    textAt("\u200f"),
  ]);
  expect(line).toMatchObject({ text: `EL. 14'-6"`, width: 45 });
  expect(more).toEqual([]);
});
