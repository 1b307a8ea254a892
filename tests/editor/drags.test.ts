import { describe, expect, it } from "vitest";
import { addHole, setElevation } from "../../src/editor/edits/areas.ts";
import { addBox, addEntry, addFitting, addRun } from "../../src/editor/edits/elements.ts";
import { addNote } from "../../src/editor/edits/notes.ts";
import { addRack } from "../../src/editor/edits/racks.ts";
import { addViewport } from "../../src/editor/edits/sheets.ts";
import { addStoreyHole, addStoreyOutline } from "../../src/editor/edits/storey-outlines.ts";
import { type ShapedTable, segmentsOf, sheetOfRecord } from "../../src/editor/handles.ts";
import { type Placed, placedOn } from "../../src/editor/near.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import type { Edit } from "../../src/job/edit.ts";
import type { Id } from "../../src/job/fields.ts";
import { LABEL_LETTERS } from "../../src/job/labels.ts";
import type { Job } from "../../src/job/schema.ts";
import type { Result } from "../../src/units/problem.ts";
import { applyChecked } from "../job/apply-checked.ts";
import { AtWork } from "./at-work.ts";
import { EMT, furnished } from "./sample-job.ts";

const square = (x: number, y: number, side: number): Point2[] => [
  [x, y],
  [x + side, y],
  [x + side, y + side],
  [x, y + side],
];
const feet = (value: number) => ({ value, unit: "ft" as const });
const along = (y: number) => [
  { at: [600, y] as const, tag: null },
  { at: [800, y] as const, tag: null },
  { at: [800, y + 90] as const, tag: null },
];

/** A job with one of everything that can be dragged, none of them near another: two areas, one through spots and one that slopes, each with a hole. */
function everything(): Job {
  let job = furnished();
  const add = (build: (present: Job) => Result<Edit>) => {
    job = applyChecked(job, build(job));
  };
  const spots = [120, 480, 300].map((x, i) => ({ at: [x, 130 + 110 * i] as const, elevation: feet(12) }));
  add((present) => addHole(present, "a1", square(200, 200, 60)));
  add((present) => setElevation(present, "a1", { shape: { is: "spots", spots } }));
  add((present) => addStoreyOutline(present, "s1", "v-roof", square(600, 100, 300)));
  add((present) => addStoreyHole(present, "s1", square(700, 200, 60)));
  add((present) => addRack(present, "k1", { viewport: "v-ceiling", wiring: EMT, vertices: along(500) }));
  add((present) => addRun(present, "r2", { viewport: "v-ceiling", wiring: EMT, vertices: along(700) }));
  add((present) => addFitting(present, "f1", { viewport: "v-ceiling", at: [500, 600], item: "lb", tradeSize: "1" }));
  add((present) => addEntry(present, "e1", { viewport: "v-ceiling", at: [420, 700] }));
  add((present) => addBox(present, "b2", { viewport: "v-ceiling", at: [300, 800], item: "4sq-2-1/8", cover: "down" }));
  add((present) => addNote(present, "n1", { sheet: "s-ceiling", text: "here", at: [1000, 300], place: [1060, 380] }));
  return job;
}

/** A path of the hand from a place: small steps, there and back and on. */
const hand = ([x, y]: Point2): Point2[] => [
  [x, y],
  [x + 6, y + 2],
  [x + 13, y + 5],
  [x + 9, y + 11],
  [x + 21, y + 17],
];

/** Everything on both sheets, by its label. */
const things = (job: Job): readonly Placed[] => Object.keys(job.sheets).flatMap((sheet) => placedOn(job, sheet));

/** A session with a thing selected on its sheet, and nothing to attract the hand. */
function holding(
  job: Job,
  selection: { readonly table: ShapedTable; readonly id: Id; readonly vertex?: number },
): AtWork {
  const work = new AtWork(job);
  work.session.setSheet(sheetOfRecord(job, job[selection.table][selection.id]!)!);
  work.session.select(selection);
  return work;
}

/** Drags along a path: nothing is done while it is held, one step when it is let go, all of it taken back in one. */
function oneStep(work: AtWork, path: readonly Point2[]): Job {
  const { job } = work.state;
  for (const [i, at] of path.entries()) {
    work.pointer(i === 0 ? "down" : "move", at);
    expect(work.state.job).toBe(job);
    expect(work.state.undo).toEqual([]);
  }
  expect(work.state.preview?.changes.length).toBeGreaterThan(0);
  work.pointer("up", path.at(-1)!);
  expect(work.state.undo).toHaveLength(1);
  const moved = work.state.job;
  expect(moved).not.toEqual(job);
  work.session.undo();
  expect(work.state.job).toEqual(job);
  work.session.redo();
  expect(work.state.job).toEqual(moved);
  return moved;
}

/** Drags along a path and breaks off: nothing was done. */
function noStep(work: AtWork, path: readonly Point2[]): void {
  const { job } = work.state;
  work.drag(path, { hold: true });
  work.pointer("cancel", path.at(-1)!);
  expect(work.state.job).toBe(job);
  expect(work.state).toMatchObject({ undo: [], busy: false, preview: null });
}

describe("a drag", () => {
  const job = everything();
  const sloped = applyChecked(
    job,
    setElevation(job, "a1", {
      shape: { is: "slope", at: feet(14), point: [130, 300], towards: [450, 300], rise: 0.02, text: "2%" },
    }),
  );

  it("is tried on one of every kind of thing that has a label", () => {
    const letters = new Set(things(job).map(({ record }) => record.label.split("-")[0]));
    expect([...letters].sort()).toEqual(Object.values(LABEL_LETTERS).toSorted());
  });

  for (const [name, present] of [
    ["everything there is, a deck through spots", job],
    ["a deck that slopes", sloped],
  ] as const)
    for (const { table, id, record, outline } of things(present).filter(
      ({ table }) => present === job || table === "areas",
    ))
      it(`of any vertex of ${record.label} is one step (${name})`, () => {
        outline.vertices.forEach((at, vertex) => {
          const moved = oneStep(holding(present, { table, id, vertex }), hand(at));
          expect(moved[table][id]).not.toEqual(record);
          noStep(holding(present, { table, id, vertex }), hand(at));
        });
      });

  it("of a whole thing by one of its lines is one step", () => {
    for (const { table, id, outline } of things(job)) {
      const [segment] = segmentsOf(outline);
      if (!segment) continue;
      const { a, b } = segment;
      const middle: Point2 = [a[0] * 0.6 + b[0] * 0.4, a[1] * 0.6 + b[1] * 0.4];
      oneStep(holding(job, { table, id }), hand(middle));
      noStep(holding(job, { table, id }), hand(middle));
    }
  });

  it("of words by the words themselves is one step", () => {
    const work = holding(job, { table: "notes", id: "n1" });
    const event = { shift: false, alt: false, ctrl: false, reach: 8, mark: "note:n1" };
    const path = hand([1110, 378]);
    path.forEach((at, i) => {
      work.session.pointer({ ...event, phase: i === 0 ? "down" : "move", at });
      expect(work.state.undo).toEqual([]);
    });
    work.session.pointer({ ...event, phase: "up", at: path.at(-1)! });
    expect(work.state.undo.map(({ name }) => name)).toEqual(["Move the words of N-1"]);
    expect(work.state.job.notes.n1?.place).toEqual([1081, 397]);
  });

  it("of a corner of a part of a sheet is one step", () => {
    const parted = applyChecked(
      job,
      addViewport(job, "v-part", { sheet: "s-ceiling", name: "Part", region: [1200, 800, 1500, 1100] }),
    );
    const corners: Point2[] = square(1200, 800, 300);
    for (const corner of corners) {
      const work = new AtWork(parted);
      work.session.setSheet("s-ceiling");
      work.session.start({ tool: "reshape-part", viewport: "v-part" });
      work.drag(hand(corner));
      expect(work.state.undo).toHaveLength(1);
      expect(work.state.job.viewports["v-part"]?.region).not.toEqual([1200, 800, 1500, 1100]);
      work.session.undo();
      expect(work.state.job).toEqual(parted);
    }
  });

  it("of a vertex that it makes on the way is one step", () => {
    const work = holding(job, { table: "elements", id: "r2" });
    work.drag(hand([700, 700]), { alt: true });
    expect(work.state.undo.map(({ name }) => name)).toEqual(["Insert a vertex in R-2"]);
    work.session.undo();
    expect(work.state.job).toEqual(job);
  });
});
