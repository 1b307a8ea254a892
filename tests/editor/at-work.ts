import type { CheckResult } from "../../src/check/finding.ts";
import { createSession } from "../../src/editor/create-session.ts";
import type { Session, SessionOptions } from "../../src/editor/session.ts";
import type { ToolPointer } from "../../src/editor/tool-event.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { jobText } from "../../src/job/parse-job.ts";
import type { Job } from "../../src/job/schema.ts";
import { applyChecked } from "../job/apply-checked.ts";

/** The result of a check that found nothing. */
export const NOTHING_FOUND: CheckResult = {
  findings: [],
  counts: {
    concealed: 0,
    "entry-unprotected": 0,
    "too-close": 0,
    "cannot-tell": 0,
    borderline: 0,
    clear: 0,
    "not-governed": 0,
  },
  notices: [],
  advisories: [],
};

const HELD = { shift: false, alt: false, ctrl: false };
type Held = Partial<typeof HELD>;

/** A session with a hand on it; every edit it makes is held to what edits promise. */
export class AtWork {
  readonly session: Session;
  readonly checked: Job[] = [];

  constructor(job: Job, options: Partial<SessionOptions> = {}) {
    let ids = 0;
    this.session = createSession({
      job,
      newId: () => `new-${++ids}`,
      check: (one) => {
        this.checked.push(one);
        return NOTHING_FOUND;
      },
      ...options,
    });
    this.session.setView({ unitsPerPixel: 1, centre: [800, 600] });
    this.session.subscribe((state, before) => {
      if (state.undo.length === before.undo.length + 1 && state.redo.length === 0)
        applyChecked(before.job, state.undo.at(-1)!);
    });
  }

  get state() {
    return this.session.getState();
  }

  get text(): string {
    return jobText(this.state.job);
  }

  pointer(phase: ToolPointer["phase"], at: Point2, held: Held = {}) {
    return this.session.pointer({ ...HELD, ...held, phase, at, reach: 8 });
  }

  click(at: Point2, held: Held = {}): void {
    this.pointer("move", at, held);
    this.pointer("down", at, held);
    this.pointer("up", at, held);
  }

  doubleClick(at: Point2): void {
    this.click(at);
    this.click(at);
    this.pointer("double", at);
  }

  /** Presses at the first point and moves through the others; lets go at the last unless told to keep holding. */
  drag(points: readonly Point2[], held: Held & { readonly hold?: boolean } = {}): void {
    this.pointer("down", points[0]!, held);
    for (const at of points.slice(1)) this.pointer("move", at, held);
    if (!held.hold) this.pointer("up", points.at(-1)!, held);
  }

  /** Keys by name, separated by spaces: "ArrowRight Shift+ArrowUp Enter"; the space bar is "Space". Whether the last meant something. */
  keys(names: string): boolean {
    let used = false;
    for (const name of names.split(" ")) {
      const parts = name.split("+");
      const key = parts.at(-1)!;
      used = this.session.key({
        key: key === "Space" ? " " : key,
        shift: parts.includes("Shift"),
        alt: parts.includes("Alt"),
        ctrl: parts.includes("Ctrl"),
      });
    }
    return used;
  }

  /** Types a text; fails the test when it is refused. */
  type(text: string): void {
    const result = this.session.typed(text);
    if (!result.ok) throw new Error(`"${text}" refused: ${JSON.stringify(result.problems)}`);
  }

  /** The code of the notice shown, or null. */
  get notice(): string | null {
    return this.state.notice?.code ?? null;
  }
}
