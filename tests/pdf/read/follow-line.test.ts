import { describe, expect, it } from "vitest";
import type { Point2 } from "../../../src/geometry/point.ts";
import { type FollowOptions, followBranch, followLine } from "../../../src/pdf/read/follow-line.ts";
import { SEGMENT } from "../../../src/pdf/read/linework.ts";
import { sheetUnits } from "../../../src/units/quantity.ts";
import { INK, madeLinework, RED } from "./made-linework.ts";

type Lines = Parameters<typeof madeLinework>[0];

const follow = (lines: Lines, at: Point2, options: Partial<FollowOptions> = {}) => {
  const line = followLine(madeLinework(lines), at, { reach: sheetUnits(3), ...options });
  if (!line) throw new Error("nothing there");
  return line;
};
const rounded = (points: readonly Point2[]): number[][] => points.map((p) => p.map((n) => Math.round(n * 100) / 100));
/** A straight line as dashes and gaps, each dash a path of its own. */
const dashes = ([x0, y0]: Point2, [x1, y1]: Point2, dash: number, gap: number): Lines => {
  const length = Math.hypot(x1 - x0, y1 - y0);
  const at = (t: number): Point2 => [x0 + ((x1 - x0) * t) / length, y0 + ((y1 - y0) * t) / length];
  return Array.from({ length: Math.ceil(length / (dash + gap)) }, (_, i) => ({
    points: [at(i * (dash + gap)), at(Math.min(length, i * (dash + gap) + dash))],
  }));
};

describe("a line is followed", () => {
  it("round its corners, both ways, drawn in one path or as pieces in any order and direction", () => {
    const corners: Point2[] = [
      [100, 100],
      [200, 100],
      [200, 160],
      [320, 160],
    ];
    const whole = follow([{ points: corners }], [150, 101]);
    expect(rounded(whole.vertices)).toEqual(corners);
    expect(whole.ends.map(({ why }) => why)).toEqual(["end", "end"]);
    const pieces = follow(
      [
        {
          points: [
            [320, 160],
            [200, 160],
          ],
        },
        {
          points: [
            [100, 100],
            [200, 100],
          ],
        },
        {
          points: [
            [200, 160],
            [200, 100],
          ],
        },
      ],
      [150, 99],
    );
    expect(rounded(pieces.vertices)).toEqual(corners);
    expect(pieces.bridged).toEqual([]);
  });

  it("along dashes that were drawn one by one, and says what it bridged", () => {
    const { vertices, bridged } = follow([...dashes([100, 100], [400, 220], 9, 4)], [200, 140]);
    expect(rounded(vertices)[0]).toEqual([100, 100]);
    expect(vertices).toHaveLength(2);
    expect(bridged.length).toBe(Math.ceil(Math.hypot(300, 120) / 13) - 1);
    for (const { from, to } of bridged) expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeCloseTo(4, 2);
  });

  it("over a break up to the width that is allowed, and no farther", () => {
    const lines: Lines = [
      {
        points: [
          [100, 100],
          [200, 100],
        ],
      },
      {
        points: [
          [208, 100],
          [300, 100],
        ],
      },
    ];
    expect(rounded(follow(lines, [150, 100]).vertices)).toEqual([
      [100, 100],
      [300, 100],
    ]);
    expect(rounded(follow(lines, [150, 100], { gap: sheetUnits(6) }).vertices)).toEqual([
      [100, 100],
      [200, 100],
    ]);
  });

  it("over a corner whose two lines stop short of each other", () => {
    const { vertices, bridged } = follow(
      [
        {
          points: [
            [100, 100],
            [197, 100],
          ],
        },
        {
          points: [
            [200, 103],
            [200, 200],
          ],
        },
      ],
      [150, 100],
    );
    expect(rounded(vertices)).toEqual([
      [100, 100],
      [200, 100],
      [200, 200],
    ]);
    expect(bridged.map(({ corner }) => corner && rounded([corner])[0])).toEqual([[200, 100]]);
  });

  it("through bends", () => {
    const bend = Array.from(
      { length: 9 },
      (_, i): Point2 => [200 + 20 * Math.sin((i * Math.PI) / 16), 120 - 20 * Math.cos((i * Math.PI) / 16)],
    );
    const { vertices, ends } = follow(
      [
        {
          points: [
            [100, 100],
            [200, 100],
          ],
        },
        { points: bend, flags: SEGMENT.curved },
        {
          points: [
            [220, 120],
            [220, 300],
          ],
        },
      ],
      [150, 100],
    );
    expect(rounded([vertices[0]!, vertices.at(-1)!])).toEqual([
      [100, 100],
      [220, 300],
    ]);
    expect([vertices.length, ...ends.map(({ why }) => why)]).toEqual([11, "end", "end"]);
  });

  it("all round, when it closes", () => {
    const { vertices, closed, ends } = follow(
      [
        {
          points: [
            [10, 10],
            [90, 10],
            [90, 60],
            [10, 60],
            [10, 10],
          ],
        },
      ],
      [40, 10],
    );
    expect([vertices.length, closed, ends[0].why]).toEqual([4, true, "closed"]);
  });

  it("past lines of another style and across lines of its own", () => {
    const { vertices } = follow(
      [
        {
          points: [
            [100, 100],
            [300, 100],
          ],
        },
        {
          points: [
            [200, 50],
            [200, 150],
          ],
        },
        {
          points: [
            [250, 100],
            [250, 200],
          ],
          style: RED,
        },
      ],
      [120, 100],
    );
    expect(rounded(vertices)).toEqual([
      [100, 100],
      [300, 100],
    ]);
  });
});

describe("following stops", () => {
  const tee: Lines = [
    {
      points: [
        [100, 100],
        [300, 100],
      ],
    },
    {
      points: [
        [200, 100],
        [200, 180],
      ],
    },
  ];

  it("at a tee, and offers its branches", () => {
    const { vertices, ends } = follow(tee, [150, 100]);
    expect(rounded(vertices)).toEqual([
      [100, 100],
      [200, 100],
    ]);
    expect(ends[1].why).toBe("branch");
    expect(ends[1].branches.map(({ towards }) => rounded([towards])[0])).toEqual([
      [250, 100],
      [200, 140],
    ]);
    // From a branch it goes on.
    expect(rounded(follow(tee, ends[1].branches[1]!.towards).vertices)).toEqual(
      [
        [200, 180],
        [200, 100],
      ].reverse(),
    );
  });

  it("and goes along a branch from where it leaves, one way", () => {
    const linework = madeLinework(tee);
    const line = followLine(linework, [150, 100], { reach: sheetUnits(3), atTees: "straight" })!;
    const along = followBranch(linework, line.passed[0]!, { reach: sheetUnits(3) });
    expect(rounded(along.vertices)[0]).toEqual([200, 100]);
    expect(rounded(along.vertices).at(-1)![1]).toBeGreaterThan(140);
    expect(along.ends.map(({ why }) => why)).toEqual(["branch", "end"]);
  });

  it("or goes straight on there when told to, and says what it passed", () => {
    const { vertices, passed } = follow(tee, [150, 100], { atTees: "straight" });
    expect(rounded(vertices)).toEqual([
      [100, 100],
      [300, 100],
    ]);
    expect(passed.map(({ towards }) => rounded([towards])[0])).toEqual([[200, 140]]);
  });

  it("where it runs into a line of its style, from which two ways lead", () => {
    const { ends } = follow(tee, [200, 150]);
    const stopped = ends.find(({ why }) => why === "branch");
    expect([rounded([stopped!.at])[0], stopped!.branches.length]).toEqual([[200, 100], 2]);
  });

  it("where a clip cuts it", () => {
    const { ends } = follow(
      [
        {
          points: [
            [-50, 100],
            [300, 100],
          ],
        },
      ],
      [150, 100],
    );
    expect(ends.map(({ why }) => why).sort()).toEqual(["cut", "end"]);
  });

  it("and does not begin on hatching, letters or edges of fills", () => {
    for (const flags of [SEGMENT.hatch, SEGMENT.glyph, SEGMENT.filled]) {
      const linework = madeLinework([
        {
          points: [
            [100, 100],
            [300, 100],
          ],
          flags,
        },
      ]);
      expect(followLine(linework, [150, 100], { reach: sheetUnits(5) })).toBeNull();
    }
    const other = madeLinework([
      {
        points: [
          [100, 100],
          [300, 100],
        ],
        style: { ...INK, shown: false },
      },
    ]);
    expect(followLine(other, [150, 100], { reach: sheetUnits(5) })).toBeNull();
  });

  it("after a bounded number of steps", () => {
    // Rows of teeth, forth and back: more corners than it takes.
    const teeth = Array.from({ length: 14 * 900 }, (_, i): Point2 => {
      const [row, place] = [Math.floor(i / 900), i % 900];
      return [50 + (row % 2 === 0 ? place : 899 - place), 100 + 8 * row + (i % 2)];
    });
    const line = followLine(madeLinework([{ points: teeth }]), [500, 156.5], { reach: sheetUnits(3) });
    expect(line?.ends.map(({ why }) => why)).toContain("limit");
  });
});
