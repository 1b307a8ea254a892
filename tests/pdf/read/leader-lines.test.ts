import { describe, expect, test } from "vitest";
import type { Point2 } from "../../../src/geometry/point.ts";
import { leaderOf } from "../../../src/pdf/read/leader-lines.ts";
import { SEGMENT } from "../../../src/pdf/read/linework.ts";
import { nearestLine } from "../../../src/pdf/read/nearest-line.ts";
import { slopeArrow } from "../../../src/pdf/read/slope-arrows.ts";
import { madeLinework } from "./made-linework.ts";
import { textAt } from "./text-at.ts";

/** A text at (300, 300), 60 wide; a pipe runs right under it, another far below at y = 100. */
const tag = textAt(`EL. 14'-6"`, 300, 300, { height: 8, width: 60 });
const near = {
  points: [
    [200, 296],
    [500, 296],
  ] as Point2[],
};
const far = {
  points: [
    [100, 100],
    [600, 100],
  ] as Point2[],
};
/** The two edges of an arrowhead 6 long at a place, opening back along a direction. */
const head = ([x, y]: Point2, [ux, uy]: Point2) => ({
  points: [
    [x - 6 * ux + 2 * uy, y - 6 * uy - 2 * ux],
    [x, y],
    [x - 6 * ux - 2 * uy, y - 6 * uy + 2 * ux],
  ] as Point2[],
});
/** From the left end of the text: a shoulder, then down to the far pipe. */
const tip: Point2 = [240, 100];
const leg: Point2 = [280, 303];
const length = Math.hypot(tip[0] - leg[0], tip[1] - leg[1]);
const heading: Point2 = [(tip[0] - leg[0]) / length, (tip[1] - leg[1]) / length];
const shoulder = { points: [[298, 303] as Point2, leg] };

describe("a tag belongs to what its leader points at, not to what is nearest", () => {
  test.each([
    ["one path", [{ points: [[298, 303] as Point2, leg, tip] }, head(tip, heading)]],
    ["pieces, drawn backwards", [{ points: [tip, leg] }, shoulder, head(tip, heading)]],
  ])("%s", (_, leader) => {
    const linework = madeLinework([near, far, ...leader]);
    expect(leaderOf(linework, tag)?.tip).toEqual(tip);
    expect(nearestLine(linework, tag)).toMatchObject({ byLeader: true, ambiguous: false });
    expect(nearestLine(linework, tag)!.at[1]).toBeCloseTo(100, 3);
  });

  test("a dot at the end does as well", () => {
    const circle = Array.from(
      { length: 25 },
      (_, i): Point2 => [tip[0] + 2.5 * Math.cos((i * Math.PI) / 12), tip[1] + 2.5 * Math.sin((i * Math.PI) / 12)],
    );
    const linework = madeLinework([
      near,
      far,
      shoulder,
      { points: [leg, tip] },
      { points: circle, flags: SEGMENT.curved },
    ]);
    expect(nearestLine(linework, tag)).toMatchObject({ byLeader: true });
    expect(nearestLine(linework, tag)!.at[1]).toBeCloseTo(100, 3);
  });

  test("a line that ends in no arrowhead is none: the nearest counts", () => {
    const linework = madeLinework([near, far, shoulder, { points: [leg, tip] }]);
    expect(leaderOf(linework, tag)).toBeUndefined();
    expect(nearestLine(linework, tag)).toMatchObject({ byLeader: false });
  });

  test("one that points at nothing drawn ties the tag to nothing", () => {
    const linework = madeLinework([near, shoulder, { points: [leg, tip] }, head(tip, heading)]);
    expect(leaderOf(linework, tag)).toEqual({ tip, on: null, ambiguous: false });
    expect(nearestLine(linework, tag)).toBeUndefined();
  });

  test("a line that forks or goes round is none, and hangs nothing", () => {
    const ring: Point2[] = [
      [298, 303],
      [200, 303],
      [200, 400],
      [298, 400],
      [298, 303],
    ];
    expect(leaderOf(madeLinework([{ points: ring }, near, far]), tag)).toBeUndefined();
    expect(
      leaderOf(
        madeLinework([shoulder, { points: [leg, tip] }, { points: [leg, [200, 500]] }, head(tip, heading)]),
        tag,
      ),
    ).toBeUndefined();
  });
});

describe("the arrow beside a slope", () => {
  const slope = textAt(`1/4":12"`, 300, 300, { height: 8, width: 40 });
  const shaft = (from: Point2, to: Point2) => ({ points: [from, to] });
  test.each([
    ["to the right", [290, 292], [370, 292], [1, 0]],
    ["to the left, drawn from its tip", [370, 292], [290, 292], [-1, 0]],
  ] as [string, Point2, Point2, Point2][])("%s", (_, tail, to, u) => {
    const arrow = slopeArrow(madeLinework([shaft(to, tail), head(to, u)]), slope);
    expect(arrow?.tail[0]).toBeCloseTo(tail[0], 3);
    expect(arrow?.tip[0]).toBeCloseTo(to[0], 3);
  });
  test("a line without a head, or with one at each end, is no arrow", () => {
    const [a, b]: [Point2, Point2] = [
      [290, 292],
      [370, 292],
    ];
    expect(slopeArrow(madeLinework([shaft(a, b)]), slope)).toBeNull();
    expect(slopeArrow(madeLinework([shaft(a, b), head(b, [1, 0]), head(a, [-1, 0])]), slope)).toBeNull();
    expect(slopeArrow(madeLinework([]), slope)).toBeNull();
  });
});
