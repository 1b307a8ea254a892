import type { ScreenMark, SheetRect } from "../../src/canvas/screen-mark.ts";
import type { PathStep } from "../../src/geometry/picture.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { radians } from "../../src/units/quantity.ts";

const INK = { r: 0.84, g: 0.37, b: 0 };
const LINE = { r: 0, g: 0.45, b: 0.7 };

/** A run of three points with its label. */
const run = (i: number, [x, y]: Point2): ScreenMark => {
  const points: Point2[] = [
    [x, y],
    [x + 40, y],
    [x + 40, y + 25 + (i % 5) * 6],
  ];
  const steps = points.map(([px, py], k): PathStep => [k === 0 ? "M" : "L", px, py]);
  return {
    key: `run-${i}`,
    hit: { kind: "line", points },
    picture: [
      { type: "path", steps, stroke: LINE, width: 1.2, opacity: 0.8 },
      {
        type: "text",
        text: `R-${i}`,
        at: [x + 4, y + 3],
        size: 7,
        angle: radians(0),
        align: "start",
        face: "regular",
        fill: LINE,
      },
    ],
  };
};

/** A filled symbol with a leader and a number. */
const spot = (i: number, [x, y]: Point2): ScreenMark => ({
  key: `spot-${i}`,
  hit: { kind: "spot", at: [x, y], radius: 8 },
  picture: [
    {
      type: "path",
      steps: [
        ["M", x - 12, y - 12],
        ["L", x, y],
      ],
      stroke: INK,
      width: 0.6,
    },
    {
      type: "path",
      steps: [["M", x - 7, y - 4], ["L", x + 7, y - 4], ["L", x, y + 8], ["Z"]],
      fill: INK,
      stroke: INK,
      width: 1,
      opacity: 0.8,
    },
    {
      type: "text",
      text: `F-${i}`,
      at: [x + 9, y],
      size: 9,
      angle: radians(0),
      align: "start",
      face: "bold",
      fill: INK,
    },
  ],
});

/** So many marks strewn over a rectangle of a sheet, the same each time: half runs, half symbols. */
const known = new Map<string, ScreenMark>();
/** The same mark again for the same number and place, as it comes from a job that did not change. */
const once = (key: string, made: () => ScreenMark): ScreenMark => {
  const mark = known.get(key) ?? made();
  known.set(key, mark);
  return mark;
};

/** With `moved`, the run of that number lies elsewhere. */
export function markCrowd(
  count: number,
  { x0, y0, x1, y1 }: SheetRect,
  moved?: number,
): { wiring: ScreenMark[]; findings: ScreenMark[] } {
  const at = (i: number): Point2 => [x0 + ((i * 7919) % (x1 - x0)), y0 + ((i * 104_729) % (y1 - y0))];
  const half = Math.floor(count / 2);
  return {
    wiring: Array.from({ length: count - half }, (_, i) => {
      const [x, y] = at(i);
      const place: Point2 = i === moved ? [x + 9, y + 14] : [x, y];
      return once(`run ${i} ${place}`, () => run(i, place));
    }),
    findings: Array.from({ length: half }, (_, i) =>
      once(`spot ${i} ${at(count - half + i)}`, () => spot(i, at(count - half + i))),
    ),
  };
}
