import type { Point2 } from "../geometry/point.ts";
import { Palms } from "./palms.ts";

/** What a pointer does over the view; positions in CSS pixels of the view. */
export interface PointerNews {
  /** "hold": a finger or pen that went down has been held still; from then on it moves nothing but the aim, and its "up" follows. */
  readonly kind: "down" | "hold" | "move" | "up" | "double" | "cancel" | "hover-end";
  readonly at: Point2;
  /** The button that goes down or up, or is held while moving; -1 when none is. */
  readonly button: number;
  readonly shift: boolean;
  readonly alt: boolean;
  readonly ctrl: boolean;
  readonly pointerType: string;
}

/** Who hears of it. */
export interface PointerListener {
  /** Answers what a drag that starts with this "down" does; the answer to other kinds is not used. */
  pointer(news: PointerNews): "taken" | "pan";
  /** With `held`, a button or finger is down and `rest` will follow; without, nobody can say whether more comes. */
  pan(dx: number, dy: number, held: boolean): void;
  zoom(factor: number, about: Point2, held: boolean): void;
  /** A gesture with something held down is over. */
  rest(): void;
}

/** A press that moves no farther than this is a click, CSS pixels, by kind of pointer. */
const CLICK_SLOP: Readonly<Record<string, number>> = { mouse: 4, pen: 6, touch: 10 };
/** A finger or pen held still for so long aims, milliseconds. */
const HOLD_MS = 500;
/** Zoom for one pixel of the wheel; a notch of 100 px is a factor of 1.22. */
const ZOOM_PER_PIXEL = 0.002;
/** A touchpad's pinch comes as small wheel steps with the control key down. */
const ZOOM_PER_PINCH_PIXEL = 0.01;

type Drag =
  | { readonly mode: "tool"; readonly id: number; readonly button: number }
  | { readonly mode: "maybe-pan"; readonly id: number; readonly button: number; readonly from: Point2 }
  | { readonly mode: "pan"; readonly id: number; at: Point2 }
  | { readonly mode: "pinch"; readonly ids: readonly [number, number] };

/**
 * Turns pointer, wheel and space bar into what a tool hears and how the view moves: the wheel zooms about the pointer,
 * the middle button, the space bar and two fingers move the sheet, two fingers also zoom. One finger or the pen moves it
 * too, unless a tool takes the drag or it was held still first. A hand that rests on the screen does nothing.
 */
export class PointerInput {
  readonly #host: HTMLElement;
  readonly #listener: PointerListener;
  readonly #stop = new AbortController();
  /** Fingers and pens that are down, with their last place. */
  readonly #down = new Map<number, Point2>();
  readonly #palms = new Palms();
  /** Those of `#down` that are fingers. */
  readonly #fingers = new Set<number>();
  #drag: Drag | undefined;
  #holding: ReturnType<typeof setTimeout> | undefined;
  /** The last that went down was a hand: a double click it makes is none. */
  #handLast = false;
  #space = false;
  #inside = false;

  constructor(host: HTMLElement, listener: PointerListener) {
    this.#host = host;
    this.#listener = listener;
    host.style.touchAction = "none";
    host.style.userSelect = "none";
    const { signal } = this.#stop;
    host.addEventListener("pointerdown", (event) => this.#pressed(event), { signal });
    host.addEventListener("pointermove", (event) => this.#moved(event), { signal });
    host.addEventListener("pointerup", (event) => this.#released(event), { signal });
    host.addEventListener("pointercancel", (event) => this.#broken(event), { signal });
    host.addEventListener("lostpointercapture", (event) => this.#broken(event), { signal });
    host.addEventListener("pointerleave", (event) => this.#left(event), { signal });
    host.addEventListener("dblclick", (event) => this.#handLast || this.#tell("double", event, event.button), {
      signal,
    });
    // A pen over the card or the job line is near the sheet too, and its hand lies where it likes.
    for (const type of ["pointerdown", "pointermove", "pointerup", "pointercancel", "pointerout"] as const)
      window.addEventListener(type, (event) => this.#heardPen(event), { signal, capture: true });
    host.addEventListener("wheel", (event) => this.#wheel(event), { signal, passive: false });
    host.addEventListener("contextmenu", (event) => event.preventDefault(), { signal });
    // The middle button would start the browser's own scrolling.
    host.addEventListener("mousedown", (event) => event.button === 1 && event.preventDefault(), { signal });
    window.addEventListener("keydown", (event) => this.#spaceBar(event, true), { signal });
    window.addEventListener("keyup", (event) => this.#spaceBar(event, false), { signal });
    window.addEventListener("blur", () => this.#releaseSpace(), { signal });
  }

  destroy(): void {
    this.#stop.abort();
    clearTimeout(this.#holding);
  }

  #heardPen(event: PointerEvent): void {
    if (event.pointerType !== "pen") return;
    const gone = event.type === "pointercancel" || (event.type === "pointerout" && event.relatedTarget === null);
    if (gone) this.#palms.pen("away", event);
    else if (event.type !== "pointerout") {
      this.#palms.pen(event.type !== "pointerup" && event.buttons !== 0 ? "down" : "near", event);
      // The hand was there before its pen.
      for (const id of [...this.#fingers]) this.#isHand(id, event);
    }
  }

  /** A finger turns out to be a hand: what it began is called off. */
  #isHand(id: number, event: PointerEvent): void {
    this.#palms.ignore(id);
    this.#forget(id);
    const drag = this.#drag;
    if (!drag || (drag.mode === "pinch" ? !drag.ids.includes(id) : drag.id !== id)) return;
    this.#endDrag();
    if (drag.mode === "tool" || drag.mode === "maybe-pan") this.#tell("cancel", event, -1);
  }

  /** Whether it was down. */
  #forget(id: number): boolean {
    this.#fingers.delete(id);
    return this.#down.delete(id);
  }

  #pressed(event: PointerEvent): void {
    this.#handLast = this.#palms.has(event);
    if (this.#handLast) return;
    const at = this.#place(event);
    this.#down.set(event.pointerId, at);
    if (event.pointerType === "touch") this.#fingers.add(event.pointerId);
    this.#host.setPointerCapture(event.pointerId);
    if (event.pointerType === "touch" && this.#down.size === 2) {
      clearTimeout(this.#holding);
      if (this.#drag?.mode === "tool" || this.#drag?.mode === "maybe-pan") this.#tell("cancel", event, -1);
      const [a, b] = [...this.#down.keys()] as [number, number];
      this.#drag = { mode: "pinch", ids: [a, b] };
      return;
    }
    if (this.#drag) return;
    if (event.button === 1 || (event.button === 0 && this.#space)) {
      this.#drag = { mode: "pan", id: event.pointerId, at };
      this.#host.style.cursor = "grabbing";
      return;
    }
    const taken = this.#tell("down", event, event.button) === "taken" || event.button !== 0;
    const { pointerId: id, button } = event;
    this.#drag = taken ? { mode: "tool", id, button } : { mode: "maybe-pan", id, button, from: at };
    if (event.pointerType !== "mouse") this.#holding = setTimeout(() => this.#held(event), HOLD_MS);
  }

  /** Held still where it went down: it aims now, and moves the sheet no more. */
  #held(press: PointerEvent): void {
    const drag = this.#drag;
    if ((drag?.mode !== "maybe-pan" && drag?.mode !== "tool") || drag.id !== press.pointerId) return;
    this.#drag = { mode: "tool", id: press.pointerId, button: press.button };
    this.#tell("hold", press, press.button);
  }

  #moved(event: PointerEvent): void {
    if (this.#palms.has(event)) {
      // It has become broad while it lay there.
      if (this.#fingers.has(event.pointerId)) this.#isHand(event.pointerId, event);
      return;
    }
    const at = this.#place(event);
    this.#inside = true;
    const before = this.#down.get(event.pointerId);
    if (before) this.#down.set(event.pointerId, at);
    const drag = this.#drag;
    if (!drag) {
      this.#tell("move", event, -1);
    } else if (drag.mode === "pinch") {
      if (before) this.#pinch(drag.ids, event.pointerId, before, at);
    } else if (drag.id !== event.pointerId) {
      return;
    } else if (drag.mode === "tool") {
      clearTimeout(this.#holding);
      this.#tell("move", event, drag.button);
    } else if (drag.mode === "pan") {
      this.#listener.pan(at[0] - drag.at[0], at[1] - drag.at[1], true);
      drag.at = at;
    } else if (Math.hypot(at[0] - drag.from[0], at[1] - drag.from[1]) > (CLICK_SLOP[event.pointerType] ?? 4)) {
      clearTimeout(this.#holding);
      this.#tell("cancel", event, drag.button);
      this.#listener.pan(at[0] - drag.from[0], at[1] - drag.from[1], true);
      this.#drag = { mode: "pan", id: drag.id, at };
      this.#host.style.cursor = "grabbing";
    }
  }

  #pinch(ids: readonly [number, number], moved: number, before: Point2, at: Point2): void {
    const other = this.#down.get(ids[0] === moved ? ids[1] : ids[0]);
    if (!other || !ids.includes(moved)) return;
    this.#listener.pan((at[0] - before[0]) / 2, (at[1] - before[1]) / 2, true);
    const apart = Math.hypot(at[0] - other[0], at[1] - other[1]);
    const was = Math.hypot(before[0] - other[0], before[1] - other[1]);
    if (was > 8 && apart > 8) this.#listener.zoom(apart / was, [(at[0] + other[0]) / 2, (at[1] + other[1]) / 2], true);
  }

  #released(event: PointerEvent): void {
    if (this.#palms.lifted(event.pointerId)) return;
    this.#forget(event.pointerId);
    const drag = this.#drag;
    if (!drag) return;
    if (drag.mode === "pinch") {
      // The finger that stays does nothing more: a lift of two fingers never lands in a tool.
      if (this.#down.size === 0) this.#endDrag();
    } else if (drag.id === event.pointerId) {
      this.#endDrag();
      if (drag.mode !== "pan") this.#tell("up", event, drag.button);
    }
  }

  #broken(event: PointerEvent): void {
    if (event.type === "pointercancel" && this.#palms.lifted(event.pointerId)) return;
    if (!this.#forget(event.pointerId)) return;
    const drag = this.#drag;
    if (
      !drag ||
      (drag.mode === "pinch" && this.#down.size > 0) ||
      (drag.mode !== "pinch" && drag.id !== event.pointerId)
    )
      return;
    this.#endDrag();
    if (drag.mode === "tool" || drag.mode === "maybe-pan") this.#tell("cancel", event, drag.button);
  }

  #endDrag(): void {
    clearTimeout(this.#holding);
    const moved = this.#drag?.mode === "pan" || this.#drag?.mode === "pinch";
    this.#drag = undefined;
    this.#host.style.cursor = this.#space ? "grab" : "";
    if (moved) this.#listener.rest();
  }

  #left(event: PointerEvent): void {
    if (event.pointerType === "touch" && this.#handLast) return;
    this.#inside = false;
    if (!this.#drag) this.#tell("hover-end", event, -1);
  }

  #wheel(event: WheelEvent): void {
    event.preventDefault();
    const line =
      event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 33 : event.deltaMode === WheelEvent.DOM_DELTA_PAGE ? 300 : 1;
    if (event.shiftKey) {
      this.#listener.pan(-(event.deltaX || event.deltaY) * line, 0, false);
      return;
    }
    const rate = event.ctrlKey ? ZOOM_PER_PINCH_PIXEL : ZOOM_PER_PIXEL;
    const turn = Math.min(300, Math.max(-300, event.deltaY * line));
    this.#listener.zoom(Math.exp(-turn * rate), this.#place(event), false);
  }

  #spaceBar(event: KeyboardEvent, down: boolean): void {
    if (event.code !== "Space") return;
    if (!down) {
      this.#releaseSpace();
      return;
    }
    // Elsewhere the space bar types or presses what has the focus. What takes it for itself stops it from coming here.
    const free =
      event.target instanceof Node && (event.target.contains(this.#host) || this.#host.contains(event.target));
    if (!this.#inside || !free) return;
    event.preventDefault();
    this.#space = true;
    if (!this.#drag) this.#host.style.cursor = "grab";
  }

  #releaseSpace(): void {
    if (!this.#space) return;
    this.#space = false;
    if (!this.#drag) this.#host.style.cursor = "";
  }

  #place(event: MouseEvent): Point2 {
    const box = this.#host.getBoundingClientRect();
    return [event.clientX - box.left, event.clientY - box.top];
  }

  #tell(kind: PointerNews["kind"], event: MouseEvent, button: number): "taken" | "pan" {
    return this.#listener.pointer({
      kind,
      at: this.#place(event),
      button,
      shift: event.shiftKey,
      alt: event.altKey,
      ctrl: event.ctrlKey || event.metaKey,
      pointerType: event instanceof PointerEvent ? event.pointerType : "mouse",
    });
  }
}
