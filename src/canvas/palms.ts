/** A touch wider or higher than this is a hand that rests on the screen, CSS pixels: some 16 mm, where a finger tip has 7 to 12. */
const BROAD = 60;
/** A pen that has said nothing for so long is not near any more, milliseconds: one that leaves does not always say so. */
const PEN_STAYS_MS = 1000;

/** What of a pointer event tells a hand from a finger; a PointerEvent is one. `timeStamp` in milliseconds, `width` and `height` in CSS pixels. */
export interface Contact {
  readonly pointerId: number;
  readonly pointerType: string;
  readonly width: number;
  readonly height: number;
  readonly timeStamp: number;
}

/** Tells fingers that mean something from a hand that rests on the screen: a broad touch, or any touch while a pen is at work or near. */
export class Palms {
  /** Touches that count as no finger until they are lifted, however small they become. */
  readonly #ignored = new Set<number>();
  #pen: { readonly down: boolean; readonly heard: number } | undefined;

  /** A pen was heard of: touching, hovering, or going away. */
  pen(is: "down" | "near" | "away", { timeStamp: heard }: Pick<Contact, "timeStamp">): void {
    if (is === "away") this.#pen = undefined;
    // A hovering pen under the same hand as one that touches is the one that touches.
    else this.#pen = { down: is === "down", heard };
  }

  /** Whether this touch is of a hand; once it is, it stays so until `lifted`. Never true of a mouse or a pen. */
  has(contact: Contact): boolean {
    if (contact.pointerType !== "touch") return false;
    if (this.#ignored.has(contact.pointerId)) return true;
    const pen = this.#pen;
    const penNear = pen !== undefined && (pen.down || contact.timeStamp - pen.heard <= PEN_STAYS_MS);
    const broad = contact.width > BROAD || contact.height > BROAD;
    if (penNear || broad) this.#ignored.add(contact.pointerId);
    return penNear || broad;
  }

  /** Counts a touch as of a hand, whatever it looks like: it lay there before the pen came. */
  ignore(pointerId: number): void {
    this.#ignored.add(pointerId);
  }

  /** The touch ended; true when it was of a hand. */
  lifted(pointerId: number): boolean {
    return this.#ignored.delete(pointerId);
  }
}
