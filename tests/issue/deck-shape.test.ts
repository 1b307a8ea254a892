import { expect, it } from "vitest";
import { makeScene } from "../../src/check/scene.ts";
import { unrecordedFolds } from "../../src/issue/kinds/deck-shape.ts";
import { marksOf } from "../../src/issue/marks-of.ts";
import type { AreaShape } from "../../src/job/schema.ts";
import { hipSpots, inchJob, rectangle, roof, withParts } from "../check/inch-job.ts";

const HIP: Extract<AreaShape, { is: "spots" }> = {
  is: "spots",
  spots: hipSpots(),
  lines: [
    { between: [5, 6], kind: "ridge" },
    { between: [1, 5], kind: "hip" },
  ],
};
const area = roof(0, { outline: rectangle(0, 0, 480, 240), elevation: { ...roof(0).elevation, shape: HIP } });

it("draws an edge for every fold nobody recorded, the same that the check folds along", () => {
  const drawn = unrecordedFolds(HIP, 1).map(([a, b]) => [Math.min(a, b) + 1, Math.max(a, b) + 1].join("-"));
  // The eaves and the other three hips; not the diagonal that parts each long side without folding it.
  expect(drawn).toEqual(expect.arrayContaining(["1-2", "2-3", "3-4", "1-4", "4-5", "2-6", "3-6"]));
  expect(drawn).toHaveLength(7);
  expect(drawn).not.toContain("5-6");
  const [deck] = makeScene(withParts(inchJob(), { a: area }, {})).frame("v1").areas;
  const corners = (x: number, y: number): number => HIP.spots.findIndex(({ at }) => at[0] === x && at[1] === y) + 1;
  const folded = new Set(
    deck!.faces.flatMap(({ polygon: { outline } }) =>
      outline.map((at, i) => {
        const next = outline[(i + 1) % outline.length]!;
        return [corners(...at), corners(...next)].sort((a, b) => a - b).join("-");
      }),
    ),
  );
  for (const edge of [...drawn, "5-6", "1-5"]) expect(folded).toContain(edge);
  expect(folded.size).toBe(drawn.length + 2 + 2);
});

it("draws the same whatever the scale and the order of the spots, and nothing where there is no surface", () => {
  const name = (shape: typeof HIP, scale: number) =>
    unrecordedFolds(shape, scale)
      .map((pair) =>
        pair
          .map((k) => shape.spots[k]!.at.join())
          .sort()
          .join(" "),
      )
      .sort();
  const scaled = {
    ...HIP,
    spots: HIP.spots.map((spot) => ({ ...spot, at: [spot.at[0] / 48, spot.at[1] / 48] as const })),
  };
  expect(unrecordedFolds(scaled, 48)).toEqual(unrecordedFolds(HIP, 1));
  const order = [3, 5, 0, 4, 2, 1];
  const turned = {
    ...HIP,
    spots: order.map((k) => HIP.spots[k]!),
    lines: HIP.lines!.map(({ between: [a, b], kind }) => ({
      between: [order.indexOf(a - 1) + 1, order.indexOf(b - 1) + 1] as [number, number],
      kind,
    })),
  };
  expect(name(turned, 1)).toEqual(name(HIP, 1));
  expect(unrecordedFolds(HIP, undefined)).toEqual([]);
  expect(unrecordedFolds({ ...HIP, spots: HIP.spots.with(2, { ...HIP.spots[2]!, elevation: null }) }, 1)).toEqual([]);
  expect(unrecordedFolds({ ...HIP, lines: [{ between: [1, 9], kind: "ridge" }] }, 1)).toEqual([]);
});

it("names lines and numbers spots on the sheet", () => {
  const job = withParts(inchJob(), { a: area }, {});
  const words = JSON.stringify(marksOf(job, undefined));
  for (const text of ["ridge", "hip", "5: 13'-4", "1: 10'-0"]) expect(words).toContain(text);
});
