import { describe, expect, it } from "vitest";
import { act } from "../../src/editor/acts.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { AtWork } from "./at-work.ts";
import { furnished } from "./sample-job.ts";

/** A session on the ceiling sheet with the tool for notes in hand. */
function writing(): AtWork {
  const work = new AtWork(furnished());
  work.session.setSheet("s-ceiling");
  work.keys("Shift+N");
  expect(work.state.tool.tool).toBe("place-note");
  return work;
}

describe("writing a note", () => {
  it("takes the point shown, the place of the words, then the words, as one step", () => {
    const work = writing();
    expect(work.state).toMatchObject({ busy: false, asks: ["position"] });
    work.click([302, 203]);
    expect(work.state).toMatchObject({ busy: true, asks: ["words", "position"] });
    work.click([361, 262]);
    expect(work.state).toMatchObject({ busy: true, asks: ["words"] });
    expect(work.state.undo).toHaveLength(0);
    work.type("12'-6\", 4'-0\"");
    expect(work.state.job.notes).toEqual({
      "new-1": {
        label: "N-1",
        sheet: "s-ceiling",
        text: "12'-6\", 4'-0\"",
        // Attracted by the vertex of the run; the words stand where they were put.
        at: [300, 200],
        place: [361, 262],
        about: { table: "elements", id: "r1" },
      },
    });
    expect(work.state.undo.map(({ name }) => name)).toEqual(["Write N-1"]);
    expect(work.state).toMatchObject({
      busy: false,
      selection: { table: "notes", id: "new-1" },
      tool: { tool: "place-note" },
    });
    work.keys("Enter");
    expect(work.state.tool.tool).toBe("edit");
    work.session.undo();
    expect(work.state.job.notes).toEqual({});
  });

  it("is done by keys alone, with room found for the words", () => {
    const work = writing();
    work.session.setRoom("s-ceiling", (at, { label, text }): Point2 => [at[0] + label.length, at[1] + text.length]);
    work.type("@420, 220");
    work.keys("Enter");
    expect(work.state.asks).toEqual(["words"]);
    work.type("Is this box accessible?");
    expect(work.state.job.notes["new-1"]).toMatchObject({
      at: [420, 220],
      place: [423, 220],
      about: { table: "elements", id: "b1" },
    });
    work.type("@700, 700");
    work.type("words first");
    expect(work.state.job.notes["new-2"]).toMatchObject({ at: [700, 700], place: [703, 711], label: "N-2" });
    expect(work.state.job.notes["new-2"]).not.toHaveProperty("about");
  });

  it("puts words up and to the right where nobody knows what is drawn", () => {
    const work = writing();
    work.session.setRoom("s-roof", () => [0, 0]);
    work.type("@700, 700");
    work.type("here");
    expect(work.state.job.notes["new-1"]?.place).toEqual([736, 736]);
  });

  it("wants a point before words", () => {
    const work = writing();
    expect(work.session.typed("too early").ok).toBe(false);
    expect(work.notice).toBe("note.point-first");
  });

  it("goes back point by point", () => {
    const work = writing();
    work.click([600, 600]);
    work.click([650, 650]);
    work.keys("Enter");
    expect(work.notice).toBe("note.no-words");
    work.keys("Backspace");
    expect(work.state.asks).toEqual(["words", "position"]);
    work.keys("Backspace");
    expect(work.state.busy).toBe(false);
    work.click([600, 600]);
    work.keys("Escape");
    expect(work.state).toMatchObject({ busy: false, tool: { tool: "place-note" } });
    work.keys("Escape");
    expect(work.state.tool.tool).toBe("edit");
    expect(work.state.undo).toEqual([]);
  });

  it("can be begun on any stage, by its act", () => {
    const work = new AtWork(furnished());
    for (const stage of ["sheet", "roof", "wiring", "check", "issue"] as const) {
      work.session.setStage(stage);
      act("place-note").run(work.session);
      expect(work.state).toMatchObject({ stage, tool: { tool: "place-note" } });
    }
  });
});

describe("a note that is selected", () => {
  const written = (): AtWork => {
    const work = writing();
    work.click([600, 600]);
    work.click([660, 640]);
    work.type("words");
    work.keys("Enter");
    return work;
  };
  const noteIn = ({ state }: AtWork) => state.job.notes["new-1"]!;

  it("has both ends moved by dragging, each as one step", () => {
    const work = written();
    work.drag([
      [660, 640],
      [670, 655],
      [700, 700],
    ]);
    work.drag([
      [600, 600],
      [580, 610],
      [500, 520],
    ]);
    expect(noteIn(work)).toMatchObject({ at: [500, 520], place: [700, 700] });
    expect(work.state.undo.slice(1).map(({ name }) => name)).toEqual([
      "Move the words of N-1",
      "Move the leader of N-1",
    ]);
  });

  it("is moved as a whole by its leader", () => {
    const work = written();
    work.drag([
      [630, 620],
      [640, 640],
      [650, 650],
    ]);
    expect(noteIn(work)).toMatchObject({ at: [620, 630], place: [680, 670] });
  });

  it("has its words moved by the words themselves", () => {
    const work = written();
    const { session } = work;
    const event = { shift: false, alt: false, ctrl: false, reach: 8, mark: "note:new-1" };
    session.pointer({ ...event, phase: "down", at: [720, 630] });
    session.pointer({ ...event, phase: "move", at: [740, 650] });
    session.pointer({ ...event, phase: "move", at: [760, 680] });
    session.pointer({ ...event, phase: "up", at: [760, 680] });
    expect(noteIn(work)).toMatchObject({ at: [600, 600], place: [700, 690] });
    expect(work.state.undo.at(-1)?.name).toBe("Move the words of N-1");
  });

  it("is moved and deleted by keys", () => {
    const work = written();
    work.keys(". .");
    expect(work.state.prompt).toMatch(/words/);
    work.keys("a ArrowRight ArrowUp Enter");
    expect(noteIn(work)).toMatchObject({ at: [600, 600], place: [670, 650] });
    work.keys("i");
    expect(work.notice).toBe("edit.no-segment");
    work.keys("Delete");
    expect(work.state.job.notes).toEqual({});
    expect(work.state.undo.at(-1)?.name).toBe("Delete N-1");
  });
});
