import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { act } from "../../src/editor/acts.ts";
import { addArea, classifyArea } from "../../src/editor/edits/areas.ts";
import { addRun } from "../../src/editor/edits/elements.ts";
import { pickedOf, type Selection, selectionOf, withTurned } from "../../src/editor/selection.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import type { Edit } from "../../src/job/edit.ts";
import type { Job } from "../../src/job/schema.ts";
import type { Result } from "../../src/units/problem.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { EMT, furnished } from "./sample-job.ts";

/** On the ceiling sheet: r1 (three vertices, 200 to 300 across), b1 at 420, 220, r2 and r3 end to end along y = 600; two areas on the roof. */
function crowded(): Job {
  let job = furnished();
  const add = (edit: Result<Edit>) => {
    job = applyChecked(job, edit);
  };
  const run = (id: string, from: Point2, to: Point2, tradeSize = "3/4") =>
    add(
      addRun(job, id, {
        viewport: "v-ceiling",
        wiring: { ...EMT, tradeSize },
        vertices: [
          { at: from, tag: null },
          { at: to, tag: null },
        ],
      }),
    );
  run("r2", [200, 600], [400, 600]);
  run("r3", [400, 600], [600, 600]);
  run("r4", [200, 800], [600, 800], "1");
  add(
    addArea(job, "a2", "v-roof", [
      [600, 100],
      [900, 100],
      [900, 400],
      [600, 400],
    ]),
  );
  return job;
}

const ids = (work: AtWork): readonly string[] => pickedOf(work.state.selection).map(({ id }) => id);
function atCeiling(): AtWork {
  const work = new AtWork(crowded());
  work.session.setStage("wiring");
  work.session.setSheet("s-ceiling");
  return work;
}

describe("selecting several", () => {
  it("adds and takes out by a click with Shift or Control, and by Shift and Enter at the crosshair", () => {
    const work = atCeiling();
    work.click([250, 200]);
    expect(work.state.selection).toEqual({ table: "elements", id: "r1" });
    work.click([420, 220], { shift: true });
    expect(work.state.selection).toEqual({
      several: [
        { table: "elements", id: "r1" },
        { table: "elements", id: "b1" },
      ],
    });
    work.click([300, 600], { ctrl: true });
    expect(ids(work)).toEqual(["r1", "b1", "r2"]);
    // A vertex of what is selected means the thing itself.
    work.click([200, 200], { shift: true });
    expect(ids(work)).toEqual(["b1", "r2"]);
    work.type("@500, 600");
    work.keys("Shift+Enter");
    expect(ids(work)).toEqual(["b1", "r2", "r3"]);
    work.click([1000, 1000], { shift: true });
    expect(ids(work)).toEqual(["b1", "r2", "r3"]);
    work.click([420, 220]);
    expect(work.state.selection).toEqual({ table: "elements", id: "b1" });
  });

  it("takes what a window drawn with Shift touches, adding to what is selected, while a plain drag stays free to move the sheet", () => {
    const work = atCeiling();
    expect(work.pointer("down", [150, 150])).toBe("pan");
    work.pointer("cancel", [150, 150]);
    expect(work.pointer("down", [150, 150], { shift: true })).toBe("taken");
    work.pointer("move", [250, 210], { shift: true });
    expect(work.state.prompt).toContain("1 in the window");
    work.pointer("up", [250, 210], { shift: true });
    expect(work.state).toMatchObject({ tool: { tool: "edit" }, selection: { table: "elements", id: "r1" } });
    work.drag(
      [
        [700, 700],
        [500, 200],
        [390, 190],
      ],
      { ctrl: true },
    );
    expect(ids(work)).toEqual(["r1", "b1", "r2", "r3"]);
    expect(work.state.undo).toEqual([]);
  });

  it("takes nothing whose lines go round the window, nor what another stage is about", () => {
    const work = atCeiling();
    // In the elbow of r1, and later in the middle of a1.
    const window = [
      [210, 250],
      [240, 300],
      [280, 340],
    ] as const;
    work.drag(window, { shift: true });
    expect(work.state.selection).toBeNull();
    // Beside a run that goes across, in the rectangle round it.
    const vertices = [
      { at: [800, 600], tag: null },
      { at: [1000, 800], tag: null },
    ] as const;
    work.session.attempt(addRun(work.state.job, "r5", { viewport: "v-ceiling", wiring: EMT, vertices: [...vertices] }));
    work.drag(
      [
        [810, 790],
        [830, 760],
        [850, 740],
      ],
      { shift: true },
    );
    expect(work.state.selection).toBeNull();
    work.session.setSheet("s-roof");
    work.session.setStage("roof");
    work.drag(window, { shift: true });
    expect(work.state.selection).toBeNull();
    work.drag([[50, 250], ...window], { shift: true });
    expect(ids(work)).toEqual(["a1"]);
    work.session.setStage("wiring");
    work.session.select(null);
    work.drag([[50, 250], ...window], { shift: true });
    expect(work.state.selection).toBeNull();
  });

  it("is done without held keys by a tool: clicks, windows by drag or by two corners, wholly inside where asked", () => {
    const work = atCeiling();
    act("select-several").run(work.session);
    work.click([250, 200]);
    work.click([420, 220]);
    work.click([420, 220]);
    expect(ids(work)).toEqual(["r1"]);
    work.click([190, 590]);
    expect(work.state.busy).toBe(true);
    work.click([500, 610]);
    // r3 reaches out of the window, and is touched by it.
    expect(ids(work)).toEqual(["r1", "r2", "r3"]);
    work.keys("Escape Escape");
    expect(work.state).toMatchObject({ tool: { tool: "edit" }, selection: null });
    act("select-several").run(work.session);
    work.keys("i");
    work.drag([
      [190, 590],
      [300, 605],
      [500, 610],
    ]);
    expect(ids(work)).toEqual(["r2"]);
    work.type("@100, 100");
    work.keys("Enter");
    work.type("@610, 500");
    work.keys("Enter");
    expect(ids(work)).toEqual(["r2", "b1", "r1"]);
    work.keys("Escape");
    expect(work.state).toMatchObject({ tool: { tool: "edit" }, busy: false });
    expect(ids(work)).toEqual(["r2", "b1", "r1"]);
  });

  it("leaves the window that is half drawn where Escape or a second finger breaks it off", () => {
    const work = atCeiling();
    work.click([250, 200]);
    work.drag(
      [
        [150, 550],
        [650, 650],
      ],
      { shift: true, hold: true },
    );
    work.pointer("cancel", [650, 650]);
    expect(work.state).toMatchObject({ tool: { tool: "edit" }, busy: false });
    expect(ids(work)).toEqual(["r1"]);
  });

  it("selects all of the stage on the sheet, all alike, the next by label and one less", () => {
    const work = atCeiling();
    work.keys("Ctrl+a");
    expect(ids(work)).toEqual(["b1", "r1", "r2", "r3", "r4"]);
    work.keys("Escape");
    work.session.select({ table: "elements", id: "r2" });
    work.keys("Shift+L");
    expect(ids(work)).toEqual(["r2", "r1", "r3"]);
    work.session.select({ table: "elements", id: "r2" });
    work.keys("] ]");
    expect(ids(work)).toEqual(["r2", "r3", "r4"]);
    expect(act("extend-selection").enabled(work.state)).toBe(false);
    work.keys("[");
    expect(ids(work)).toEqual(["r2", "r3"]);
    work.session.setStage("roof");
    work.session.setSheet("s-roof");
    work.keys("Ctrl+a");
    expect(ids(work)).toEqual(["a1", "a2"]);
  });
});

describe("acts on several", () => {
  it("move them by a drag on one of them, and by arrow keys, as one step each", () => {
    const work = atCeiling();
    work.session.select(
      selectionOf([
        { table: "elements", id: "r1" },
        { table: "elements", id: "b1" },
      ]),
    );
    work.drag([
      [250, 200],
      [260, 230],
      [270, 240],
    ]);
    expect(work.state.undo.at(-1)?.name).toBe("Move 2 things");
    expect(work.state.job.elements.b1).toMatchObject({ at: [440, 260] });
    expect(work.state.job.elements.r1).toMatchObject({ vertices: [{ at: [220, 240] }, {}, {}] });
    expect(ids(work)).toEqual(["r1", "b1"]);
    work.keys("a ArrowRight ArrowRight Enter");
    expect(work.state.job.elements.b1).toMatchObject({ at: [460, 260] });
    expect(work.state.undo).toHaveLength(2);
    work.keys("a ArrowRight Escape");
    expect(work.state.undo).toHaveLength(2);
    work.session.undo();
    work.session.undo();
    expect(work.state.job.elements.b1).toMatchObject({ at: [420, 220] });
    // Beside them the sheet moves.
    expect(work.pointer("down", [500, 800])).toBe("pan");
  });

  it("delete them, and bring them back, in one step", () => {
    const work = atCeiling();
    work.keys("Ctrl+a Delete");
    expect(work.state.job.elements).toEqual({});
    expect(work.state).toMatchObject({ selection: null });
    expect(work.state.undo.map(({ name }) => name)).toEqual(["Delete 5 things"]);
    work.session.undo();
    expect(Object.keys(work.state.job.elements)).toHaveLength(5);
  });

  it("join runs that meet end to end, and refuse those that do not", () => {
    const work = atCeiling();
    work.session.select(
      selectionOf([
        { table: "elements", id: "r3" },
        { table: "elements", id: "r2" },
      ]),
    );
    act("join-runs").run(work.session);
    expect(work.state.job.elements.r3).toMatchObject({ vertices: [{}, {}, {}] });
    expect(work.state.selection).toEqual({ table: "elements", id: "r3" });
    work.session.undo();
    work.session.select(
      selectionOf([
        { table: "elements", id: "r1" },
        { table: "elements", id: "r2" },
      ]),
    );
    act("join-runs").run(work.session);
    expect(work.notice).toBe("edit.ends-apart");
  });

  it("settle areas together", () => {
    const work = atCeiling();
    work.session.setSheet("s-roof");
    work.session.setStage("roof");
    work.session.attempt(classifyArea(work.state.job, "a1", { is: "roof" }));
    work.keys("Ctrl+a");
    act("settle-floor-above").run(work.session);
    expect(Object.values(work.state.job.areas).map(({ classification: { is } }) => is)).toEqual([
      "floor-above",
      "floor-above",
    ]);
    expect(work.state.undo).toHaveLength(2);
    expect(act("settle-floor-above").enabled(work.state)).toBe(false);
  });
});

describe("whatever is done, the selection", () => {
  const acts = ["select-all", "select-alike", "extend-selection", "shrink-selection", "delete", "undo", "redo"];
  const place = fc
    .tuple(fc.integer({ min: 0, max: 13 }), fc.integer({ min: 0, max: 17 }))
    .map(([x, y]): Point2 => [x * 50, y * 50]);
  const step = fc.oneof(
    fc.record({ do: fc.constant("act" as const), id: fc.constantFrom(...acts, ...acts, "join-runs") }),
    fc.record({ do: fc.constant("click" as const), at: place, shift: fc.boolean() }),
    fc.record({ do: fc.constant("drag" as const), at: place, to: place, shift: fc.boolean() }),
    fc.record({
      do: fc.constant("keys" as const),
      keys: fc.constantFrom("Delete", "Escape", "Shift+S", "i", "a ArrowUp Enter", "Enter"),
    }),
    fc.record({
      do: fc.constant("sheet" as const),
      id: fc.constantFrom("s-roof", "s-ceiling"),
      stage: fc.constantFrom("roof" as const, "wiring" as const),
    }),
  );

  it("never holds what is not there, nor a thing twice, nor one thing as several", () => {
    fc.assert(
      fc.property(fc.array(step, { minLength: 5, maxLength: 60 }), (steps) => {
        const work = atCeiling();
        work.session.subscribe(({ selection, job }) => {
          for (const { table, id } of pickedOf(selection)) expect(Object.hasOwn(job[table], id)).toBe(true);
          const keys = pickedOf(selection).map(({ table, id }) => `${table}/${id}`);
          expect(new Set(keys).size).toBe(keys.length);
          if (selection && "several" in selection) expect(selection.several.length).toBeGreaterThan(1);
        });
        const first = work.text;
        for (const one of steps) {
          if (one.do === "act") {
            if (act(one.id).enabled(work.state)) act(one.id).run(work.session);
          } else if (one.do === "click") work.click(one.at, { shift: one.shift });
          else if (one.do === "drag") work.drag([one.at, one.to], { shift: one.shift });
          else if (one.do === "keys") work.keys(one.keys);
          else {
            work.session.setSheet(one.id);
            work.session.setStage(one.stage);
          }
        }
        for (let i = 0; i < 3; i++) work.session.cancel();
        while (work.state.undo.length > 0) work.session.undo();
        expect(work.text).toBe(first);
      }),
      { numRuns: 100 },
    );
  });

  it("is turned by the same things twice to what it was, but for their order", () => {
    const some = fc
      .uniqueArray(fc.integer({ min: 0, max: 8 }))
      .map((list) => list.map((n) => ({ table: "elements" as const, id: `e${n}` })));
    const sorted = (selection: Selection) =>
      pickedOf(selection)
        .map(({ id }) => id)
        .toSorted();
    fc.assert(
      fc.property(some, some, (a, b) => {
        expect(sorted(withTurned(withTurned(selectionOf(a), b), b))).toEqual(sorted(selectionOf(a)));
      }),
    );
  });
});
