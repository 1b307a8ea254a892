import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { ToolRequest } from "../../src/editor/tool-request.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { AtWork } from "./at-work.ts";
import { furnished } from "./sample-job.ts";

/** What a hand may do next. Places are on a coarse grid, so that points meet, lines cross and things are hit. */
type Move =
  | { readonly do: "click" | "double" | "alt-click"; readonly at: Point2 }
  | { readonly do: "drag" | "broken-drag" | "alt-drag"; readonly at: Point2; readonly to: Point2 }
  | { readonly do: "keys"; readonly keys: string }
  | { readonly do: "type"; readonly text: string }
  | { readonly do: "start"; readonly request: ToolRequest }
  | { readonly do: "select"; readonly table: "areas" | "elements"; readonly n: number; readonly vertex: number | null }
  | { readonly do: "sheet"; readonly sheet: string };

const place = fc
  .tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 10 }))
  .map(([x, y]): Point2 => [x * 50, y * 50]);
const requests: readonly ToolRequest[] = [
  { tool: "edit" },
  { tool: "measure-scale" },
  { tool: "mark-viewport" },
  { tool: "reshape-part" },
  { tool: "register" },
  { tool: "outline-area" },
  { tool: "outline-area", part: "hole" },
  { tool: "slope-direction" },
  { tool: "spots" },
  { tool: "trace-run" },
  { tool: "trace-rack" },
  { tool: "place-box" },
  { tool: "place-fitting" },
  { tool: "place-entry" },
  { tool: "parallel-runs" },
  { tool: "copy-selected" },
  { tool: "copy-along" },
  { tool: "measure" },
];
const move: fc.Arbitrary<Move> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc.record({ do: fc.constantFrom("click" as const, "double" as const, "alt-click" as const), at: place }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constantFrom("drag" as const, "broken-drag" as const, "alt-drag" as const),
      at: place,
      to: place,
    }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      do: fc.constant("keys" as const),
      keys: fc.constantFrom(
        "Enter",
        "Backspace",
        "Escape",
        "Delete",
        "d",
        "i",
        ".",
        ",",
        "a",
        "a Shift+ArrowRight",
        "Shift+ArrowRight",
        "a ArrowUp Enter",
        "ArrowUp Enter",
        "Shift+ArrowDown Space",
        "s",
        "z",
        "Ctrl+z",
        "Ctrl+y",
      ),
    }),
  },
  {
    weight: 2,
    arbitrary: fc.record({
      do: fc.constant("type" as const),
      text: fc.constantFrom(
        `12'-6"`,
        `2" below deck`,
        "2%",
        "A/1",
        `10', -4'`,
        "@150, 150",
        "nonsense",
        "",
        "0",
        `2 at 6"`,
        "2 times",
        "in 3 parts",
        `6' left`,
      ),
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({ do: fc.constant("start" as const), request: fc.constantFrom(...requests) }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      do: fc.constant("select" as const),
      table: fc.constantFrom("areas" as const, "elements" as const),
      n: fc.nat({ max: 5 }),
      vertex: fc.option(fc.nat({ max: 4 })),
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({ do: fc.constant("sheet" as const), sheet: fc.constantFrom("s-roof", "s-ceiling") }),
  },
);

function make(work: AtWork, next: Move): void {
  switch (next.do) {
    case "click":
      work.click(next.at);
      return;
    case "alt-click":
      work.click(next.at, { alt: true });
      return;
    case "double":
      work.doubleClick(next.at);
      return;
    case "drag":
      work.drag([next.at, next.to]);
      return;
    case "alt-drag":
      work.drag([next.at, next.to], { alt: true });
      return;
    case "broken-drag":
      work.drag([next.at, next.to], { hold: true });
      work.pointer("cancel", next.to);
      return;
    case "keys":
      work.keys(next.keys);
      return;
    case "type":
      work.session.typed(next.text);
      return;
    case "start":
      work.session.start(next.request);
      return;
    case "select": {
      const ids = Object.keys(work.state.job[next.table]);
      const id = ids[next.n % ids.length];
      if (id !== undefined)
        work.session.select({ table: next.table, id, ...(next.vertex === null ? {} : { vertex: next.vertex }) });
      return;
    }
    case "sheet":
      work.session.setSheet(next.sheet);
  }
}

/** Random hands on a session: `AtWork` holds every edit that comes of it to what edits promise. */
const run = (moves: readonly Move[]): AtWork => {
  const work = new AtWork(furnished());
  for (const next of moves) make(work, next);
  return work;
};

describe("whatever is done", () => {
  it("can be taken back to the first byte and done again to the last", () => {
    fc.assert(
      fc.property(fc.array(move, { minLength: 5, maxLength: 60 }), (moves) => {
        const work = new AtWork(furnished());
        const first = work.text;
        for (const next of moves) make(work, next);
        work.session.cancel();
        const last = work.text;
        const done = work.state.undo.length;
        for (let i = 0; i < done; i++) work.session.undo();
        expect(work.state.undo).toEqual([]);
        expect(work.text).toBe(first);
        // What had been taken back on the way can be done again too; only as much as was done is.
        for (let i = 0; i < done; i++) work.session.redo();
        expect(work.text).toBe(last);
      }),
      { numRuns: 150 },
    );
  });

  it("is put back exactly by Escape while it is half done", () => {
    fc.assert(
      fc.property(fc.array(move, { minLength: 1, maxLength: 40 }), (moves) => {
        const work = run(moves);
        const { job, undo } = work.state;
        for (let i = 0; i < 5; i++) work.session.cancel();
        expect(work.state.job).toBe(job);
        expect(work.state.undo).toBe(undo);
        expect(work.state).toMatchObject({ busy: false, preview: null, selection: null, tool: { tool: "edit" } });
      }),
      { numRuns: 100 },
    );
  });

  it("never leaves a selection, a sheet or a tool without its record", () => {
    fc.assert(
      fc.property(fc.array(move, { minLength: 1, maxLength: 60 }), (moves) => {
        const { state, session } = run(moves);
        const { selection, job, sheet, viewport } = state;
        if (selection && "table" in selection) expect(job[selection.table]).toHaveProperty([selection.id]);
        expect(sheet).not.toBeNull();
        expect(job.viewports[viewport ?? ""]?.sheet).toBe(sheet);
        for (const item of session.draft())
          if (item.type === "path")
            expect(item.steps.flat().every((n) => typeof n === "string" || Number.isFinite(n))).toBe(true);
      }),
      { numRuns: 100 },
    );
  });
});
