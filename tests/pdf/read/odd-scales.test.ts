import { describe, expect, test } from "vitest";
import { compareWitnesses } from "../../../src/pdf/read/compare-witnesses.ts";
import { bareDimensions, dimensionStrings } from "../../../src/pdf/read/dimension-strings.ts";
import { scaleNoteIn } from "../../../src/pdf/read/find-notes.ts";
import { joinText } from "../../../src/pdf/read/join-text.ts";
import type { PageContents, TextRun } from "../../../src/pdf/read/plan-contents.ts";
import { readScales, type ScaleWitness } from "../../../src/pdf/read/scale-witnesses.ts";
import { madeLinework } from "./made-linework.ts";
import { textAt } from "./text-at.ts";

const contentsOf = (texts: readonly TextRun[]): PageContents => ({
  geometry: { page: 1, view: [0, 0, 1000, 1000], rotate: 0, userUnit: 1 },
  label: null,
  texts,
  scaleNotes: texts.flatMap((run) => scaleNoteIn(run) ?? []),
  elevations: [],
  slopes: [],
});

/** A dimension line from x to x + long with ticks. */
const dimension = (x: number, y: number, long: number) => [
  { points: [[x, y] as const, [x + long, y] as const] },
  ...[x, x + long].map((at) => ({ points: [[at - 3, y - 3] as const, [at + 3, y + 3] as const] })),
];
/** At 1:48, 12 ft take 12 x 12 x 72 / 48 = 216 units. */
const at48 = dimension(100, 500, 216);

test("two notes under one title are both given, with the doubt", () => {
  const texts = [textAt("PLAN", 100, 100), textAt(`1/4" = 1'-0"`, 100, 88), textAt(`1/8" = 1'-0"`, 160, 88)];
  const { views } = readScales({ contents: contentsOf(texts), linework: madeLinework(at48) });
  expect(views.map(({ doubts }) => doubts.includes("two-notes"))).toEqual([true, true]);
});

test("a note with nothing drawn in its part says so", () => {
  const texts = [textAt("PLAN", 100, 990), textAt(`1/4" = 1'-0"`, 100, 978)];
  const empty = readScales({ contents: contentsOf(texts), linework: madeLinework([]) });
  expect(empty.views[0]!.doubts).toContain("nothing-drawn");
  expect(compareWitnesses(empty.witnesses)).toEqual([]);
});

test("text split letter by letter is read as one dimension", () => {
  const pieces = [..."12'-0\""].map((sign, i) => textAt(sign, 190 + 5 * i, 503, { width: 5 }));
  const [found] = dimensionStrings(madeLinework(at48), joinText(pieces));
  expect(found).toMatchObject({ text: `12'-0"`, marks: "ticks" });
  expect(found!.ratio).toBeCloseTo(48, 3);
});

test("places far off the page and right-to-left marks offer nothing and hang nothing", () => {
  const texts = [
    textAt(`12'-0"`, 1e9, 1e9),
    textAt(`12'-0"`, Number.NaN, 0),
    textAt(`\u200f\u202e12'-0"\u202c`, 190, 503),
    textAt("9".repeat(20_000)),
  ];
  expect(dimensionStrings(madeLinework(at48), texts).length).toBeLessThanOrEqual(1);
});

test("reading stops when it is told to", () => {
  expect(() =>
    dimensionStrings(madeLinework(at48), [textAt(`12'-0"`, 190, 503)], AbortSignal.abort(new Error("enough"))),
  ).toThrow("enough");
});

test("a few false dimensions do not move the median, and dimensions that agree on nothing measure nothing", () => {
  const texts = [0, 1, 2, 3, 4].map((i) => textAt(i === 4 ? `20'-0"` : `12'-0"`, 190, 103 + 100 * i));
  const linework = madeLinework([0, 1, 2, 3, 4].flatMap((i) => dimension(100, 100 + 100 * i, 216)));
  const { witnesses } = readScales({ contents: contentsOf(texts), linework });
  const [one] = witnesses;
  expect(one).toMatchObject({ kind: "dimensions", of: { agreeing: 4, all: 5 } });
  expect(one!.ratio).toBeCloseTo(48, 3);
  const claim: ScaleWitness = { ...one!, kind: "note", text: "1:48", ratio: 48, of: null, measured: false };
  expect(compareWitnesses([claim, one!])[0]).toMatchObject({ agrees: true });
  expect(compareWitnesses([claim, { ...one!, of: { agreeing: 1, all: 5, spread: 0.4 } }])).toEqual([]);
});

describe("figures without a unit", () => {
  // At 1:50 3,450 mm take 69 mm on paper: 69 / 25.4 x 72 = 195.59 units.
  const drawn = madeLinework(dimension(100, 500, (69 / 25.4) * 72));
  const bare = textAt("3450", 188, 503);
  const witnessed = (...more: TextRun[]) =>
    readScales({ contents: contentsOf([bare, ...more]), linework: drawn }).dimensions;

  test("are millimetres where the sheet's scale is a plain ratio, or words or the file's viewport say so", () => {
    const [one] = witnessed(textAt("SCALE 1:50", 700, 20));
    expect(one).toMatchObject({ text: "3450", unit: "assumed-mm" });
    expect(one!.ratio).toBeCloseTo(50, 3);
    expect(witnessed(textAt("ALL DIMENSIONS IN MILLIMETRES", 700, 20))).toHaveLength(1);
    const measure = { kind: "rectilinear", text: "", perUnit: 1, unit: "mm", ratio: 50 } as const;
    const viewports = [{ page: 1, name: "", box: [0, 0, 1000, 1000], measure }] as const;
    expect(readScales({ contents: contentsOf([bare]), linework: drawn, viewports }).dimensions).toHaveLength(1);
  });

  test.each([
    ["nothing is said", []],
    ["the scale is in feet and inches", [textAt(`1/4" = 1'-0"`, 700, 20)]],
    ["a length in feet stands on the sheet too", [textAt("SCALE 1:50", 700, 20), textAt(`12'-0"`, 700, 300)]],
  ])("witness nothing where %s, and are told as unclear", (_, more) => {
    expect(witnessed(...more).filter(({ unit }) => unit !== "written")).toEqual([]);
    expect(bareDimensions(drawn, [bare, ...more])).toHaveLength(1);
  });

  test("are none without ticks or arrowheads", () => {
    expect(
      bareDimensions(
        madeLinework([
          {
            points: [
              [100, 500],
              [300, 500],
            ],
          },
        ]),
        [bare],
      ),
    ).toEqual([]);
    expect(bareDimensions(drawn, [textAt("ROOM 3450", 188, 503), textAt("17", 195, 503)])).toEqual([]);
  });
});

test.each([["AS NOTED"], ["N.T.S."], ["SCALE: NONE"]])(
  "%s states no scale: a view without a ratio and no witness",
  (words) => {
    const texts = [textAt("DETAIL AT CURB", 100, 100), textAt(words, 100, 88)];
    const { views, witnesses } = readScales({ contents: contentsOf(texts), linework: madeLinework(at48) });
    expect(views.map(({ note }) => note.ratio)).toEqual([null]);
    expect(witnesses.filter(({ kind }) => kind !== "dimensions")).toEqual([]);
  },
);

test("a note far from all that is drawn says so, and is set against nothing", () => {
  const texts = [textAt("PLAN", 700, 900), textAt(`1/4" = 1'-0"`, 700, 888), textAt(`12'-0"`, 190, 103)];
  const { views, witnesses } = readScales({
    contents: contentsOf(texts),
    linework: madeLinework(dimension(100, 100, 216)),
  });
  expect(views[0]!.doubts).toEqual(["nothing-drawn"]);
  expect(compareWitnesses(witnesses)).toEqual([]);
});
