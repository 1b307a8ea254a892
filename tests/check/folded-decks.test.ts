import { describe, expect, it } from "vitest";
import { surfaceAt } from "../../src/check/deck-area.ts";
import type { Reason } from "../../src/check/finding.ts";
import { hangingRoom } from "../../src/check/hanging-room.ts";
import { runProfile } from "../../src/check/run-profile.ts";
import { makeScene } from "../../src/check/scene.ts";
import { area } from "../../src/geometry/polygon.ts";
import type { Area, FoldLine } from "../../src/job/schema.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { box, check, findingOf, findingsOf, inch, inchJob, rectangle, roof, run, tag, withParts } from "./inch-job.ts";

type Spot = readonly [x: number, y: number, z: number | null];

/** An area whose deck lies through spots, with lines between their numbers. */
const spotted = (
  spots: readonly Spot[],
  lines: readonly (readonly [number, number, FoldLine["kind"]])[] = [],
  more: Partial<Area> = {},
): Area => {
  const plain = roof(0);
  return {
    ...plain,
    elevation: {
      ...plain.elevation,
      shape: {
        is: "spots",
        spots: spots.map(([x, y, z]) => ({ at: [x, y], elevation: z === null ? null : inch(z) })),
        ...(lines.length > 0 ? { lines: lines.map(([a, b, kind]) => ({ between: [a, b], kind })) } : {}),
      },
    },
    ...more,
  };
};

/**
 * A hip roof worked out by hand: eaves at 120 along 480 x 240, the ridge at 160 from (120, 120) to (360, 120). Every side rises 40 in 120, by
 * 1/3. South: z = 120 + y/3. North: z = 120 + (240 - y)/3. West: z = 120 + x/3. East: z = 120 + (480 - x)/3. The hips run at 45
 * degrees from the corners to the ends of the ridge, where two of these agree.
 */
const HIP = spotted(
  [
    [0, 0, 120],
    [480, 0, 120],
    [480, 240, 120],
    [0, 240, 120],
    [120, 120, 160],
    [360, 120, 160],
  ],
  [
    [5, 6, "ridge"],
    [1, 5, "hip"],
    [4, 5, "hip"],
    [2, 6, "hip"],
    [3, 6, "hip"],
  ],
  { outline: rectangle(0, 0, 480, 240) },
);
const hipAt = (x: number, y: number): number => 120 + Math.min(x, y, 480 - x, 240 - y) / 3;
/** Half the diameter of 3/4 EMT. */
const R = 0.461;
/** A vertical gap under a slope of 1/3, square to it. */
const COS = 3 / Math.sqrt(10);

const deckOf = (area: Area) => {
  const [deck, ...rest] = makeScene(withParts(inchJob(), { a: area }, {})).frame("v1").areas;
  if (!deck || rest.length > 0) throw new Error(`expected one deck area, got ${1 + rest.length}`);
  return deck;
};

describe("a hip roof", () => {
  it("has the four planes worked out by hand, everywhere", () => {
    const deck = deckOf(HIP);
    for (let x = 0; x <= 480; x += 15)
      for (let y = 0; y <= 240; y += 15) expect(surfaceAt(deck, [x, y])).toBeCloseTo(hipAt(x, y), 9);
  });

  it.each([
    ["under the south side", 240, 30],
    ["under the north side", 240, 210],
    ["under the west side", 30, 120],
    ["under the east side", 450, 120],
  ])("is as far from a run %s as its plane", (_, x, y) => {
    const gap = 8;
    const along = y === 120 ? ([0, 1] as const) : ([1, 0] as const);
    const z = hipAt(x, y) - gap;
    const found = findingOf(
      { a: HIP },
      run([
        [x - 5 * along[0], y - 5 * along[1], z],
        [x + 5 * along[0], y + 5 * along[1], z],
      ]),
    );
    expect(found.leastIn).toBeCloseTo(gap * COS - R, 9);
    expect(found.verticalIn).toBeCloseTo(gap - R, 9);
  });

  it("is nearest square to both sides from exactly below its ridge", () => {
    // From 8" under the ridge the foot on either side lies 8 sin cos beside it, within the side.
    const found = findingOf(
      { a: HIP },
      run([
        [150, 120, 152],
        [330, 120, 152],
      ]),
    );
    expect(found.leastIn).toBeCloseTo(8 * COS - R, 9);
    expect(found.verticalIn).toBeCloseTo(8 - R, 9);
    expect(found.areas).toEqual(["a"]);
  });

  it("makes a run too close just where it is, over all sides", () => {
    // Level at 158 along the ridge's line: the centre is 1.5 + R square to a side at 158 + (1.5 + R) / COS.
    const found = findingOf(
      { a: HIP },
      run([
        [60, 120, 156],
        [420, 120, 156],
      ]),
    );
    expect(found.verdict).toBe("too-close");
    // West of the ridge the gap is 120 + x/3 - 156; it passes through the west side at x = 108.
    const at = (gap: number): number => 3 * (156 - 120 + gap);
    // Where the west side is 1.961 away, square to it.
    const clearFrom = at((1.5 + R) / COS);
    expect(found.stretches).toHaveLength(2);
    expect(found.stretches[0]!.toIn).toBeCloseTo(clearFrom - 60, 3);
    expect(found.stretches[1]!.fromIn).toBeCloseTo(480 - clearFrom - 60, 3);
  });

  it("is drawn in the profile side by side, without a gap between", () => {
    const job = withParts(
      inchJob(),
      { a: HIP },
      {
        e1: run([
          [10, 120, 110],
          [470, 120, 110],
        ]),
      },
    );
    const profile = runProfile(
      job,
      "e1",
      check(
        { a: HIP },
        {
          e1: run([
            [10, 120, 110],
            [470, 120, 110],
          ]),
        },
      ),
    )!;
    const ends = profile.decks
      .flatMap(({ underside: { from, to } }) => [from, to])
      .map(({ station, z }) => [Math.round(station * 1e6) / 1e6, Math.round(z * 1e6) / 1e6] as const);
    for (const [station, z] of ends) expect(z).toBeCloseTo(hipAt(10 + station, 120), 5);
    const covered = profile.decks.map(({ underside }) => [underside.from.station, underside.to.station] as const);
    for (let s = 0.5; s < 460; s += 1)
      expect(
        covered.some(([a, b]) => a <= s && s <= b),
        `${s}`,
      ).toBe(true);
  });

  it("does not lose a run along a hip, nor a box across the ridge", () => {
    const hip = findingOf(
      { a: HIP },
      run([
        [10, 10, 115],
        [110, 110, 115 + 100 / 3],
      ]),
    );
    // Along the hip the vertical gap is 120 + t/3 - (115 + (t - 10)/3) = 5 + 10/3.
    expect(hip.verticalIn).not.toBeNull();
    const across = findingOf({ a: HIP }, box(240, 120, tag(150, "bottom")));
    // A box 4" wide, 1 1/2" high: its top at 151.5, and the deck lowest over its edges, 2" from the ridge: 160 - 2/3.
    expect(across.verticalIn).toBeCloseTo(160 - 2 / 3 - 151.5, 9);
    expect(across.leastIn).toBeCloseTo((160 - 2 / 3 - 151.5) * COS, 9);
  });
});

describe("a valley", () => {
  // Two sides fall to a valley along x = 240: z = 132 + |x - 240| / 12.
  const VALLEY = spotted(
    [
      [0, 0, 152],
      [480, 0, 152],
      [480, 240, 152],
      [0, 240, 152],
      [240, 0, 132],
      [240, 240, 132],
    ],
    [[5, 6, "valley"]],
    { outline: rectangle(0, 0, 480, 240) },
  );
  it("is nearest straight up from below its line, and at the line from beside it", () => {
    const below = findingOf(
      { a: VALLEY },
      run([
        [240, 20, 129],
        [240, 220, 129],
      ]),
    );
    expect(below.leastIn).toBeCloseTo(3 - R, 9);
    expect(below.verticalIn).toBeCloseTo(3 - R, 9);
    // 0.2" beside it, 3" below it: the foot on the side would lie across the line, so the line itself is nearest.
    const beside = findingOf(
      { a: VALLEY },
      run([
        [240.2, 20, 129],
        [240.2, 220, 129],
      ]),
    );
    expect(beside.leastIn).toBeCloseTo(Math.hypot(0.2, 3) - R, 9);
  });
});

describe("a cricket", () => {
  // A level roof at 144 with a cricket behind a curbed opening: its ridge at 150 against the curb, at 144 where it runs out.
  const CRICKET = spotted(
    [
      [0, 0, 144],
      [600, 0, 144],
      [600, 600, 144],
      [0, 600, 144],
      [240, 300, 144],
      [360, 300, 144],
      [300, 300, 150],
      [300, 360, 144],
      [240, 180, 144],
      [360, 180, 144],
    ],
    [
      [5, 7, "edge"],
      [7, 6, "edge"],
      [7, 8, "ridge"],
      [5, 8, "valley"],
      [8, 6, "valley"],
      [5, 9, "edge"],
      [9, 10, "edge"],
      [10, 6, "edge"],
    ],
    { holes: [rectangle(240, 180, 360, 300)] },
  );
  it("rises between its lines and nowhere else", () => {
    const deck = deckOf(CRICKET);
    expect(surfaceAt(deck, [300, 330])).toBeCloseTo(147, 9);
    expect(surfaceAt(deck, [270, 300])).toBeCloseTo(147, 9);
    expect(surfaceAt(deck, [270, 330])).toBeCloseTo(144, 9);
    for (const at of [
      [100, 100],
      [500, 300],
      [300, 500],
      [200, 350],
    ] as const)
      expect(surfaceAt(deck, at)).toBeCloseTo(144, 9);
  });
  it("leaves more room for wiring below it", () => {
    const found = findingOf({ a: CRICKET }, box(300, 320, tag(144, "top")));
    expect(found.verdict).toBe("clear");
    expect(findingOf({ a: CRICKET }, box(100, 100, tag(144, "top"))).verdict).toBe("too-close");
  });
});

describe("what spots do not say", () => {
  const WIDE = spotted(
    [
      [0, 0, 144],
      [600, 0, 144],
      [600, 400, 144],
      [0, 400, 144],
    ],
    [],
  );
  it("is unknown beyond them, and names the corner", () => {
    const inside = findingOf(
      { a: WIDE },
      run([
        [50, 100, 130],
        [500, 100, 130],
      ]),
    );
    expect(inside.verdict).toBe("clear");
    const beyond = findingOf(
      { a: WIDE },
      run([
        [50, 500, 130],
        [500, 500, 130],
      ]),
    );
    expect(beyond.verdict).toBe("cannot-tell");
    expect(beyond.reasons.text).toMatch(/A-1: a spot with an elevation at or beyond corner [34] of its outline/);
    expect(beyond.remedies[0]!.text).toMatch(/Put a spot of A-1 at corner [34]/);
    const both = findingsOf(
      { a: WIDE },
      run([
        [50, 100, 143.5],
        [50, 500, 143.5],
      ]),
    );
    expect(both.map(({ verdict }) => verdict)).toEqual(["too-close", "cannot-tell"]);
    expect(both[1]!.stretches[0]!.fromIn).toBeCloseTo(300, 6);
  });
  it("goes on over a strip no wider than an eighth of an inch, and no farther", () => {
    const near = (y: number): Area =>
      spotted([
        [0, 0, 144],
        [600, 0, 144],
        [600, y, 150],
        [0, y, 150],
      ]);
    const top = run([
      [50, 599.9, 130],
      [500, 599.9, 130],
    ]);
    expect(findingOf({ a: near(599.9) }, top).verdict).toBe("clear");
    expect(findingOf({ a: near(599.8) }, top).verdict).toBe("cannot-tell");
  });
  it("is one plane over everything where there are three", () => {
    const three = spotted([
      [200, 200, 144],
      [300, 200, 144],
      [200, 300, 146],
    ]);
    expect(surfaceAt(deckOf(three), [600, 600])).toBeCloseTo(152, 9);
  });
  it.each<[string, Spot[], [number, number, FoldLine["kind"]][], RegExp]>([
    [
      "a spot without an elevation",
      [
        [0, 0, 1],
        [600, 0, null],
        [600, 600, 1],
        [0, 600, null],
      ],
      [],
      /the elevation of spots 2 and 4/,
    ],
    [
      "two spots at one place",
      [
        [0, 0, 1],
        [600, 0, 1],
        [600, 600, 1],
        [0.1, 0, 1],
      ],
      [],
      /spots 1 and 4 lie at one place/,
    ],
    [
      "spots on one line",
      [
        [0, 0, 1],
        [200, 0.05, 1],
        [400, 0, 1],
        [600, 0, 1],
      ],
      [],
      /do not all lie on one line/,
    ],
    [
      "lines that cross",
      [
        [0, 0, 1],
        [600, 0, 1],
        [600, 600, 1],
        [0, 600, 2],
      ],
      [
        [1, 3, "ridge"],
        [4, 2, "ridge"],
      ],
      /line between 1 and 3 crosses|between spots 1 and 3 crosses the line between spots 4 and 2/,
    ],
    [
      "a line through another spot",
      [
        [0, 0, 1],
        [600, 0, 1],
        [600, 600, 1],
        [0, 600, 1],
        [300, 300, 5],
      ],
      [[1, 3, "ridge"]],
      /between spots 1 and 3 passes through spot 5/,
    ],
    [
      "a line twice",
      [
        [0, 0, 1],
        [600, 0, 1],
        [600, 600, 1],
        [0, 600, 1],
      ],
      [
        [1, 3, "ridge"],
        [3, 1, "valley"],
      ],
      /one line between spots 1 and 3; there are two/,
    ],
    [
      "a line to no spot",
      [
        [0, 0, 1],
        [600, 0, 1],
        [600, 600, 1],
        [0, 600, 1],
      ],
      [[1, 9, "ridge"]],
      /both ends of the line between spots 1 and 9/,
    ],
    [
      "a line from a spot to itself",
      [
        [0, 0, 1],
        [600, 0, 1],
        [600, 600, 1],
        [0, 600, 1],
      ],
      [[2, 2, "ridge"]],
      /starts and ends at spot 2/,
    ],
    [
      "two spots",
      [
        [0, 0, 1],
        [600, 0, 1],
      ],
      [],
      /three spots, each with an elevation/,
    ],
    [
      "three spots, a line to a fourth",
      [
        [0, 0, 1],
        [600, 0, 1],
        [600, 600, 1],
      ],
      [[1, 4, "ridge"]],
      /both ends of the line between spots 1 and 4/,
    ],
  ])("is missing, in words: %s", (_, spots, lines, said) => {
    const found = findingOf(
      { a: spotted(spots, lines) },
      run([
        [50, 100, 130],
        [500, 100, 130],
      ]),
    );
    expect(found.verdict).toBe("cannot-tell");
    expect(found.reasons.text).toMatch(said);
    expect(found.remedies.length).toBeGreaterThan(0);
  });
});

it("a deck whose outline runs almost along the lines between its spots is still told", () => {
  // The clipper fails on this one as it lies.
  const spots: Spot[] = [
    [200, 320, 150],
    [560, 200, 150],
    [480, 120, 160],
    [440, 240, 143],
    [120, 480, 151],
    [40, 480, 146],
    [520, 399.88263853639364, 156],
    [80, 320, 158],
    [200, 439.96919033452866, 154],
    [400, 40, 141],
  ];
  const outline: [number, number][] = [
    [560, 280],
    [280, 399.87115458920596],
    [200, 0],
  ];
  const hole: [number, number][] = [
    [280, 280],
    [320, 280],
    [300, 330],
  ];
  const { areas } = makeScene(withParts(inchJob(), { a: spotted(spots, [], { outline, holes: [hole] }) }, {})).frame(
    "v1",
  );
  expect(areas.reduce((sum, { polygon }) => sum + area(polygon), 0)).toBeCloseTo(area({ outline, holes: [hole] }), 6);
  for (const { faces, missing, polygon } of areas)
    if (missing.length === 0)
      expect(faces.reduce((sum, face) => sum + area(face.polygon), 0)).toBeCloseTo(area(polygon), 4);
  expect(areas[0]!.faces.length).toBeGreaterThan(3);
});

describe("steps between roofs", () => {
  it("bring wiring beside the edge of the lower one near it", () => {
    const low = roof(132, { label: "Low", outline: rectangle(0, 0, 300, 600) });
    const high = roof(168, { label: "High", outline: rectangle(300, 0, 600, 600) });
    // 1" beside the lower deck's edge, 0.5" above its lowest surface, 36" under the deck above it.
    const found = findingOf(
      { low, high },
      run([
        [301, 50, 132.5],
        [301, 550, 132.5],
      ]),
    );
    expect(found.verdict).toBe("too-close");
    expect(found.areas[0]).toBe("low");
    expect(found.leastIn).toBeCloseTo(Math.hypot(1, 0.5) - R, 9);
    expect(found.verticalIn).toBeNull();
  });
});

describe("a shaft through a deck", () => {
  const open = roof(144, { holes: [rectangle(200, 200, 300, 300)] });
  it("has a rim that is an edge, and no deck over its middle", () => {
    const rim = findingsOf(
      { a: open },
      run([
        [201, 210, 143.8],
        [201, 290, 143.8],
      ]),
    );
    const close = rim.find(({ verdict }) => verdict === "too-close")!;
    expect(close.leastIn).toBeCloseTo(Math.hypot(1, 0.2) - R, 9);
    expect(close.verticalIn).toBeNull();
    expect(rim.some(({ verdict }) => verdict === "cannot-tell")).toBe(true);
  });
  it("is cut out of a folded deck as out of a level one", () => {
    const folded = { ...HIP, holes: [rectangle(200, 60, 260, 180)] };
    const deck = deckOf(folded);
    const found = findingsOf(
      { a: folded },
      run([
        [230, 70, 135],
        [230, 170, 135],
      ]),
    );
    expect(found.map(({ verdict }) => verdict)).toContain("cannot-tell");
    expect(deck.faces.reduce((sum, face) => sum + area(face.polygon), 0)).toBeCloseTo(480 * 240 - 60 * 120, 6);
  });
});

describe("the reasons of a folded deck", () => {
  it("name the spots of the governing side, and how much of each counts", () => {
    const found = findingOf(
      { a: HIP },
      run([
        [235, 30, 120],
        [245, 30, 120],
      ]),
    );
    const all = (node: Reason): Reason[] => [node, ...node.children.flatMap(all)];
    const step = all(found.reasons).find(({ quantity }) => quantity?.is === "lowest-there")!;
    expect(step.text).toMatch(
      /^Lowest surface of the deck of A-1 there, between spots 1, 2 and 6$|between spots 1, 5 and 6$|between spots 1, 2 and 5$/,
    );
    const spots = step.children.flatMap(({ quantity }) => (quantity?.is === "spot" ? [quantity] : []));
    expect(spots).toHaveLength(3);
    expect(spots.reduce((sum, { in: z, share }) => sum + z * share!, 0)).toBeCloseTo(step.quantity!.in, 9);
    expect(step.quantity!.in).toBeCloseTo(
      all(found.reasons).find(({ quantity }) => quantity?.is === "deck-there")!.quantity!.in,
      9,
    );
  });
});

describe("the room under a folded deck", () => {
  it("is given at every corner of its faces, and wiring there is clear everywhere under it", () => {
    const job = withParts(inchJob(), { a: HIP }, {});
    const [area, ...rest] = hangingRoom(job);
    expect(rest).toEqual([]);
    if (area?.is !== "room") throw new Error("no room");
    const { corners, edges, drops, slopeDeg } = area.room;
    expect(slopeDeg).toBeCloseTo((Math.atan(1 / 3) * 180) / Math.PI, 9);
    expect(corners.map(({ at, deck }) => [...at, deck])).toEqual(
      expect.arrayContaining([
        [0, 0, 120],
        [120, 120, 160],
        [360, 120, 160],
      ]),
    );
    expect(corners).toHaveLength(6);
    expect(edges.length).toBeGreaterThanOrEqual(9);
    const drop = drops.find(({ wiring }) => wiring.label === "EMT 3/4")!.centre;
    for (const [i, j] of edges) {
      const ends = [corners[i]!, corners[j]!].map(({ at, deck }): [number, number, number] => [...at, deck - drop]);
      expect(findingOf({ a: HIP }, run(ends)).verdict).toBe("clear");
    }
  });
});

describe("one plane", () => {
  // z = 120 + x/40 - y/100 through spots all over it, with lines between some: folds that fold nothing.
  const at = (x: number, y: number): Spot => [x, y, 120 + x / 40 - y / 100];
  const many = spotted(
    [
      at(0, 0),
      at(600, 0),
      at(600, 600),
      at(0, 600),
      at(120, 310),
      at(400, 200),
      at(333, 444),
      at(250, 90),
      at(520, 380),
    ],
    [
      [5, 6, "ridge"],
      [7, 3, "valley"],
      [8, 6, "edge"],
    ],
  );
  const three = spotted([at(0, 0), at(600, 0), at(0, 600)]);
  const base = inchJob();
  const job = {
    ...base,
    settings: {
      job: {
        ...base.settings.job,
        tolerances: { tags: inch(0.25), decks: inch(0.125), plan: inch(0.5) },
      },
    },
  };
  it("holds a box as a whole, whichever side of a line its parts lie on", () => {
    // The line runs along a contour through the box, whose bottom lies 0.02" above it: above the deck on one side, below it on the other.
    const split = spotted(
      [at(0, 0), at(600, 0), at(600, 600), at(0, 600), at(200, 100), at(360, 500)],
      [[5, 6, "edge"]],
    );
    const half = box(280, 300, tag(124.02, "bottom"));
    const said = (area: Area) => {
      const { verdict, leastIn, verticalIn } = findingOf({ a: area }, half);
      return [verdict, leastIn?.toFixed(6), verticalIn?.toFixed(6)];
    };
    expect(said(split)).toEqual(said(three));
    expect(said(split)[0]).toBe("too-close");
  });

  const random = seeded(19);
  const place = (): [number, number, number] => {
    const [x, y] = [700 * random() - 50, 700 * random() - 50];
    return [x, y, 120 + x / 40 - y / 100 - 6 + 10 * random()];
  };
  const elements = Array.from({ length: 120 }, (_, i) =>
    i % 3 === 0
      ? box(place()[0], place()[1], tag(place()[2], "top"))
      : run([place(), place(), ...(i % 2 ? [place()] : [])]),
  );
  it.each(elements.map((element, i) => [i, element] as const))(
    "is one plane however many spots it lies through: %i",
    (_, element) => {
      const round = (n: number | null): number | null => (n === null ? null : Math.round(n * 1e6) / 1e6 + 0);
      const said = (area: Area) =>
        findingsOf({ a: area }, element, job).map((found) => ({
          verdict: found.verdict,
          least: round(found.leastIn),
          vertical: round(found.verticalIn),
          interval: found.intervalIn?.map(round),
          stretches: found.stretches.map(({ fromIn, toIn }) =>
            [fromIn, toIn].map((n) => Math.round(n * 1e3) / 1e3 + 0),
          ),
          at: found.at.map((n) => Math.round(n * 1e3) / 1e3 + 0),
        }));
      expect(said(many)).toEqual(said(three));
    },
  );
});
