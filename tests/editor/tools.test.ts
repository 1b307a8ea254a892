import { describe, expect, it } from "vitest";
import { act } from "../../src/editor/acts.ts";
import { setElevation } from "../../src/editor/edits/areas.ts";
import { parseConductor } from "../../src/editor/tools/place-entry.ts";
import type { Run } from "../../src/job/elements/run.ts";
import { AtWork } from "./at-work.ts";
import { furnished, twoSheets } from "./sample-job.ts";

describe("measuring the scale", () => {
  it("takes two points and the written distance", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "measure-scale", viewport: "v-ceiling" });
    expect(work.state.sheet).toBe("s-ceiling");
    work.click([100, 100]);
    work.click([100, 694]);
    expect(work.state.asks).toEqual(["distance"]);
    work.type(`27'-6"`);
    expect(work.state.job.viewports["v-ceiling"]?.scale).toMatchObject({
      use: "measured",
      measured: { a: [100, 100], b: [100, 694], distance: { value: 330, unit: "in" } },
    });
    expect(work.state.tool.tool).toBe("edit");
    expect(work.state.undo).toHaveLength(1);
  });

  it("refuses equal points, no distance, and a distance of zero, and keeps what was put", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "measure-scale", viewport: "v-roof" });
    work.click([100, 100]);
    expect(work.session.typed("@100, 100").ok).toBe(false);
    expect(work.notice).toBe("scale.equal-points");
    expect(work.session.typed(`12'-0"`).ok).toBe(false);
    expect(work.notice).toBe("tool.points-first");
    work.click([400, 100]);
    work.pointer("double", [400, 100]);
    expect(work.notice).toBe("tool.distance-first");
    expect(work.session.typed(`0"`).ok).toBe(false);
    expect(work.notice).toBe("scale.zero-distance");
    work.type(`25'`);
    expect(work.state.undo).toHaveLength(1);
  });
});

describe("registering on another sheet", () => {
  it("goes to and fro between the sheets", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "register", viewport: "v-roof", to: "v-ceiling" });
    work.click([100, 100]);
    expect(work.state.sheet).toBe("s-ceiling");
    work.type("A/1");
    work.click([150, 110]);
    expect(work.state.sheet).toBe("s-roof");
    work.keys("Enter");
    expect(work.notice).toBe("registration.too-few-pairs");
    work.click([900, 100]);
    work.click([950, 110]);
    work.keys("Enter");
    expect(work.state.job.viewports["v-roof"]?.registration).toEqual({
      to: "v-ceiling",
      pairs: [
        { label: "A/1", here: [100, 100], there: [150, 110] },
        { label: "2", here: [900, 100], there: [950, 110] },
      ],
    });
  });

  it("refuses a point on the wrong sheet, goes back pair by pair, and Escape leaves everything as it was", () => {
    const work = new AtWork(twoSheets());
    const before = work.text;
    work.session.start({ tool: "register", viewport: "v-roof", to: "v-ceiling" });
    work.click([100, 100]);
    work.click([150, 110]);
    work.session.setSheet("s-ceiling");
    work.click([300, 300]);
    expect(work.notice).toBe("tool.other-sheet");
    expect(work.state.sheet).toBe("s-roof");
    work.keys("Backspace");
    expect(work.state.tool).toMatchObject({ pairs: [], here: null });
    work.click([100, 100]);
    work.session.setSheet("s-roof");
    work.click([120, 100]);
    expect(work.state.tool).toMatchObject({ here: [120, 100] });
    work.keys("Escape Escape");
    expect(work.state.tool.tool).toBe("edit");
    expect(work.text).toBe(before);
  });

  it("goes on with the pairs that are there, and leaves them alone when nothing was added", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "register", viewport: "v-roof", to: "v-ceiling" });
    for (const at of ["@100, 100", "@150, 110", "@900, 100", "@950, 110"]) work.type(at);
    work.keys("Enter Enter");
    const before = work.text;
    work.session.start({ tool: "register", viewport: "v-roof" });
    expect(work.state.tool).toMatchObject({ to: "v-ceiling", pairs: [{ label: "1" }, { label: "2" }] });
    expect(work.state.busy).toBe(false);
    work.type("@100, 900");
    work.keys("Escape");
    expect(work.state.tool).toMatchObject({ here: null, pairs: [{ label: "1" }, { label: "2" }] });
    work.keys("Escape");
    expect(work.state.tool.tool).toBe("edit");
    expect(work.text).toBe(before);
  });

  it("refuses a mirrored set and a single spot", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "register", viewport: "v-roof", to: "v-ceiling" });
    const put = (here: readonly [number, number], there: readonly [number, number]) => {
      work.type(`@${here[0]}, ${here[1]}`);
      work.type(`@${there[0]}, ${there[1]}`);
    };
    put([100, 100], [100, 100]);
    put([500, 100], [500, 100]);
    put([300, 400], [300, -200]);
    work.keys("Enter Enter");
    expect(work.notice).toBe("registration.mirrored");
  });
});

describe("outlining an area", () => {
  it("closes on the first point", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "outline-area" });
    for (const at of [
      [100, 100],
      [500, 100],
      [500, 400],
      [104, 103],
    ] as const)
      work.click(at);
    expect(work.state.job.areas["new-1"]).toMatchObject({
      label: "A-1",
      viewport: "v-ceiling",
      outline: [
        [100, 100],
        [500, 100],
        [500, 400],
      ],
      classification: { is: "not-settled" },
    });
    expect(work.state.selection).toEqual({ table: "areas", id: "new-1" });
  });

  it("closes with Enter, and refuses two points or a crossing", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "outline-area" });
    work.click([100, 100]);
    work.click([500, 100]);
    work.keys("Enter");
    expect(work.notice).toBe("ring.too-few-points");
    work.click([500, 400]);
    work.click([300, 50]);
    expect(work.notice).toBe("ring.crosses-itself");
    work.click([700, 400]);
    work.click([700, 250]);
    work.keys("Enter");
    expect(work.notice).toBe("ring.crosses-itself");
    expect(work.state.undo).toHaveLength(0);
    work.keys("Backspace");
    work.click([100, 600]);
    work.keys("Enter");
    expect(work.state.job.areas["new-1"]?.outline).toEqual([
      [100, 100],
      [500, 100],
      [500, 400],
      [700, 400],
      [100, 600],
    ]);
  });

  it("gives an area another outline and cuts a hole into it", () => {
    const work = new AtWork(furnished());
    work.session.select({ table: "areas", id: "a1" });
    work.session.start({ tool: "outline-area", part: "hole" });
    expect(work.state.sheet).toBe("s-roof");
    for (const at of ["@200, 200", "@300, 200", "@300, 300"]) work.type(at);
    work.keys("Enter Enter");
    expect(work.state.job.areas.a1?.holes).toEqual([
      [
        [200, 200],
        [300, 200],
        [300, 300],
      ],
    ]);
    work.session.start({ tool: "outline-area", area: "a1" });
    for (const at of ["@110, 110", "@600, 110", "@600, 500", "@110, 110"]) work.type(at);
    expect(work.state.job.areas.a1?.outline).toHaveLength(3);
    expect(work.state.job.areas.a1?.holes).toHaveLength(1);
  });

  it("needs an area for a hole", () => {
    const work = new AtWork(furnished());
    expect(work.session.start({ tool: "outline-area", part: "hole" })).toBe(false);
    expect(work.notice).toBe("tool.no-area");
  });
});

describe("giving a deck its slope", () => {
  it("takes the point, its elevation, the way down and the slope", () => {
    const work = new AtWork(furnished());
    work.session.start({ tool: "slope-direction", area: "a1" });
    expect(work.state.sheet).toBe("s-roof");
    work.type("@100, 250");
    expect(work.state.asks).toContain("elevation");
    work.type(`112'-6"`);
    work.type("@500, 250");
    expect(work.state.asks).toEqual(["slope"]);
    expect(work.session.typed(`-1/4" per foot`).ok).toBe(false);
    expect(work.notice).toBe("slope.negative");
    work.type(`1/4" per foot`);
    expect(work.state.job.areas.a1?.elevation.shape).toEqual({
      is: "slope",
      at: { value: 1350, unit: "in" },
      point: [100, 250],
      towards: [500, 250],
      rise: 1 / 48,
      text: `1/4" per foot`,
    });
    work.session.start({ tool: "slope-direction", area: "a1" });
    work.type("@300, 100");
    work.type("@300, 400");
    work.keys("Enter");
    expect(work.state.job.areas.a1?.elevation.shape).toMatchObject({
      at: { value: 1350, unit: "in" },
      point: [300, 100],
      rise: 1 / 48,
    });
  });

  it("refuses a way down to the same point, and Enter without a slope", () => {
    const work = new AtWork(furnished());
    work.session.start({ tool: "slope-direction", area: "a1" });
    work.type("@300, 100");
    expect(work.session.typed("@300, 100").ok).toBe(false);
    expect(work.notice).toBe("edit.equal-points");
    work.type("@300, 300");
    work.keys("Enter");
    expect(work.notice).toBe("tool.slope-first");
  });
});

describe("giving a deck spots", () => {
  it("takes three spots with elevations, and no fewer", () => {
    const work = new AtWork(furnished());
    work.session.start({ tool: "spots", area: "a1" });
    expect(work.session.typed(`112'`).ok).toBe(false);
    expect(work.notice).toBe("tool.point-first");
    work.type("@150, 150");
    work.type(`112'`);
    work.type("@450, 150");
    work.type(`112'-6"`);
    work.pointer("double", [450, 150]);
    expect(work.notice).toBe("edit.too-few-spots");
    work.type("@300, 350");
    work.keys("Enter");
    expect(work.state.job.areas.a1?.elevation.shape).toEqual({
      is: "spots",
      spots: [
        { at: [150, 150], elevation: { value: 112, unit: "ft" } },
        { at: [450, 150], elevation: { value: 1350, unit: "in" } },
        { at: [300, 350], elevation: null },
      ],
    });
  });
});

describe("tracing a run", () => {
  it("takes vertices with tags and ends with a double click, ready for the next", () => {
    const work = new AtWork(twoSheets());
    work.session.setSheet("s-ceiling");
    work.session.start({ tool: "trace-run", type: "rmc", tradeSize: "1" });
    work.type(`13'-2" AFF bottom`);
    work.click([200, 200]);
    work.click([400, 200]);
    work.type(`12'-6" top`);
    work.doubleClick([400, 500]);
    const run = work.state.job.elements["new-1"] as Run;
    expect(run).toMatchObject({
      kind: "run",
      label: "R-1",
      viewport: "v-ceiling",
      wiring: { type: "rmc", tradeSize: "1", outsideDiameter: null },
    });
    expect(run.vertices).toEqual([
      {
        at: [200, 200],
        tag: {
          length: { value: 158, unit: "in" },
          datum: { from: "storey", storey: "level-1" },
          basis: "bottom",
          plusMinus: null,
        },
      },
      {
        at: [400, 200],
        tag: {
          length: { value: 150, unit: "in" },
          datum: { from: "storey", storey: "level-1" },
          basis: "top",
          plusMinus: null,
        },
      },
      { at: [400, 500], tag: null },
    ]);
    expect(work.state.selection).toEqual({ table: "elements", id: "new-1" });
    expect(work.state.tool).toMatchObject({ tool: "trace-run", vertices: [], wiring: { type: "rmc" } });
    expect(work.state.undo).toHaveLength(1);
  });

  it("refuses a single point, takes points back, and Escape undoes nothing else", () => {
    const work = new AtWork(twoSheets());
    const before = work.text;
    work.session.start({ tool: "trace-run" });
    work.doubleClick([200, 200]);
    expect(work.notice).toBe("run.too-few-vertices");
    work.click([300, 200]);
    work.keys("Backspace");
    expect(work.state.tool).toMatchObject({ vertices: [{ at: [200, 200] }] });
    work.session.undo();
    expect(work.state.tool).toMatchObject({ vertices: [] });
    work.click([200, 200]);
    work.click([300, 200]);
    work.keys("Escape");
    expect(work.state.tool).toMatchObject({ tool: "trace-run", vertices: [] });
    work.keys("Escape");
    expect(work.state.tool.tool).toBe("edit");
    expect(work.text).toBe(before);
  });

  it("makes a vertical drop of two vertices at one place", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "trace-run" });
    work.click([200, 200]);
    work.type(`13'-0" AFF`);
    work.keys("d");
    work.type(`10'-0"`);
    work.pointer("double", [200, 200]);
    const run = work.state.job.elements["new-1"] as Run;
    expect(run.vertices.map(({ at, tag }) => [at, tag?.length.value])).toEqual([
      [[200, 200], 156],
      [[200, 200], 120],
    ]);
  });

  it("keeps a half-traced run while another sheet is looked at, and refuses points there", () => {
    const work = new AtWork(twoSheets());
    work.session.setSheet("s-ceiling");
    work.session.start({ tool: "trace-run" });
    work.click([200, 200]);
    work.session.setSheet("s-roof");
    expect(work.session.draft()).toEqual([]);
    work.click([300, 300]);
    expect(work.notice).toBe("tool.other-sheet");
    expect(work.state.sheet).toBe("s-ceiling");
    work.click([300, 200]);
    work.keys("Enter");
    expect(work.state.job.elements["new-1"]).toMatchObject({ viewport: "v-ceiling" });
  });
});

describe("tracing a rack", () => {
  it("takes a line with tags as a run does, and ends with one raceway on it, ready for the next", () => {
    const work = new AtWork(twoSheets());
    work.session.setSheet("s-ceiling");
    work.session.start({ tool: "trace-rack" });
    expect(work.state.prompt).toContain("K-1");
    work.type(`13'-2" AFF bottom`);
    work.click([200, 200]);
    work.click([300, 200]);
    work.keys("Backspace");
    work.doubleClick([400, 200]);
    expect(work.state.job.elements["new-1"]).toMatchObject({
      kind: "rack",
      label: "K-1",
      viewport: "v-ceiling",
      // The outside of 3/4 EMT, 0.922 in., and an inch of room, to the next whole inch.
      raceways: [{ label: "", wiring: { type: "emt", tradeSize: "3/4" } }],
      spacing: { is: "centres", apart: { value: 2, unit: "in" } },
      vertices: [
        { at: [200, 200], tag: { length: { value: 158, unit: "in" }, basis: "bottom" } },
        { at: [400, 200], tag: null },
      ],
    });
    expect(work.state.selection).toEqual({ table: "elements", id: "new-1" });
    expect(work.state).toMatchObject({ busy: false, tool: { tool: "trace-rack", line: { vertices: [] } } });
    expect(work.state.undo).toHaveLength(1);
  });

  it("refuses a single point, and Escape puts back what is half done", () => {
    const work = new AtWork(twoSheets());
    const before = work.text;
    act("trace-rack").run(work.session);
    work.doubleClick([200, 200]);
    expect(work.notice).toBe("run.too-few-vertices");
    work.keys("Escape");
    expect(work.state).toMatchObject({ busy: false, tool: { tool: "trace-rack" } });
    expect(work.text).toBe(before);
  });

  it("is done by keys alone", () => {
    const work = new AtWork(twoSheets());
    work.keys("Shift+T");
    expect(work.state).toMatchObject({ stage: "wiring", tool: { tool: "trace-rack" } });
    work.keys("ArrowRight Enter ArrowRight ArrowRight Enter Enter");
    expect(work.state.job.elements["new-1"]).toMatchObject({ kind: "rack", vertices: [{}, {}] });
  });
});

describe("placing", () => {
  it("puts a box at every point, once for a double click, tagged as typed last", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "place-box", item: "4oct-1-1/2", cover: "sideways" });
    work.type(`EL 112'-6" centre`);
    work.click([200, 200]);
    work.click([200, 202]);
    work.click([260, 200]);
    expect(Object.values(work.state.job.elements)).toMatchObject([
      { kind: "box", label: "B-1", at: [200, 200], item: "4oct-1-1/2", cover: "sideways", tag: { basis: "centre" } },
      { kind: "box", label: "B-2", at: [260, 200], tag: { datum: { from: "project" } } },
    ]);
    work.keys("Enter");
    expect(work.state.tool.tool).toBe("edit");
  });

  it("puts a fitting", () => {
    const work = new AtWork(twoSheets());
    work.session.start({ tool: "place-fitting", tradeSize: "1" });
    work.click([200, 200]);
    expect(work.state.job.elements["new-1"]).toMatchObject({ kind: "fitting", label: "F-1", tradeSize: "1" });
  });

  it("puts entries that take the run that ends there, the box beside it, and the conductor typed last", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    // 10 points past the end of the run, which at 1/4" = 1'-0" is less than 7 in.
    work.session.start({ tool: "place-box" });
    work.click([300, 360]);
    work.session.start({ tool: "place-entry" });
    expect(work.state.prompt).toContain("E-1: put it where a raceway enters");
    work.click([301, 349]);
    work.type("4/0 thwn-2");
    expect(work.state.prompt).toContain("4/0 AWG THWN-2");
    // The second half of a double click puts none.
    work.click([301, 349]);
    // In the middle of the run, and far from everything.
    work.click([300, 275]);
    work.keys("Backspace");
    work.click([700, 700]);
    const of = (id: string) => work.state.job.elements[id];
    const nothing = { is: "not-recorded" };
    expect(of("new-2")).toEqual({
      kind: "entry",
      label: "E-1",
      viewport: "v-ceiling",
      at: [300, 350],
      run: "r1",
      enclosure: { is: "box", box: "new-1" },
      conductor: null,
      insulation: null,
      protection: nothing,
      fastened: null,
      beforePulling: null,
    });
    expect(of("new-3")).toMatchObject({ label: "E-2", run: null, enclosure: nothing, conductor: "4/0" });
    expect(of("new-4")).toMatchObject({ label: "E-3", insulation: null, conductor: null });
    expect(work.session.typed("42 AWG")).toMatchObject({ ok: false, problems: [{ code: "entry.not-a-conductor" }] });
    expect(work.state.undo).toHaveLength(4);
    work.keys("Enter");
    expect(work.state.tool.tool).toBe("edit");
  });

  it("reads conductors as they are written", () => {
    const read = (text: string) => {
      const found = parseConductor(text);
      return found.ok ? [found.value.conductor, found.value.insulation] : found.problems.map(({ code }) => code);
    };
    expect(read("4")).toEqual(["4", null]);
    expect(read("#4 AWG THHN")).toEqual(["4", "THHN"]);
    expect(read("4/0 AWG XHHW-2")).toEqual(["4/0", "XHHW-2"]);
    expect(read("250 kcmil")).toEqual(["250", null]);
    expect(read("tw")).toEqual([null, "TW"]);
    for (const bad of ["", "5/0", "4 ABC", "THHN 4"]) expect(read(bad), bad).toEqual(["entry.not-a-conductor"]);
  });
});

describe("the standing tool", () => {
  const onCeiling = () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-ceiling");
    return work;
  };

  it("selects what is clicked: a run, then one of its vertices, a box, an area by its inside, nothing", () => {
    const work = onCeiling();
    work.click([250, 203]);
    expect(work.state.selection).toEqual({ table: "elements", id: "r1" });
    work.click([302, 199]);
    expect(work.state.selection).toEqual({ table: "elements", id: "r1", vertex: 1 });
    work.click([423, 218]);
    expect(work.state.selection).toEqual({ table: "elements", id: "b1" });
    work.click([900, 900]);
    expect(work.state.selection).toBeNull();
    work.session.setSheet("s-roof");
    work.click([250, 250]);
    expect(work.state.selection).toEqual({ table: "areas", id: "a1" });
  });

  it("selects what a mark stands for", () => {
    const work = onCeiling();
    const down = { shift: false, alt: false, ctrl: false, at: [5, 5], reach: 8 } as const;
    for (const mark of ["finding:r1:too-close", "element:b1", "element:gone", null]) {
      work.session.pointer({ ...down, phase: "down", mark });
      work.session.pointer({ ...down, phase: "up", mark });
      expect(work.state.selection).toEqual(
        mark === "finding:r1:too-close"
          ? { finding: { elementId: "r1", verdict: "too-close" } }
          : mark === "element:b1"
            ? { table: "elements", id: "b1" }
            : null,
      );
    }
  });

  it("drags a vertex as one undo step, and shows it before", () => {
    const work = onCeiling();
    const before = work.text;
    work.session.select({ table: "elements", id: "r1" });
    work.drag(
      [
        [300, 200],
        [330, 240],
        [350, 260],
      ],
      { hold: true },
    );
    expect(work.text).toBe(before);
    expect(work.state.preview?.changes[0]?.after).toMatchObject({ vertices: [{}, { at: [350, 260] }, {}] });
    work.pointer("up", [350, 260]);
    expect(work.state.job.elements.r1).toMatchObject({ vertices: [{}, { at: [350, 260] }, {}] });
    expect(work.state.undo).toHaveLength(1);
    expect(work.state.undo[0]?.name).toBe("Move a vertex of R-1");
    work.session.undo();
    expect(work.text).toBe(before);
  });

  it("puts everything back exactly on Escape, and when a second finger breaks the drag off", () => {
    const work = onCeiling();
    const job = work.state.job;
    work.session.select({ table: "elements", id: "r1" });
    for (const end of [() => work.keys("Escape"), () => work.pointer("cancel", [350, 260])]) {
      work.drag(
        [
          [300, 200],
          [350, 260],
        ],
        { hold: true },
      );
      expect(work.state.busy).toBe(true);
      end();
      work.pointer("up", [350, 260]);
      expect(work.state.job).toBe(job);
      expect(work.state.busy).toBe(false);
      expect(work.state.undo).toHaveLength(0);
    }
  });

  it("drags a whole run by its line, a box by its middle, and leaves unselected things to the view", () => {
    const work = onCeiling();
    expect(work.pointer("down", [250, 200])).toBe("pan");
    work.pointer("up", [250, 200]);
    expect(work.pointer("down", [250, 200])).toBe("taken");
    work.pointer("move", [260, 230]);
    work.pointer("up", [260, 230]);
    expect(work.state.job.elements.r1).toMatchObject({
      vertices: [{ at: [210, 230] }, { at: [310, 230] }, { at: [310, 380] }],
    });
    work.session.select({ table: "elements", id: "b1" });
    work.drag([
      [421, 220],
      [461, 230],
    ]);
    expect(work.state.job.elements.b1).toMatchObject({ at: [460, 230] });
    expect(work.state.undo.map(({ name }) => name)).toEqual(["Move R-1", "Move B-1"]);
  });

  it("refuses an outline that would cross itself and puts the vertex back", () => {
    const work = new AtWork(furnished());
    work.session.setSheet("s-roof");
    const job = work.state.job;
    work.session.select({ table: "areas", id: "a1" });
    work.drag([
      [100, 100],
      [300, 300],
      [600, 250],
    ]);
    expect(work.notice).toBe("ring.crosses-itself");
    expect(work.state.job).toBe(job);
    expect(work.state.busy).toBe(false);
  });

  it("inserts a vertex with an alt-click, and in one step with an alt-drag; Delete takes it out", () => {
    const work = onCeiling();
    work.session.select({ table: "elements", id: "r1" });
    work.click([250, 202], { alt: true });
    expect(work.state.job.elements.r1).toMatchObject({ vertices: [{}, { at: [250, 200], tag: null }, {}, {}] });
    expect(work.state.selection).toMatchObject({ vertex: 1 });
    work.keys("Delete");
    expect((work.state.job.elements.r1 as Run).vertices).toHaveLength(3);
    work.drag(
      [
        [302, 270],
        [330, 280],
        [340, 290],
      ],
      { alt: true },
    );
    expect(work.state.job.elements.r1).toMatchObject({ vertices: [{}, {}, { at: [340, 290] }, {}] });
    expect(work.state.undo).toHaveLength(3);
  });

  it("never leaves a run with fewer than two vertices", () => {
    const work = onCeiling();
    work.session.select({ table: "elements", id: "r1", vertex: 1 });
    work.keys("Delete");
    work.session.select({ table: "elements", id: "r1", vertex: 1 });
    work.keys("Delete");
    expect(work.notice).toBe("edit.too-few-vertices");
    work.session.select({ table: "elements", id: "r1" });
    work.keys("Delete");
    expect(work.state.job.elements.r1).toBeUndefined();
    expect(work.state.selection).toBeNull();
  });

  it("moves the spots of an area along with it, and one by one", () => {
    const job = furnished();
    const edit = setElevation(job, "a1", {
      shape: {
        is: "spots",
        spots: [
          { at: [150, 150], elevation: { value: 112, unit: "ft" } },
          { at: [450, 150], elevation: null },
          { at: [300, 350], elevation: null },
        ],
      },
    });
    const work = new AtWork(job);
    work.session.attempt(edit);
    work.session.setSheet("s-roof");
    work.session.select({ table: "areas", id: "a1" });
    work.drag([
      [200, 100],
      [220, 110],
    ]);
    const spots = () => {
      const shape = work.state.job.areas.a1?.elevation.shape;
      return shape?.is === "spots" ? shape.spots : [];
    };
    expect(spots().map(({ at }) => at)).toEqual([
      [170, 160],
      [470, 160],
      [320, 360],
    ]);
    work.drag([
      [170, 160],
      [200, 200],
    ]);
    expect(spots()[0]).toEqual({ at: [200, 200], elevation: { value: 112, unit: "ft" } });
    expect(work.state.job.areas.a1?.outline[0]).toEqual([120, 110]);
  });
});
