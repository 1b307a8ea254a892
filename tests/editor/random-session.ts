import { expect } from "vitest";
import { ACTS } from "../../src/editor/acts.ts";
import { createSession } from "../../src/editor/create-session.ts";
import type { DrawnLines } from "../../src/editor/drawn-lines.ts";
import { outlineOf } from "../../src/editor/handles.ts";
import type { DrawnNote, DrawnTag, DrawnWords } from "../../src/editor/said/drawn-words.ts";
import { selectionOf } from "../../src/editor/selection.ts";
import type { Session, SessionState } from "../../src/editor/session.ts";
import type { ToolPointer } from "../../src/editor/tool-event.ts";
import { TOOL_NAMES } from "../../src/editor/tools/tools.ts";
import { ASK_WORDS } from "../../src/editor/words.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import type { Edit } from "../../src/job/edit.ts";
import type { Id } from "../../src/job/fields.ts";
import { jobText, parseJobText } from "../../src/job/parse-job.ts";
import type { Job, TableName } from "../../src/job/schema.ts";
import { elevationsIn } from "../../src/pdf/read/elevation-tags.ts";
import { runNoteIn } from "../../src/pdf/read/run-notes.ts";
import { radians, sheetUnits } from "../../src/units/quantity.ts";
import { NOTHING_FOUND } from "./at-work.ts";
import { Chance } from "./chance.ts";
import { Anything, EDITS } from "./random-edits.ts";

const HELD = { shift: false, alt: false, ctrl: false };
const TABLES = (job: Job) =>
  Object.entries(job).filter(([, table]) => typeof table === "object") as [TableName, Record<Id, object>][];

/** A sheet on which a square is drawn wherever somebody looks, and a line with a corner. */
const LINES: DrawnLines = {
  place: () => null,
  follow: ([x, y]) => ({
    vertices: [
      [x, y],
      [x + 100, y],
      [x + 100, y + 50],
    ],
    closed: false,
    bridged: [],
    stops: ["end", "branch"],
    branches: [{ at: [x + 100, y + 50], towards: [x + 150, y + 50], segment: 1 }],
  }),
  goAlong: ({ at, towards }) => ({
    vertices: [at, towards],
    closed: false,
    bridged: [],
    stops: ["branch", "end"],
    branches: [],
  }),
  region: ([x, y]) => ({
    found: true,
    openings: 0,
    outline: [
      [x - 20, y - 20],
      [x + 20, y - 20],
      [x + 20, y + 20],
      [x - 20, y + 20],
    ],
  }),
};

/** What the drawing says beside whatever is traced at the time. */
function wordsBeside(job: Job): DrawnWords {
  const said = Object.values(job.elements).slice(0, 8);
  const standing = said.map((element, i) => {
    const [x, y] = outlineOf("elements", element).vertices[0]!;
    const text = i % 2 === 0 ? `C.L. 1${i}'-6" AFF` : `3/4" EMT`;
    const run = { text, at: [x + 5, y + 4] as Point2, angle: radians(0), height: sheetUnits(8), width: sheetUnits(60) };
    const line = { at: [x, y] as Point2, ambiguous: false, byLeader: false };
    return { run, text, more: { above: null, heads: false, line } };
  });
  return {
    tags: standing.flatMap(({ run, more }) => elevationsIn(run).map((tag): DrawnTag => ({ ...tag, ...more }))),
    notes: standing.flatMap(({ run, more }): DrawnNote[] => {
      const note = runNoteIn(run);
      return note ? [{ ...note, ...more, several: false }] : [];
    }),
    scales: [],
    text: "there",
  };
}

/**
 * Somebody who does whatever comes to mind: every act there is, every tool with points, keys and typed words, every kind of edit, taking back
 * and doing again. Holds the session all the while to what undo promises: the job is, record by record the same objects, what it was when the
 * last of what is done was done; an edit leaves every record alone that it does not name and changes none in
 * place; and every job can be written and read.
 */
export class RandomSession {
  readonly session: Session;
  readonly chance: Chance;
  /** How often each act, tool and kind of edit came to something. */
  readonly came = new Map<string, number>();
  readonly first: Job;
  readonly #after = new WeakMap<Edit, Job>();
  #ids = 0;

  constructor(job: Job, seed: number) {
    this.first = frozen(job);
    this.chance = new Chance(seed);
    this.session = createSession({ job, newId: this.#newId, check: () => NOTHING_FOUND });
    this.session.setView({ unitsPerPixel: 1, centre: [400, 300] });
    this.session.subscribe((state, before) => this.#watch(state, before));
  }

  readonly #newId = (): Id => `new-${++this.#ids}`;

  get state(): SessionState {
    return this.session.getState();
  }

  /** Does things until so many edits are done. Throws where so many steps do not get there. */
  until(edits: number): void {
    for (let step = 0; this.state.undo.length < edits; step++) {
      if (step > 60 * edits) throw new Error(`only ${this.state.undo.length} edits in ${step} steps`);
      this.step();
      this.hold();
    }
    for (let i = 0; i < 6; i++) this.session.cancel();
    while (this.state.undo.length > edits) this.session.undo();
    this.hold();
  }

  /** The job is what it was after the last of what is done, the very same records. */
  hold(): void {
    const { job, undo } = this.state;
    const last = undo.at(-1);
    const was = last ? this.#after.get(last) : this.first;
    if (!was) throw new Error(`${last?.name} was done unseen`);
    if (was !== job) expect(othersThan(was, job, [])).toEqual([]);
  }

  #watch(state: SessionState, before: SessionState): void {
    if (state.job === before.job) return;
    const edit = state.undo.at(-1);
    const done = state.undo.length === before.undo.length + 1 && state.redo.length === 0;
    if (!edit || !done) return;
    if (!this.#after.has(edit)) this.#after.set(edit, frozen(state.job));
    expect(edit.name).not.toBe("");
    expect(othersThan(before.job, state.job, edit.changes), edit.name).toEqual([]);
    const read = parseJobText(jobText(state.job));
    expect(read.ok ? [] : read.problems, edit.name).toEqual([]);
  }

  /** One thing a person may do. */
  step(): void {
    const { chance } = this;
    const way = chance.upTo(20);
    if (way < 4) this.#edit();
    else if (way < 8) this.#act();
    else if (way < 13) this.#point();
    else if (way < 15) this.#type();
    else if (way < 17) this.#select();
    else if (way < 18) this.#key();
    else this.#other();
  }

  #counted(what: string, work: () => void): void {
    const { length } = this.state.undo;
    work();
    if (this.state.undo.length > length) this.came.set(what, (this.came.get(what) ?? 0) + 1);
  }

  #anything = (): Anything => new Anything(this.state.job, this.chance, this.#newId);

  #edit(): void {
    const name = this.chance.of(Object.keys(EDITS));
    this.#counted(name, () => {
      const made = EDITS[name]!(this.#anything());
      if (made && "ok" in made) this.session.attempt(made);
      else if (made) this.session.commit(made);
    });
  }

  #act(): void {
    const able = ACTS.filter((act) => act.enabled(this.state));
    if (able.length === 0) return;
    const act = this.chance.of(able);
    this.#counted(act.id, () => act.run(this.session));
  }

  #pointer(phase: ToolPointer["phase"], at: Point2, held = HELD): void {
    this.session.pointer({ ...held, phase, at, reach: 8 });
  }

  #point(): void {
    const { chance } = this;
    const held = { ...HELD, alt: chance.oneIn(6), shift: chance.oneIn(6) };
    const [at, to] = [this.#anything().place(), this.#anything().place()];
    const way: Point2[] = [[(at[0] + to[0]) / 2, (at[1] + to[1]) / 2], to];
    this.#counted(this.state.tool.tool, () => {
      this.#pointer("move", at, held);
      this.#pointer("down", at, held);
      if (chance.oneIn(2)) for (const place of way) this.#pointer("move", place, held);
      this.#pointer(chance.oneIn(9) ? "cancel" : "up", chance.oneIn(2) ? at : to, held);
      if (chance.oneIn(6)) this.#pointer("double", at);
    });
  }

  #type(): void {
    const { asks } = this.state;
    if (asks.length === 0) return;
    const { example } = ASK_WORDS[this.chance.of(asks)];
    const [x, y] = this.#anything().place();
    const text = this.chance.oneIn(5)
      ? this.chance.of(["0", "nonsense", "", "3 times"])
      : this.chance.oneIn(4)
        ? `@${x}, ${y}`
        : example;
    this.#counted(this.state.tool.tool, () => this.session.typed(text));
    if (this.chance.oneIn(3)) this.#counted(this.state.tool.tool, () => this.session.finish());
  }

  #select(): void {
    const any = this.#anything();
    const { chance } = this;
    if (chance.oneIn(3)) {
      this.session.select(selectionOf(any.picked()));
      return;
    }
    const [table, id, vertex] = any.shaped();
    if (!Object.hasOwn(this.state.job[table], id)) return;
    this.session.select({ table, id, ...(chance.oneIn(2) ? { vertex } : {}) });
  }

  #key(): void {
    const keys = [
      "Enter",
      "Enter",
      "Escape",
      "Backspace",
      "Delete",
      " ",
      ".",
      ",",
      "i",
      "a",
      "ArrowUp",
      "ArrowRight",
      "s",
    ];
    const named = ACTS.flatMap(({ key = "" }) => (key.length === 1 ? [key] : []));
    const key = this.chance.of(this.chance.oneIn(4) ? named : keys);
    const held = { ...HELD, shift: key !== key.toLowerCase() && key.length === 1, alt: this.chance.oneIn(12) };
    this.#counted(this.state.tool.tool, () => this.session.key({ ...held, key }));
  }

  #other(): void {
    const { chance, session } = this;
    const { sheet, job } = this.state;
    switch (chance.upTo(6)) {
      case 0: {
        const some = 1 + chance.upTo(12);
        for (let i = 0; i < some; i++) session.undo();
        this.hold();
        for (let i = chance.upTo(some + 1); i > 0; i--) session.redo();
        break;
      }
      case 1:
        session.setSheet(this.#anything().id("sheets"));
        break;
      case 2:
        if (sheet !== null) session.setWords(sheet, wordsBeside(job));
        break;
      case 3:
        session.assume({ basis: "centre", datum: { from: "project" }, type: "emt", deckBasis: "top-of-steel" });
        break;
      case 4:
        if (sheet !== null) session.setDrawn(sheet, LINES);
        break;
      default:
        session.start({ tool: chance.of(TOOL_NAMES) } as Parameters<Session["start"]>[0]);
    }
  }
}

/** The same object, in which nothing can be changed in place any more: whoever tries throws. */
function frozen<T extends object>(value: T): T {
  if (Object.isFrozen(value)) return value;
  Object.freeze(value);
  for (const inner of Object.values(value)) if (typeof inner === "object" && inner !== null) frozen(inner);
  return value;
}

/** The records that differ between two jobs, as objects, though no change names them. */
function othersThan(before: Job, after: Job, changes: Edit["changes"]): string[] {
  const named = new Set(changes.map(({ table, id }) => `${table}/${id}`));
  return TABLES(after).flatMap(([table, records]) => {
    const old = before[table] as Record<Id, object>;
    if (old === records) return [];
    return [...new Set([...Object.keys(old), ...Object.keys(records)])]
      .filter((id) => old[id] !== records[id] && !named.has(`${table}/${id}`))
      .map((id) => `${table}/${id}`);
  });
}
