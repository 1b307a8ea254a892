import { readFileSync } from "node:fs";
import { describe, expect, it, test } from "vitest";
import { elevationsIn } from "../../../src/pdf/read/elevation-tags.ts";
import { nearestLine } from "../../../src/pdf/read/nearest-line.ts";
import { readPage } from "../../../src/pdf/read/plan-reader.ts";
import { runNoteIn } from "../../../src/pdf/read/run-notes.ts";
import { madeLinework } from "./made-linework.ts";
import { withPlan } from "./open-bytes.ts";
import { textAt } from "./text-at.ts";

describe("elevations taken apart", () => {
  // Worked by hand: feet times 12; 3.450 m over 0.0254.
  test.each([
    [`EL. 14'-6"`, 174, null, null, null],
    [`T.O.S. 118'-3 1/2"`, 1419.5, "top", "steel", null],
    [`B.O. DECK +12'-0" A.F.F.`, 144, "bottom", "deck", "floor"],
    ["+3.450", 3.45 / 0.0254, null, null, null],
    [`T.O.C. 6" BELOW DECK`, 6, "top", null, "deck"],
    [`R-1 3/4" EMT C.L. 15'-0" AFF`, 180, "centre", null, "floor"],
    [`T/STEEL EL = 112'-0"`, 1344, "top", "steel", null],
    [`TOP OF SLAB 9'-0"`, 108, "top", "slab", null],
    ["U/S DECK 3810 mm", 150, "bottom", "deck", null],
  ])("%s", (text, value, basis, surface, from) => {
    const [tag, ...more] = elevationsIn(textAt(text));
    expect(tag).toMatchObject({ basis, surface, from });
    expect(tag!.value).toBeCloseTo(value, 9);
    expect(more).toEqual([]);
  });

  test.each([
    `27'-6"`,
    `4" SQ 2 1/8"D`,
    `BULKHEAD DOWN TO 9'-6"`,
    `1/4":12"`,
    `SEE +12'-0" LINE ON SHEET`,
    `3/4"C 2#12, 1#12G LC-77`,
  ])("%s is none", (text) => {
    expect(elevationsIn(textAt(text))).toEqual([]);
  });

  test("two of one run, existing, approximate and with a give", () => {
    expect(
      elevationsIn(textAt(`C.L. 15'-8" TO 15'-4" AFF`)).map(({ value, basis, from }) => [value, basis, from]),
    ).toEqual([
      [188, "centre", "floor"],
      [184, "centre", "floor"],
    ]);
    expect(elevationsIn(textAt(`(E) B.O. DECK ±12'-0"`))).toMatchObject([
      { existing: true, approximate: true, value: 144 },
    ]);
    expect(elevationsIn(textAt(`C.L. 11'-10" AFF +/- 1/4"`))).toMatchObject([
      { value: 142, give: 0.25, approximate: true },
    ]);
  });
});

test("sizes and conductors", () => {
  expect(runNoteIn(textAt(`R-213 3/4"C 2#10, 1#10G LC-25`))).toMatchObject({
    text: `3/4"C 2#10, 1#10G`,
    size: "3/4",
    type: "C",
    conductors: [
      { count: 2, size: "10", ground: false },
      { count: 1, size: "10", ground: true },
    ],
  });
  expect(runNoteIn(textAt(`1 1/4" EMT`))).toMatchObject({ size: "1 1/4", type: "EMT" });
  expect(runNoteIn(textAt("MC 12/2"))).toMatchObject({ size: "12/2", type: "MC" });
  expect(runNoteIn(textAt(`2"C 4#4/0, 1#4G`))?.conductors.map(({ size }) => size)).toEqual(["4/0", "4"]);
  expect(runNoteIn(textAt(`W12X26 @ 5'-0"`))).toBeUndefined();
});

test("a text takes the line it runs along; two as near are doubtful; none far off", () => {
  const run = textAt(`EL. 14'-6"`, 100, 105, { height: 8, width: 60 });
  const line = (y: number) => ({ points: [[50, y] as const, [300, y] as const] });
  expect(nearestLine(madeLinework([line(100), line(500)]), run)).toMatchObject({ ambiguous: false });
  expect(nearestLine(madeLinework([line(100), line(500)]), run)!.at[1]).toBeCloseTo(100);
  expect(nearestLine(madeLinework([line(100), line(115)]), run)!.ambiguous).toBe(true);
  expect(nearestLine(madeLinework([line(500)]), run)).toBeUndefined();
});

type Tag = { length: { value: number; unit: string }; datum: { from: string }; basis: string };
interface Element {
  readonly kind: string;
  readonly label: string;
  readonly tag?: Tag | null;
  readonly vertices?: readonly { readonly tag?: Tag | null }[];
  readonly viewport: string;
}

describe("the tags of the samples, against the jobs they were drawn from", () => {
  it.each([["riverside-workshop"], ["fennick-lane-store"]])("%s", async (name) => {
    const job = JSON.parse(readFileSync(`samples/${name}/job.json`, "utf8")) as {
      elements: Record<string, Element>;
    };
    const truths = new Map<string, Tag[]>();
    for (const { label, tag, vertices } of Object.values(job.elements))
      truths.set(
        label,
        [tag ?? null, ...(vertices ?? []).map((vertex) => vertex.tag ?? null)].filter((each) => each !== null),
      );
    await withPlan(new Uint8Array(readFileSync(`samples/${name}/${name}.pdf`)), async (plan) => {
      let [labelled, right, wrong] = [0, 0, 0];
      const notes: string[] = [];
      for (const { page } of plan.pages)
        for (const run of (await readPage(plan, page)).texts) {
          // A line that begins with the label of an element and writes a length with words of an elevation.
          const label = /^([RBFK]-\d+)\s/.exec(run.text)?.[1];
          const tags = label === undefined ? undefined : truths.get(label);
          if (!tags || !/\b(?:AFF|A\.F\.F|EL\.|BELOW DECK)/.test(run.text) || /NOT GIVEN/.test(run.text)) continue;
          labelled++;
          const found = elevationsIn(run);
          const good = found.filter(({ value, basis, from }) =>
            tags.some(
              (tag) =>
                Math.abs(tag.length.value * (tag.length.unit === "ft" ? 12 : 1) - value) < 1e-6 &&
                (basis === null || basis === tag.basis) &&
                (from === null || (from === "deck") === (tag.datum.from === "below-deck")),
            ),
          );
          right += Number(good.length > 0);
          wrong += found.length - good.length;
          if (good.length === 0 || found.length > good.length) notes.push(run.text);
        }
      expect(labelled).toBeGreaterThan(5);
      expect({ recall: right / labelled, precision: right / (right + wrong) }).toEqual({ recall: 1, precision: 1 });
      expect(notes).toEqual([]);
    });
  });
});

test("a text of no size or far away hangs nothing", () => {
  expect(elevationsIn(textAt("9".repeat(5000)))).toEqual([]);
  expect(nearestLine(madeLinework([]), textAt("EL. 1'", 1e9, 1e9, { height: 8 }))).toBeUndefined();
});
