import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { MarksLayer } from "../../src/canvas/marks-layer.ts";
import type { MarksView } from "../../src/canvas/marks-view.ts";
import type { ScreenMark } from "../../src/canvas/screen-mark.ts";
import { takeMessages } from "../../src/canvas/take-messages.ts";
import { radians } from "../../src/units/quantity.ts";

interface Rect {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}
const holds = ({ x, y, width, height }: Rect, [px, py]: readonly [number, number]) =>
  px >= x && px < x + width && py >= y && py < y + height;

/** A canvas that holds words where their lines begin, instead of pixels: cleared and cut off as pixels are. */
class WordCanvas {
  readonly style: Record<string, string> = {};
  words: { readonly at: readonly [number, number]; readonly text: string }[] = [];
  #width = 300;
  #height = 150;
  #clip: Rect | undefined;
  #rect: Rect | undefined;
  #origin: readonly [number, number] = [0, 0];
  readonly context = {
    canvas: this,
    save: () => undefined,
    restore: () => {
      this.#clip = undefined;
    },
    setTransform: (...[, , , , x, y]: number[]) => {
      this.#origin = [x!, y!];
    },
    clearRect: (x: number, y: number, width: number, height: number) => {
      this.words = this.words.filter(({ at }) => !holds({ x, y, width, height }, at));
    },
    beginPath: () => undefined,
    rect: (x: number, y: number, width: number, height: number) => {
      this.#rect = { x, y, width, height };
    },
    clip: () => {
      this.#clip = this.#rect;
    },
    fillText: (text: string) => {
      const whole = { x: 0, y: 0, width: this.#width, height: this.#height };
      if (holds(this.#clip ?? whole, this.#origin)) this.words.push({ at: this.#origin, text });
    },
    getImageData: () => undefined,
  };
  getContext = () => this.context;
  append = () => undefined;
  remove = () => undefined;
  get width() {
    return this.#width;
  }
  set width(width: number) {
    this.#width = width;
    this.words = [];
  }
  get height() {
    return this.#height;
  }
  set height(height: number) {
    this.#height = height;
    this.words = [];
  }
}

let canvases: WordCanvas[] = [];
/** Milliseconds that pass from one look at the clock to the next: with many, everything is drawn in many slices. */
let pace = 0;
beforeEach(() => {
  canvases = [];
  vi.stubGlobal("document", {
    createElement: (name: string) => {
      const made = new WordCanvas();
      if (name === "canvas") canvases.push(made);
      return made;
    },
  });
  let now = 0;
  vi.spyOn(performance, "now").mockImplementation(() => {
    now += pace;
    return now;
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
  vi.restoreAllMocks();
});

/** A hundred words in a row, thirty rows, 12 apart. */
const COUNT = 3000;
const mark = (i: number, text: string): ScreenMark => ({
  key: `word ${i}`,
  picture: [
    {
      type: "text",
      text,
      at: [6 + 12 * (i % 100), 6 + 12 * Math.floor(i / 100)],
      size: 8,
      angle: radians(0),
      align: "start",
      face: "regular",
      fill: { r: 0, g: 0, b: 0 },
    },
  ],
});
const marks = Array.from({ length: COUNT }, (_, i) => mark(i, `${i}`));
const changed = (i: number, text: string) => marks.map((each, k) => (k === i ? mark(i, text) : each));

const view: MarksView = { toScreen: [1, 0, 0, 1, 0, 0], width: 1200, height: 360, ratio: 1 };
const moved: MarksView = { ...view, toScreen: [1, 0, 0, 1, 24, 12] };

/** The words to be seen, in the order of their places. */
const seen = (): string[] =>
  canvases
    .filter(({ style }) => style.display === "")
    .flatMap(({ words }) => words)
    .sort((a, b) => a.at[1] - b.at[1] || a.at[0] - b.at[0])
    .map(({ text }) => text);
/** The words of these marks that begin within the view. */
const expected = (list: readonly ScreenMark[], { toScreen, width, height }: MarksView): string[] =>
  list.flatMap(({ picture: [item] }) => {
    if (item?.type !== "text") return [];
    const at = [item.at[0] + toScreen[4], item.at[1] + toScreen[5]] as const;
    return holds({ x: 0, y: 0, width, height }, at) ? [item.text] : [];
  });
/** Far more turns than any drawing here takes. */
const allDone = async () => {
  for (let turn = 0; turn < 400; turn++) await takeMessages();
};

/** A layer with all words in view, and a picture for a view that has moved on its way. */
async function drawing(): Promise<MarksLayer> {
  const layer = new MarksLayer();
  layer.set("wiring", marks);
  pace = 0;
  layer.draw(view);
  await allDone();
  expect(seen()).toEqual(expected(marks, view));
  pace = 10;
  layer.draw(moved);
  for (let turn = 0; turn < 5; turn++) await takeMessages();
  // Still the picture before.
  expect(seen()).toEqual(expected(marks, view));
  return layer;
}

test.each([0, 150, 1500, 2700])(
  "a change of mark %d while a picture is drawn is in the picture before at once, and in that picture when it is there",
  async (i) => {
    const layer = await drawing();
    const after = changed(i, "changed");
    layer.set("wiring", after);
    layer.draw(moved);
    for (let turn = 0; turn < 5; turn++) await takeMessages();
    expect(seen()).toEqual(expected(after, view));
    await allDone();
    expect(seen()).toEqual(expected(after, moved));
  },
);

test("changes in every slice of a drawing do not keep it from its end, and are all there then", async () => {
  const layer = await drawing();
  let last: readonly ScreenMark[] = marks;
  for (let edit = 0; edit < 40; edit++) {
    last = changed((edit * 389) % 2800, `edit ${edit}`);
    layer.set("wiring", last);
    layer.draw(moved);
    await takeMessages();
  }
  await allDone();
  expect(seen()).toEqual(expected(last, moved));
});
