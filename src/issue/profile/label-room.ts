/** A rectangle of a picture: lower left x and y, upper right x and y. */
export type LabelBox = readonly [x0: number, y0: number, x1: number, y1: number];

/** Between two labels, picture units. */
const APART = 3;

/** Where the words of a picture stand, so that none are set over others. */
export class LabelRoom {
  readonly #taken: LabelBox[] = [];

  /** Keeps words off a place. */
  keepOff(place: LabelBox): void {
    this.#taken.push(place);
  }

  /** Takes the first of the places that lies within the bounds and is free; undefined where none is. */
  take(places: readonly LabelBox[], [left, low, right, high]: LabelBox): LabelBox | undefined {
    const free = places.find(
      (place) => place[0] >= left && place[1] >= low && place[2] <= right && place[3] <= high && this.#isFree(place),
    );
    if (free) this.#taken.push(free);
    return free;
  }

  #isFree([x0, y0, x1, y1]: LabelBox): boolean {
    return this.#taken.every(
      ([a, b, c, d]) => x1 + APART <= a || c + APART <= x0 || y1 + APART / 2 <= b || d + APART / 2 <= y0,
    );
  }
}
