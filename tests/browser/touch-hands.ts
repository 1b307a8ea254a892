import type { CDPSession, Page } from "playwright-core";
import type { Place } from "./desk.ts";

/** A finger on the screen: where, CSS pixels of the window, and the radius of its contact. */
interface Finger {
  readonly at: Place;
  readonly radius?: number;
}

/** Drives a page with fingers and a pen, as the browser gets them from a screen (the protocol of its developer tools). */
export class TouchHands {
  readonly #cdp: CDPSession;
  #down: readonly Finger[] = [];

  private constructor(cdp: CDPSession) {
    this.#cdp = cdp;
  }

  static async of(page: Page): Promise<TouchHands> {
    return new TouchHands(await page.context().newCDPSession(page));
  }

  /** Puts fingers down beside those that are down already; numbered in the order they came. */
  async press(...fingers: readonly Finger[]): Promise<void> {
    this.#down = [...this.#down, ...fingers];
    await this.#send("touchStart");
  }

  /** Moves the fingers that are down, in the order they came, in a few steps. */
  async move(...to: readonly Place[]): Promise<void> {
    const from = this.#down;
    for (let step = 1; step <= 4; step++) {
      this.#down = from.map((finger, i) => {
        const [x, y] = to[i] ?? finger.at;
        const part = (a: number, b: number) => a + ((b - a) * step) / 4;
        return { ...finger, at: [part(finger.at[0], x), part(finger.at[1], y)] };
      });
      await this.#send("touchMove");
    }
  }

  async lift(): Promise<void> {
    if (this.#down.length === 0) return;
    this.#down = [];
    await this.#send("touchEnd");
  }

  async tap(at: Place, radius?: number): Promise<void> {
    await this.press({ at, ...(radius === undefined ? {} : { radius }) });
    await this.lift();
  }

  /** The pen, hovering unless it is pressed. */
  async pen(type: "mousePressed" | "mouseMoved" | "mouseReleased", [x, y]: Place, pressed = false): Promise<void> {
    const button = type === "mouseMoved" && !pressed ? "none" : "left";
    const buttons = type === "mousePressed" || pressed ? 1 : 0;
    await this.#cdp.send("Input.dispatchMouseEvent", {
      type,
      x,
      y,
      button,
      buttons,
      clickCount: 1,
      pointerType: "pen",
    });
  }

  async #send(type: "touchStart" | "touchMove" | "touchEnd"): Promise<void> {
    await this.#cdp.send("Input.dispatchTouchEvent", {
      type,
      touchPoints: this.#down.map(({ at: [x, y], radius = 8 }, id) => ({ x, y, id, radiusX: radius, radiusY: radius })),
    });
  }
}
