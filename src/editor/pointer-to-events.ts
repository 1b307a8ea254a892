import { distance2, type Point2 } from "../geometry/point.ts";
import type { Driver } from "./driver.ts";
import type { ToolPointer } from "./tool-event.ts";

/** Turns what a pointer does into clicks and drags for the tool in hand. */
export class PointerToEvents {
  readonly #driver: Driver;
  /** `aims`: held still, it puts its point where it is lifted. */
  #press: { readonly at: Point2; moved: boolean; readonly taken: boolean; readonly aims?: true } | undefined;

  constructor(driver: Driver) {
    this.#driver = driver;
  }

  take(event: ToolPointer): "taken" | "pan" {
    const driver = this.#driver;
    driver.reach = event.reach;
    switch (event.phase) {
      case "down":
        return this.#down(event);
      case "hold":
        this.#hold(event);
        break;
      case "move":
        this.#move(event);
        break;
      case "up":
        this.#up(event);
        break;
      case "double":
        driver.feed({ is: "finish" });
        break;
      case "leave":
        if (!this.#press)
          driver.patch({ aim: driver.state.crosshair ? driver.aimAt(driver.state.crosshair, event) : null });
        break;
      case "cancel":
        if (this.#press?.taken) driver.feed({ is: "release" });
        if (this.#press?.aims) driver.patch({ aim: null });
        this.#press = undefined;
        break;
    }
    return this.#press?.taken ? "taken" : "pan";
  }

  #down(event: ToolPointer): "taken" | "pan" {
    const driver = this.#driver;
    driver.settle();
    driver.patch({ crosshair: null, aim: driver.aimAt(event.at, event) });
    const { used } = driver.feed({ ...held(event), is: "grab", at: event.at, ...markOf(event) });
    const taken = used !== false && driver.state.busy;
    this.#press = { at: event.at, moved: false, taken };
    return taken ? "taken" : "pan";
  }

  #hold(event: ToolPointer): void {
    const press = this.#press;
    if (!press || press.taken) return;
    this.#press = { ...press, aims: true };
    this.#driver.patch({ aim: this.#driver.aimAt(event.at, event) });
  }

  #move(event: ToolPointer): void {
    const driver = this.#driver;
    const press = this.#press;
    if (press?.aims) {
      driver.patch({ aim: driver.aimAt(event.at, event) });
      return;
    }
    if (press && !press.moved) press.moved = distance2(press.at, event.at) > event.reach / 2;
    if (press && !press.taken) return;
    if (press && !press.moved) return;
    const aim = driver.aimAt(event.at, event);
    if (press) driver.feed({ ...held(event), is: "drag", at: aim.at });
    driver.patch({ aim, crosshair: null });
  }

  #up(event: ToolPointer): void {
    const driver = this.#driver;
    const press = this.#press;
    this.#press = undefined;
    if (!press) return;
    if (press.aims) {
      this.#put(event);
    } else if (press.taken && press.moved) {
      driver.feed({ ...held(event), is: "drop", at: driver.aimAt(event.at, event).at });
    } else if (!press.moved) {
      if (press.taken) driver.feed({ is: "release" });
      const aim = driver.aimAt(event.at, event);
      driver.feed({ ...held(event), is: "point", at: aim.at, ...markOf(event) });
    }
  }

  /** The point of a press that aimed. The crosshair stays there, since no pointer hovers: what is typed or moved by keys next counts from it. */
  #put(event: ToolPointer): void {
    const driver = this.#driver;
    const { sheet } = driver.state;
    const { at } = driver.aimAt(event.at, event);
    driver.feed({ ...held(event), is: "point", at, ...markOf(event) });
    if (driver.state.sheet === sheet) driver.patch({ crosshair: at, aim: driver.aimAt(at, event) });
  }
}

const held = ({ shift, alt, ctrl }: ToolPointer) => ({ shift, alt, ctrl });
const markOf = ({ mark }: ToolPointer) => (mark === undefined ? {} : { mark });
