import { describe, expect, it } from "vitest";
import { addRaceway, makeRack, removeRaceway, setSpacing } from "../../src/editor/edits/racks.ts";
import type { Rack } from "../../src/job/elements/rack.ts";
import { racewayLabel, racewayOffset } from "../../src/job/elements/rack.ts";
import type { Job } from "../../src/job/schema.ts";
import { inchJob, roof, run, withParts } from "../check/inch-job.ts";
import { applyChecked, refusals } from "../job/apply-checked.ts";

const job = withParts(
  inchJob(),
  { a: roof(144) },
  {
    e1: run([
      [100, 300, 140],
      [400, 300, 140],
    ]),
  },
);
const rackIn = (from: Job): Rack => from.elements.e1 as Rack;

describe("racks", () => {
  it("are made of a run, which becomes their first raceway with its tags in place", () => {
    const made = applyChecked(job, makeRack(job, "e1"));
    expect(rackIn(made)).toMatchObject({ kind: "rack", label: "K-1", spacing: { is: "centres" } });
    expect(rackIn(made).raceways).toHaveLength(1);
    expect(rackIn(made).vertices).toEqual((job.elements.e1 as { vertices: unknown }).vertices);
    expect(refusals(makeRack(made, "e1"))).toEqual(["edit.not-a"]);
    expect(refusals(makeRack(job, "gone"))).toEqual(["edit.no-such-record"]);
  });

  it("take raceways on and off, and keep their last one", () => {
    const one = applyChecked(job, makeRack(job, "e1"));
    const two = applyChecked(one, addRaceway(one, "e1", 0));
    expect(rackIn(two).raceways.map((_, i) => racewayLabel(rackIn(two), i))).toEqual(["K-1/1", "K-1/2"]);
    const again = applyChecked(two, removeRaceway(two, "e1", 0));
    expect(rackIn(again).raceways).toHaveLength(1);
    expect(refusals(removeRaceway(again, "e1", 0))).toEqual(["edit.too-few-raceways"]);
  });

  it("keep their raceways in place when each gets an offset of its own", () => {
    const one = applyChecked(job, makeRack(job, "e1"));
    const two = applyChecked(one, addRaceway(one, "e1", 0));
    const apart = applyChecked(two, setSpacing(two, "e1", "offsets"));
    const offsets = (from: Job) => rackIn(from).raceways.map((_, i) => racewayOffset(rackIn(from), i));
    expect(offsets(apart)).toEqual(offsets(two));
    const three = applyChecked(apart, addRaceway(apart, "e1", 1));
    expect(offsets(three)).toHaveLength(3);
    expect(offsets(applyChecked(apart, setSpacing(apart, "e1", "centres")))).toEqual(offsets(two));
  });
});
