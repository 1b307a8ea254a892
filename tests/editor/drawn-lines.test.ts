import { describe, expect, it } from "vitest";
import type { DrawnPlace } from "../../src/editor/drawn-lines.ts";
import { snapped } from "../../src/editor/snap.ts";
import type { FollowLineState } from "../../src/editor/tools/tool-state.ts";
import type { Run } from "../../src/job/elements/run.ts";
import { drawnLinesOf } from "../../src/ui/drawn-lines-of.ts";
import { INK, madeLinework, RED } from "../pdf/read/made-linework.ts";
import { AtWork } from "./at-work.ts";
import { furnished, twoSheets } from "./sample-job.ts";

/** A room of 200 by 100 with a door leaf free inside it, and a raceway in another pen with a break and a corner. */
const linework = madeLinework([
  {
    points: [
      [600, 600],
      [800, 600],
      [800, 700],
      [600, 700],
      [600, 600],
    ],
  },
  {
    points: [
      [640, 640],
      [660, 660],
    ],
  },
  {
    points: [
      [100, 800],
      [200, 800],
    ],
    style: RED,
  },
  {
    points: [
      [206, 800],
      [300, 800],
      [300, 900],
    ],
    style: RED,
  },
  {
    points: [
      [250, 700],
      [250, 950],
    ],
    style: INK,
  },
]);
const lines = drawnLinesOf(linework)!;
const onRoof = () => {
  const work = new AtWork(twoSheets());
  work.session.setSheet("s-roof");
  work.session.setDrawn("s-roof", lines);
  work.session.snapToDrawing(true);
  return work;
};
const runs = (work: AtWork) => Object.values(work.state.job.elements) as Run[];

describe("snapping to the drawing", () => {
  const field = {
    job: twoSheets(),
    sheet: "s-roof",
    reach: 8,
    points: [],
    passing: [],
    rightAngle: false,
    drawn: lines,
  };

  it("says what the place is", () => {
    expect(snapped([603, 597], field)).toEqual({ at: [600, 600], why: "End of a line" });
    expect(snapped([253, 803], field)).toEqual({ at: [250, 800], why: "Crossing of lines" });
    expect(snapped([702, 603], field)).toEqual({ at: [700, 600], why: "Middle of a line" });
    expect(snapped([650, 604], field)).toEqual({ at: [650, 600], why: "On a line" });
    expect(snapped([728, 604], { ...field, points: [[730, 660]] })).toEqual({
      at: [730, 600],
      why: "Square to a line",
    });
    expect(snapped([650, 609], field)).toEqual({ at: [650, 609], why: null });
  });

  it("prefers what was traced, and is as it was where there is no linework or no reach", () => {
    const job = furnished();
    const near = (at: readonly [number, number]): DrawnPlace => ({ at, kind: "end" });
    const drawn = { ...lines, place: () => near([301, 205]) };
    const own = { ...field, job, sheet: "s-ceiling", drawn };
    expect(snapped([300, 206], own).why).toBe("Vertex of R-1");
    expect(
      snapped([250, 205], {
        ...own,
        drawn: { ...lines, place: () => ({ ...near([250, 206]), kind: "along" as const }) },
      }).why,
    ).toBe("On R-1");
    expect(snapped([650, 604], { ...field, drawn: null })).toEqual({ at: [650, 604], why: null });
    expect(snapped([650, 604], { ...field, reach: 0 })).toEqual({ at: [650, 604], why: null });
  });

  it("is turned off and on by a key, also in the middle of a run, and holds on its own sheet only", () => {
    const work = onRoof();
    work.session.start({ tool: "trace-run" });
    work.click([603, 597]);
    expect(work.state.aim).toEqual({ at: [600, 600], why: "End of a line" });
    work.pointer("move", [797, 603]);
    expect(work.state.aim?.why).toBe("End of a line");
    expect(work.keys("x")).toBe(true);
    expect(work.state.aim).toEqual({ at: [797, 603], why: null });
    work.keys("x");
    expect(work.state.aim).toEqual({ at: [800, 600], why: "End of a line" });
    work.session.cancel();
    work.session.setSheet("s-ceiling");
    work.pointer("move", [797, 603]);
    expect(work.state.aim?.why).toBeNull();
    expect(work.keys("x")).toBe(false);
  });
});

describe("following a line", () => {
  it("gives a run over the break and round the corner, taken by Enter", () => {
    const work = onRoof();
    work.session.start({ tool: "follow-line" });
    expect(work.state.prompt).toContain("point at the drawn line");
    work.click([150, 804]);
    expect(work.state.prompt).toBe(
      "Followed 3 points, 1 break bridged; it stops where the line ends, both ways. Enter takes it, Backspace takes back a point, a place on it ends it there, W goes on from its other end.",
    );
    expect(work.state.job.elements).toEqual({});
    work.keys("Enter");
    expect(runs(work).map(({ vertices }) => vertices.map(({ at }) => at))).toEqual([
      [
        [100, 800],
        [300, 800],
        [300, 900],
      ],
    ]);
    expect(work.state.tool.tool).toBe("follow-line");
    expect(work.state.undo).toHaveLength(1);
  });

  it("takes back points, goes on by hand, turns round; Escape leaves nothing", () => {
    const work = onRoof();
    work.session.start({ tool: "follow-line" });
    work.click([150, 804]);
    work.keys("Backspace");
    work.click([400, 790]);
    work.type("12'-0\" EL centre");
    work.keys("w");
    work.click([50, 990]);
    work.keys("Enter");
    expect(runs(work)[0]!.vertices.map(({ at }) => at)).toEqual([
      [400, 790],
      [300, 800],
      [100, 800],
      [50, 990],
    ]);
    work.click([150, 804]);
    work.session.cancel();
    expect(work.state.busy).toBe(false);
    expect(Object.keys(work.state.job.elements)).toHaveLength(1);
  });

  it("goes by keyboard: the crosshair points at the line", () => {
    const work = onRoof();
    work.session.setView({ unitsPerPixel: 1, centre: [150, 816] });
    work.keys("w");
    work.keys("ArrowDown Enter");
    expect(work.state.busy).toBe(true);
    expect(work.state.crosshair).toEqual([300, 900]);
    work.keys("Enter");
    expect(runs(work)).toHaveLength(1);
    expect(runs(work)[0]!.vertices).toHaveLength(3);
  });

  it("begins at once at the line under the pointer; where none is, it waits without a word", () => {
    const work = onRoof();
    work.pointer("move", [150, 804]);
    work.keys("w Enter");
    expect(runs(work)[0]?.vertices).toHaveLength(3);
    work.session.cancel();
    work.pointer("move", [500, 500]);
    work.keys("w");
    expect([work.state.tool.tool, work.notice]).toEqual(["follow-line", null]);
    work.keys("w");
    expect(work.notice).toBe("follow.no-line");
  });

  it("refuses where no line is, and where the drawing is a picture", () => {
    const work = onRoof();
    work.session.start({ tool: "follow-line" });
    work.click([500, 500]);
    expect(work.notice).toBe("follow.no-line");
    work.session.setDrawn("s-roof", null);
    work.click([150, 800]);
    expect(work.notice).toBe("follow.no-lines");
    expect(drawnLinesOf(madeLinework([]))).toBeNull();
  });
});

describe("the branches of a followed line", () => {
  const tees = drawnLinesOf(
    madeLinework(
      [
        [
          [100, 800],
          [400, 800],
          [400, 860],
        ],
        [
          [250, 800],
          [250, 700],
          [300, 700],
        ],
        [
          [350, 800],
          [350, 840],
        ],
      ].map((points) => ({ points: points as [number, number][], style: RED })),
    ),
  )!;
  const following = () => {
    const work = onRoof();
    work.session.setDrawn("s-roof", tees);
    work.session.snapToDrawing(false);
    work.session.start({ tool: "follow-line" });
    work.click([150, 803]);
    return work;
  };
  const taken = (work: AtWork) => {
    work.keys("Enter");
    return runs(work)
      .at(-1)!
      .vertices.map(({ at }) => at);
  };
  const whole = [
    [100, 800],
    [400, 800],
    [400, 860],
  ];

  it("are passed by, said and shown", () => {
    const work = following();
    expect(work.state.prompt).toMatch(/past 2 branches; .* Point at a branch to go along it/);
    expect(taken(work)).toEqual(whole);
  });

  it("are gone along by pointing at them, the rest of the line left out; one after the other", () => {
    const work = following();
    work.click([252, 740]);
    expect(work.state.prompt).toContain("Followed 4 points");
    expect(taken(work)).toEqual([
      [100, 800],
      [250, 800],
      [250, 700],
      [300, 700],
    ]);
    work.click([150, 803]);
    // The other end first: what is kept is what lies before the branch.
    work.keys("w");
    work.click([349, 825]);
    expect(taken(work)).toEqual([
      [400, 860],
      [400, 800],
      [350, 800],
      [350, 840],
    ]);
  });

  it("are taken one after the other by keys, back to the line itself", () => {
    const work = following();
    const ends = (keys: string) => {
      work.keys(keys);
      return (work.state.tool as FollowLineState).run.vertices.at(-1)!.at;
    };
    expect([ends("."), ends("."), ends("."), ends(","), ends(",")]).toEqual([
      [300, 700],
      [350, 840],
      [400, 860],
      [350, 840],
      [300, 700],
    ]);
    expect(taken(work)).toHaveLength(4);
  });

  it("do not matter for ending the line at a place on it, by pointer or crosshair", () => {
    const work = following();
    work.click([300, 803]);
    expect(work.state.busy).toBe(true);
    expect(taken(work)).toEqual([
      [100, 800],
      [300, 800],
    ]);
    work.click([150, 803]);
    work.session.setView({ unitsPerPixel: 1, centre: [210, 800] });
    work.pointer("leave", [0, 0]);
    work.keys("w");
    expect(work.state.busy).toBe(true);
    work.click([200, 798]);
    expect(taken(work)).toEqual([
      [400, 860],
      [400, 800],
      [200, 800],
    ]);
  });

  it("keep what was tagged before them, and Escape leaves nothing", () => {
    const work = onRoof();
    work.session.setDrawn("s-roof", tees);
    work.session.start({ tool: "follow-line" });
    work.type("12'-0\" EL centre");
    work.click([150, 803]);
    work.click([252, 740]);
    work.keys("Enter");
    expect(runs(work)[0]!.vertices.map(({ tag }) => tag !== null)).toEqual([true, false, false, false]);
    work.click([150, 803]);
    work.keys(".");
    work.session.cancel();
    expect([work.state.busy, Object.keys(work.state.job.elements).length]).toEqual([false, 1]);
  });
});

describe("the region round the pointer", () => {
  it("becomes the outline of an area, by pointing after the act", () => {
    const work = onRoof();
    expect(work.keys("q")).toBe(true);
    expect(work.state.prompt).toContain("closed region");
    work.click([700, 690]);
    expect(work.state.undo).toHaveLength(0);
    work.keys("Enter");
    const [area] = Object.values(work.state.job.areas);
    expect([...area!.outline].map(String).sort()).toEqual(["600,600", "600,700", "800,600", "800,700"]);
  });

  it("is taken at once where the pointer or crosshair is", () => {
    const work = onRoof();
    work.pointer("move", [700, 650]);
    work.keys("q Enter");
    expect(Object.keys(work.state.job.areas)).toHaveLength(1);
    work.session.setView({ unitsPerPixel: 1, centre: [700, 660] });
    work.session.start({ tool: "outline-area" });
    work.pointer("leave", [0, 0]);
    work.keys("ArrowDown q Enter");
    expect(Object.keys(work.state.job.areas)).toHaveLength(2);
  });

  it("says why there is none", () => {
    const work = onRoof();
    for (const [at, code] of [
      [[500, 500], "region.open"],
      [[700, 600], "region.on-a-line"],
    ] as const) {
      work.session.start({ tool: "outline-area", byRegion: true });
      work.click(at);
      expect(work.notice).toBe(code);
    }
    const border = [
      [10, 10],
      [990, 10],
      [990, 990],
      [10, 990],
      [10, 10],
    ] as const;
    work.session.setDrawn("s-roof", drawnLinesOf(madeLinework([{ points: border }])));
    work.click([500, 500]);
    expect(work.notice).toBe("region.frame");
    work.session.setDrawn("s-roof", null);
    work.click([700, 650]);
    expect(work.notice).toBe("region.no-lines");
  });
});
