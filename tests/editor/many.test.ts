import { describe, expect, it } from "vitest";
import { factsMany, raiseMany, tagMany } from "../../src/editor/edits/many.ts";
import { ANY_WIRING, findWiring, type WiringQuery } from "../../src/editor/find-wiring.ts";
import type { Edit } from "../../src/job/edit.ts";
import type { Element } from "../../src/job/elements/element.ts";
import type { Job } from "../../src/job/schema.ts";
import type { Result } from "../../src/units/problem.ts";
import { inches } from "../../src/units/quantity.ts";
import { box, inch, inchJob, roof, run, tag, withParts } from "../check/inch-job.ts";
import { applyChecked } from "../job/apply-checked.ts";

const rmc = { type: "rmc", tradeSize: "3/4", outsideDiameter: null };
const elements: Record<string, Element> = {
  a: run([
    [0, 0, 140],
    [100, 0, 146],
  ]),
  b: run(
    [
      [0, 50, 150],
      [100, 50, null],
    ],
    { label: "R-10", wiring: rmc },
  ),
  c: run(
    [
      [0, 90, tag(6, "top", { datum: { from: "below-deck" } })],
      [100, 90, tag(6, "top", { datum: { from: "below-deck" } })],
    ],
    { label: "R-2" },
  ),
  d: box(200, 200, tag(145)),
};
const job: Job = withParts(inchJob(), { roof: roof(160) }, elements);
const found = (query: Partial<WiringQuery>) =>
  findWiring(job, { ...ANY_WIRING, ...query }).map((id) => job.elements[id]!.label);
const done = (edit: Result<Edit>): Job => {
  if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
  return applyChecked(job, edit.value);
};
const heights = (of: Job, id: string) => {
  const element = of.elements[id]!;
  return "vertices" in element ? element.vertices.map(({ tag }) => tag?.length.value ?? null) : [];
};

describe("finding wiring", () => {
  it.each<[Partial<WiringQuery>, string[]]>([
    [{}, ["B-1", "R-1", "R-2", "R-10"]],
    [{ type: "emt" }, ["R-1", "R-2"]],
    [{ type: "emt", tradeSize: "3/4", above: inch(144) }, ["R-1"]],
    [{ above: inch(144) }, ["B-1", "R-1", "R-10"]],
    [{ above: inch(146) }, ["R-10"]],
    [{ below: inch(144) }, ["R-1"]],
    [{ below: { value: 4, unit: "m" } }, ["B-1", "R-1", "R-10"]],
    [{ tradeSize: "2" }, []],
  ])("%o", (query, labels) => {
    expect(found(query)).toEqual(labels);
  });
});

describe("changing several at once", () => {
  it("raises and lowers every tag they have, as one step, below a deck the other way", () => {
    const edit = raiseMany(job, ["a", "b", "c"], inches(-1));
    expect(edit.ok && edit.value.name).toBe("Lower 3 elements");
    const after = done(edit);
    expect([heights(after, "a"), heights(after, "b"), heights(after, "c")]).toEqual([
      [139, 145],
      [149, null],
      [7, 7],
    ]);
    expect(after.elements.d).toBe(job.elements.d);
  });

  it("gives them one tag, and records facts of them", () => {
    const tagged = done(tagMany(job, ["a", "d"], tag(120, "bottom")));
    expect(heights(tagged, "a")).toEqual([120, 120]);
    expect(tagged.elements.d).toMatchObject({ tag: tag(120, "bottom") });
    const recorded = done(factsMany(job, ["a", "d"], { steelFittings: true }));
    for (const id of ["a", "d"]) expect(recorded.elements[id]).toMatchObject({ facts: { steelFittings: true } });
    expect(recorded.elements.b).toBe(job.elements.b);
  });

  it("refuses all where one is refused", () => {
    expect(raiseMany(job, ["a"], inches(Number.NaN)).ok).toBe(false);
  });
});
