import type { Point2 } from "../geometry/point.ts";

/** Keys held while something happens; `ctrl` is Control or Command. */
export interface Held {
  readonly shift: boolean;
  readonly alt: boolean;
  readonly ctrl: boolean;
}

/** What a pointer does on the sheet, as the sheet view delivers it. */
export interface ToolPointer extends Held {
  /**
   * `hold` when what went down is held still and aims from now on; `leave` when the pointer leaves the sheet; `cancel` when the browser
   * takes the gesture away (a second finger, for instance).
   */
  readonly phase: "down" | "hold" | "move" | "up" | "double" | "leave" | "cancel";
  /** Where, in sheet space of the sheet that is shown. */
  readonly at: Point2;
  /** How near counts as on something, in sheet units: a few pixels of the present view. */
  readonly reach: number;
  /** Key of the mark under the pointer, null for none; left out, the session looks for itself. */
  readonly mark?: string | null;
}

/** A key pressed while the sheet has the focus; `key` as in KeyboardEvent.key. */
export interface ToolKey extends Held {
  readonly key: string;
}

/** What a tool is told: clicks, drags, keys and typed text, already snapped and free of devices. */
export type ToolEvent =
  /** A point is put there: a click, Enter or Space at the crosshair, or a typed position. */
  | ({ readonly is: "point"; readonly at: Point2; readonly mark?: string | null } & Held)
  /** The pointer went down and is being held; nothing is decided yet. */
  | ({ readonly is: "grab"; readonly at: Point2; readonly mark?: string | null } & Held)
  | ({ readonly is: "drag"; readonly at: Point2 } & Held)
  | ({ readonly is: "drop"; readonly at: Point2 } & Held)
  /** Escape, or a gesture broken off: everything half done goes back to where it was. */
  | { readonly is: "release" }
  /** Enter without a new place, or a double click: that was all. */
  | { readonly is: "finish" }
  /** Backspace: take back the last point. */
  | { readonly is: "back" }
  /** Text that is not a position: a distance, an elevation, a tag, a slope, a label. */
  | { readonly is: "typed"; readonly text: string }
  /** Any other key. */
  | ({ readonly is: "key"; readonly key: string } & Held);
