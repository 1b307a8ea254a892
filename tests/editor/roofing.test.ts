import { describe, expect, it } from "vitest";
import { addArea } from "../../src/editor/edits/areas.ts";
import { removeRoofing, setRoofing } from "../../src/editor/edits/roofing.ts";
import { apply } from "../../src/job/edit.ts";
import { NO_ROOFING } from "../../src/job/roofing.ts";
import { applyChecked, refusals } from "../job/apply-checked.ts";
import { twoSheets } from "./sample-job.ts";

const inch = (value: number) => ({ value, unit: "in" as const });
const outlined = () => {
  const job = twoSheets();
  const edit = addArea(job, "a", "v-roof", [
    [0, 0],
    [100, 0],
    [100, 100],
  ]);
  if (!edit.ok) throw new Error("no area");
  return apply(job, edit.value);
};

describe("the roofing of an area", () => {
  it("starts from nothing known, changes value by value, and can be taken out again", () => {
    const before = outlined();
    const first = applyChecked(before, setRoofing(before, "a", {}));
    expect(first.areas.a?.roofing).toEqual(NO_ROOFING);
    const second = applyChecked(first, setRoofing(first, "a", { fastener: inch(6), flange: "top" }));
    expect(second.areas.a?.roofing).toEqual({ ...NO_ROOFING, fastener: inch(6), flange: "top" });
    const third = applyChecked(second, removeRoofing(second, "a"));
    expect(third.areas.a).toEqual(before.areas.a);
    expect("roofing" in third.areas.a!).toBe(false);
  });

  it("refuses a fastener without length, layers below nought, and an area that is gone", () => {
    const job = outlined();
    expect(refusals(setRoofing(job, "a", { fastener: inch(0) }))).toEqual(["edit.not-positive"]);
    expect(
      refusals(
        setRoofing(job, "a", {
          layers: [{ name: "", thickness: inch(-1) }],
          deckThickness: inch(-1),
          margin: inch(Number.NaN),
        }),
      ),
    ).toEqual(["edit.negative", "edit.negative", "edit.not-finite"]);
    expect(refusals(setRoofing(job, "b", {}))).toEqual(["edit.no-such-record"]);
    expect(refusals(removeRoofing(job, "b"))).toEqual(["edit.no-such-record"]);
  });
});
