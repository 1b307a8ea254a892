import { describe, expect, it } from "vitest";
import { keyStep, raiseTag } from "../../src/editor/edits/raise-tag.ts";
import type { Element } from "../../src/job/elements/element.ts";
import { NO_FACTS, type Tag } from "../../src/job/fields.ts";
import type { Job } from "../../src/job/schema.ts";
import { inches } from "../../src/units/quantity.ts";
import { box, inchJob, roof, run, tag, withParts } from "../check/inch-job.ts";
import { applyChecked } from "../job/apply-checked.ts";

const jobWith = (element: Element): Job => withParts(inchJob(), { a: roof(144) }, { e1: element });
const tagAfter = (given: Tag, by: number): Tag | null => {
  const job = jobWith(box(100, 100, given));
  const edit = raiseTag(job, "e1", 0, inches(by));
  if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
  const after = edit.value.changes.length > 0 ? applyChecked(job, edit.value).elements.e1! : job.elements.e1!;
  return "tag" in after ? after.tag : null;
};

describe("raising a tag", () => {
  it.each<[string, Tag, number, Tag["length"]]>([
    ["inches, to the sixteenth", tag(140), 0.55, { value: 140.5625, unit: "in" }],
    ["downwards", tag(140), -1.99, { value: 138, unit: "in" }],
    ["feet become inches", tag(0, "centre", { length: { value: 11.5, unit: "ft" } }), 1, { value: 139, unit: "in" }],
    [
      "millimetres, to the millimetre",
      tag(0, "centre", { length: { value: 3500, unit: "mm" } }),
      1,
      { value: 3525, unit: "mm" },
    ],
    [
      "metres, to the millimetre",
      tag(0, "centre", { length: { value: 3.5, unit: "m" } }),
      1,
      { value: 3.525, unit: "m" },
    ],
    ["below a deck higher is less", tag(6, "centre", { datum: { from: "below-deck" } }), 1, { value: 5, unit: "in" }],
  ])("%s", (_, given, by, length) => {
    expect(tagAfter(given, by)?.length).toEqual(length);
  });

  it("names what it does, changes one vertex alone, and keeps the rest of the tag", () => {
    const job = jobWith(
      run([
        [0, 0, tag(140, "bottom", { plusMinus: { value: 0.25, unit: "in" } })],
        [100, 0, 141],
      ]),
    );
    const edit = raiseTag(job, "e1", 0, inches(-1));
    if (!edit.ok) throw new Error("refused");
    expect(edit.value.name).toBe("Lower a tag of R-1");
    const after = applyChecked(job, edit.value).elements.e1!;
    expect("vertices" in after && after.vertices.map((vertex) => vertex.tag)).toEqual([
      tag(139, "bottom", { plusMinus: { value: 0.25, unit: "in" } }),
      tag(141),
    ]);
  });

  it("is no edit where it comes to nothing, and refused where there is no tag", () => {
    const idle = raiseTag(jobWith(box(100, 100, tag(140))), "e1", 0, inches(0.01));
    expect(idle.ok && idle.value.changes).toEqual([]);
    for (const [job, vertex] of [
      [jobWith(box(100, 100, null)), 0],
      [jobWith(box(100, 100, tag(140), { facts: NO_FACTS })), 3],
    ] as const)
      expect(raiseTag(job, "e1", vertex, inches(1))).toMatchObject({
        ok: false,
        problems: [{ code: "edit.no-such-vertex" }],
      });
  });

  it("goes by 1/8 in. or 5 mm at a key", () => {
    expect(keyStep("imperial")).toBe(0.125);
    expect(keyStep("metric") * 25.4).toBeCloseTo(5, 12);
  });
});
