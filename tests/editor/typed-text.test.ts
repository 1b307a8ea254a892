import { describe, expect, it } from "vitest";
import { setSettings } from "../../src/editor/edits/settings.ts";
import { setViewport } from "../../src/editor/edits/sheets.ts";
import { addStorey } from "../../src/editor/edits/storeys.ts";
import { asDisplayed, isPositionText, parsePosition } from "../../src/editor/parse-position.ts";
import { parseTag } from "../../src/editor/parse-tag.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { twoSheets, valueIn } from "./sample-job.ts";

const codes = (result: ReturnType<typeof parseTag>) => (result.ok ? [] : result.problems.map(({ code }) => code));

describe("a typed elevation tag", () => {
  const job = twoSheets();
  const read = (text: string) => {
    const { length, datum, basis, plusMinus } = valueIn(parseTag(text, job, "v-ceiling"));
    return [length.value, datum.from, basis, plusMinus?.value ?? null];
  };

  // Ways of writing tags are common practice of the trade, no source.
  it.each([
    [`13'-2"`, [158, "storey", "bottom", null]],
    [`13'-2" AFF`, [158, "storey", "bottom", null]],
    [`13'-2" A.F.F. centre`, [158, "storey", "centre", null]],
    [`BOC 12'-6"`, [150, "storey", "bottom", null]],
    [`B.O.C. 12'-6"`, [150, "storey", "bottom", null]],
    [`T.O. 12'-6"`, [150, "storey", "top", null]],
    [`top of conduit 12'-6" AFF`, [150, "storey", "top", null]],
    [`C/L 12'-6"`, [150, "storey", "centre", null]],
    [`centerline @ 12'-6"`, [150, "storey", "centre", null]],
    [`EL 112'-6"`, [1350, "project", "bottom", null]],
    [`EL+112'-6"`, [1350, "project", "bottom", null]],
    [`EL. 112'-6" top`, [1350, "project", "top", null]],
    [`2" below deck`, [2, "below-deck", "bottom", null]],
    [`top 2" below the roof deck`, [2, "below-deck", "top", null]],
    [`13'-2" AFF ± 1/2"`, [158, "storey", "bottom", 0.5]],
    [`13'-2" +/- 1"`, [158, "storey", "bottom", 1]],
    [`±12'-6"`, [150, "storey", "bottom", null]],
    [`3810 mm above finished floor`, [3810, "storey", "bottom", null]],
  ])("reads %s", (text, expected) => {
    expect(read(text)).toEqual(expected);
  });

  it("refuses what is no length, has no unit, or names two datums", () => {
    expect(codes(parseTag("high", job, null))).toEqual(["length.not-a-length"]);
    expect(codes(parseTag("13", job, null))).toEqual(["length.no-unit"]);
    expect(codes(parseTag(`13' AFF below deck`, job, null))).toEqual(["tag.two-datums"]);
    expect(codes(parseTag(`13' ± x`, job, null))).toEqual(["length.not-a-length"]);
    expect(codes(parseTag("", job, null))).toEqual(["length.empty"]);
  });

  it("takes a bare number as millimetres in a metric job", () => {
    const metric = applyChecked(job, setSettings(job, { system: "metric" }));
    expect(valueIn(parseTag("3810 centre", metric, null)).length).toEqual({ value: 3810, unit: "mm" });
  });

  it("counts from the storey of the viewport, and asks where there are several", () => {
    let two = applyChecked(job, addStorey(job, "level-2", { name: "Level 2", floor: { value: 14, unit: "ft" } }));
    expect(codes(parseTag(`13'-2"`, two, "v-ceiling"))).toEqual(["tag.no-storey"]);
    two = applyChecked(two, setViewport(two, "v-ceiling", { storey: "level-2" }));
    expect(valueIn(parseTag(`13'-2"`, two, "v-ceiling")).datum).toEqual({ from: "storey", storey: "level-2" });
    expect(codes(parseTag(`13'-2" AFF`, two, "v-roof"))).toEqual(["tag.no-storey"]);
    expect(valueIn(parseTag(`EL 13'-2"`, two, "v-roof")).datum).toEqual({ from: "project" });
  });
});

describe("a typed position", () => {
  it("is told from other text by its comma or its sign", () => {
    expect(isPositionText(`12'-6", 4'`)).toBe(true);
    expect(isPositionText("@1, 2")).toBe(true);
    expect(isPositionText(`12'-6"`)).toBe(false);
    expect(isPositionText("a, b, c")).toBe(false);
  });

  it("is read in either form", () => {
    expect(valueIn(parsePosition("@-10.5, 20", "imperial"))).toEqual({ is: "sheet", at: [-10.5, 20] });
    expect(valueIn(parsePosition(`12'-6", -4'`, "imperial"))).toEqual({
      is: "from-last",
      right: { value: 150, unit: "in" },
      up: { value: -4, unit: "ft" },
    });
    expect(valueIn(parsePosition("1200, 0", "metric"))).toMatchObject({ right: { value: 1200, unit: "mm" } });
    expect(parsePosition("12, 4", "imperial").ok).toBe(false);
    expect(parsePosition("@1", "imperial").ok).toBe(false);
    expect(parsePosition(`@12', 3'`, "imperial").ok).toBe(false);
  });

  it("turns with the page: /Rotate is clockwise (ISO 32000-1, table 30)", () => {
    expect(asDisplayed([3, 1], 0)).toEqual([3, 1]);
    // A page turned clockwise by 90: its own +y points right on the screen, its own -x up.
    expect(asDisplayed([3, 1], 90)).toEqual([-1, 3]);
    expect(asDisplayed([3, 1], 180)).toEqual([-3, -1]);
    expect(asDisplayed([3, 1], 270)).toEqual([1, -3]);
  });
});
