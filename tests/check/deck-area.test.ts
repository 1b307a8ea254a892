import { expect, it } from "vitest";
import { leavesOutline, surfaceAt } from "../../src/check/deck-area.ts";
import { makeScene } from "../../src/check/scene.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import { inch, inchJob, roof, withParts } from "./inch-job.ts";

/** Turned by so much about (0, 0), and moved. */
const placed = (ring: readonly Point2[], angle: number, [dx, dy]: Point2): Point2[] =>
  ring.map(([x, y]) => [
    x * Math.cos(angle) - y * Math.sin(angle) + dx,
    x * Math.sin(angle) + y * Math.cos(angle) + dy,
  ]);

/* Two outlines with a notch, and a hole whose corners all lie inside while the notch takes a third of it or more. */
const NOTCHED: readonly (readonly [string, readonly Point2[], readonly Point2[]])[] = [
  [
    "a U",
    [
      [0, 0],
      [90, 0],
      [90, 60],
      [60, 60],
      [60, 30],
      [30, 30],
      [30, 60],
      [0, 60],
    ],
    [
      [10, 40],
      [80, 40],
      [80, 50],
      [10, 50],
    ],
  ],
  [
    "an arrowhead",
    [
      [0, 0],
      [100, 0],
      [40, 40],
      [0, 100],
    ],
    [
      [70, 10],
      [72, 10],
      [12, 70],
      [10, 70],
    ],
  ],
];

it.each(NOTCHED)(
  "a hole across the notch of %s leaves it, however it lies and whichever way it was traced",
  (_, outline, hole) => {
    for (let turn = 0; turn < 24; turn++)
      for (const to of [
        [0, 0],
        [500, -300],
        [-4000, 7000],
      ] as const) {
        const [ring, cut] = [placed(outline, (turn * Math.PI) / 12, to), placed(hole, (turn * Math.PI) / 12, to)];
        for (const [a, b] of [
          [ring, cut],
          [[...ring].reverse(), cut],
          [[...ring].reverse(), [...cut].reverse()],
        ] as const)
          expect(leavesOutline(a, b), `turned by ${turn} x 15 degrees, at ${to}`).toBe(true);
      }
  },
);

it("a hole within one arm of a U stays in it", () => {
  const [, outline] = NOTCHED[0]!;
  const hole: Point2[] = [
    [5, 35],
    [25, 35],
    [25, 55],
    [5, 55],
  ];
  expect(leavesOutline(outline, hole)).toBe(false);
  expect(leavesOutline([...outline].reverse(), hole)).toBe(false);
});

it("beside a folded deck its nearest plane goes on", () => {
  const spots = (
    [
      [0, 0, 100],
      [300, 0, 160],
      [600, 0, 130],
      [0, 600, 100],
      [300, 600, 160],
      [600, 600, 130],
    ] as const
  ).map(([x, y, z]) => ({ at: [x, y] as [number, number], elevation: inch(z) }));
  const lines = [{ between: [2, 5] as [number, number], kind: "ridge" as const }];
  const deck = roof(0, { elevation: { ...roof(0).elevation, shape: { is: "spots", spots, lines } } });
  const [area] = makeScene(withParts(inchJob(), { a: deck }, {})).frame("v1").areas;
  // Up by 1 in 5 to the ridge at x = 300, down by 1 in 10 from it.
  for (const [x, y, z] of [
    [-50, 300, 90],
    [650, 300, 125],
    [100, -20, 120],
    [100, 620, 120],
    [500, -20, 140],
    [500, 620, 140],
    [150, 300, 130],
    [450, 300, 145],
  ] as const)
    expect(surfaceAt(area!, [x, y]), `at (${x}, ${y})`).toBeCloseTo(z, 9);
});
