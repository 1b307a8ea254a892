import { type PlainArea, type PlainBar, type PlainBox, type PlainRun, planeOver } from "./plain-check.ts";
import { heightOf, isInside, type Place, type PlainSurface, type Rings, type Spot } from "./plain-distance.ts";

/*
 * Random scenes in the building: decks of every shape with runs, boxes, racks and wireways under, beside and through them, kind by kind. One file of over
 * 500 lines because every kind draws from the same few pieces.
 */
export type Random = () => number;
/** How many scenes of each kind make up a whole run of 10,000. */
export const KINDS = {
  level: 800,
  sloped: 900,
  spots: 800,
  folded: 900,
  limit: 1100,
  degenerate: 900,
  far: 800,
  boxes: 900,
  bays: 700,
  stacked: 400,
  setback: 400,
  couplings: 400,
  racks: 400,
  wireways: 400,
  bends: 200,
} as const;
export type Kind = keyof typeof KINDS;

export const pick = <T>(random: Random, list: readonly T[]): T => list[Math.floor(random() * list.length)]!;
export const spread = (random: Random, half: number): number => 2 * half * (random() - 0.5);

/** Outside diameters, in.: Steel Tube Institute, "Electrical Metallic Tubing", EMT Weights and Dimensions. */
const EMT: readonly (readonly [string, number])[] = [
  ["1/2", 0.706],
  ["3/4", 0.922],
  ["1", 1.163],
  ["2", 2.197],
  ["4", 4.5],
];
/** Depths of fluted decks, in. (from memory of the trade). */
const DECKS: readonly (readonly [string, number])[] = [
  ["wide-rib-1-1/2", 1.5],
  ["deep-rib-3", 3],
  ["composite-2", 2],
  ["form-9/16", 0.5625],
];

/** A ring seen whole from (x, y), so it does not cross itself. */
function star(random: Random, x: number, y: number, corners: number, inner: number, outer: number): Spot[] {
  const turn = random() * 2 * Math.PI;
  return Array.from({ length: corners }, (_, i) => {
    const angle = turn + ((i + 0.4 * random()) * 2 * Math.PI) / corners;
    const r = inner + random() * (outer - inner);
    return [x + r * Math.cos(angle), y + r * Math.sin(angle)];
  });
}

function anyRings(random: Random, x: number, y: number): Rings {
  const corners = 3 + Math.floor(random() * 6);
  const outline = star(random, x, y, corners, 40, 160);
  const hole = corners >= 5 && random() < 0.5 ? [star(random, x, y, 3 + Math.floor(random() * 4), 5, 12)] : [];
  return [random() < 0.5 ? outline : outline.reverse(), ...hole];
}

export const rectangle = (x0: number, y0: number, x1: number, y1: number): Spot[] => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];

/** A surface of this slope that has elevation z at (x, y) and falls towards `way`. */
function surface(rings: Rings, x: number, y: number, z: number, slope: number, way: number): PlainSurface {
  const [gx, gy] = [-slope * Math.cos(way), -slope * Math.sin(way)];
  return { rings, gx, gy, c: z - gx * x - gy * y };
}

/** Spots a folded deck is given by, and the lines between them, by number. */
interface Folds {
  readonly spots: readonly Place[];
  readonly lines: readonly (readonly [number, number])[];
}

/** The storey above an area: what of the area lies under it, and the ring that was traced for it. */
interface Storey {
  readonly whole: Rings;
  readonly traced: readonly Spot[];
  readonly makes: "floor-above" | "not-settled";
}

/** Raceways side by side that all bear at one elevation, by the line they were traced by; they are runs of the scene too. */
interface Rack {
  readonly id: string;
  /** The traced line, with the elevation of what they bear on. */
  readonly line: readonly Place[];
  readonly apart: number;
  readonly raceways: readonly Drawn["runs"][number][];
}

interface Drawn {
  readonly areas: (PlainArea & { readonly profile: string; readonly folds?: Folds; readonly storey?: Storey })[];
  readonly runs: (PlainRun & { readonly size: string })[];
  readonly boxes: PlainBox[];
  readonly bars: PlainBar[];
  readonly racks: Rack[];
}

const SLOPES = [0, 1 / 48, 1 / 48, 1 / 24, 0.02, 0.25, 1];

function anyArea(random: Random, n: number, kind: Kind, rings: Rings, x: number, y: number): Drawn["areas"][number] {
  const [profile, depth] = pick(random, DECKS);
  const slope = kind === "level" || kind === "bays" || kind === "stacked" ? 0 : pick(random, SLOPES);
  const is =
    kind === "bays" || random() < 0.1 ? pick(random, ["roof", "roof", "floor-above", "not-settled"] as const) : "roof";
  const known = random() > (kind === "bays" ? 0.1 : 0.02);
  const z = 140 + 8 * random();
  return {
    id: `a${n}`,
    rings,
    is,
    depth,
    profile,
    surfaces: known
      ? [surface(rings, x, y, kind === "bays" && random() < 0.7 ? 144 : z, slope, 2 * Math.PI * random())]
      : undefined,
  };
}

/** How far the wiring's surface is below the deck: about the limit as a rule, also far below, in the flutes and above. */
function anyGap(random: Random): number {
  const kind = random();
  if (kind < 0.45) return 1.5 + spread(random, 0.8);
  if (kind < 0.75) return 1 + 20 * random();
  if (kind < 0.9) return spread(random, 3);
  return spread(random, 40);
}

function anyRun(
  random: Random,
  n: number,
  areas: Drawn["areas"],
  x: number,
  y: number,
  steep: boolean,
): Drawn["runs"][number] {
  const [size, outside] = pick(random, EMT);
  const radius = outside / 2;
  const near = areas.filter((area) => area.surfaces);
  const over = (spot: Spot) =>
    near.find(({ rings }) => isInside(rings, spot)) ?? (near.length > 0 ? pick(random, near) : undefined);
  const spots: Spot[] = [];
  // Two in three stay near the middle, where as a rule they lie wholly under one deck.
  const wide = random() < 0.35 ? 200 : 30;
  let at: Spot = [x + spread(random, wide), y + spread(random, wide)];
  const count = 2 + Math.floor(random() * 3);
  for (let i = 0; i < count; i++) {
    spots.push(at);
    at = random() < 0.3 ? [at[0] + spread(random, 20), at[1]] : [x + spread(random, wide), y + spread(random, wide)];
  }
  const gap = anyGap(random);
  const level = random() < 0.5;
  const planeAt = (spot: Spot): PlainSurface | undefined => {
    const area = over(spot);
    return area && planeOver(area.surfaces!, spot);
  };
  const first = planeAt(spots[0]!);
  const base = first ? heightOf(first, spots[0]!) : 144;
  const points = spots.map((spot): Place => {
    if (level) return [...spot, base - radius - gap];
    const deck = planeAt(spot) ?? first;
    return [...spot, (deck ? heightOf(deck, spot) : 144) - radius - (steep ? anyGap(random) : gap)];
  });
  return { id: `r${n}`, size, radius, points };
}

function anyBlock(random: Random, n: number, areas: Drawn["areas"], x: number, y: number): PlainBox {
  const half: Place = [1 + 5 * random(), 1 + 5 * random(), 0.5 + 2 * random()];
  const spot: Spot = [x + spread(random, 150), y + spread(random, 150)];
  const known = areas.filter((area) => area.surfaces);
  const area = known.find(({ rings }) => isInside(rings, spot)) ?? known[0];
  const deck = area && planeOver(area.surfaces!, spot);
  return {
    id: `b${n}`,
    block: {
      centre: [...spot, (deck ? heightOf(deck, spot) : 144) - half[2] - anyGap(random)],
      half,
      turn: 2 * Math.PI * random(),
    },
  };
}

/** A rack along a run's line as far as it turns no more than squarely, its largest raceway about as near the deck as the run is. */
function anyRack(random: Random, areas: Drawn["areas"], { points, radius }: PlainRun): Rack {
  const sizes = Array.from({ length: 2 + Math.floor(3 * random()) }, () => pick(random, EMT));
  const largest = Math.max(...sizes.map(([, outside]) => outside)) / 2;
  const way = (i: number): Spot => [points[i + 1]![0] - points[i]![0], points[i + 1]![1] - points[i]![1]];
  let count = 2;
  while (count < points.length) {
    const [[ax, ay], [bx, by]] = [way(count - 2), way(count - 1)];
    if (ax * bx + ay * by < 0 || Math.hypot(bx, by) < 1) break;
    count++;
  }
  const line = points.slice(0, count).map(([x, y, z]): Place => [x, y, z + radius - 2 * largest]);
  const apart = 2 * largest + 0.5 + 6 * random();
  const id = `k${areas.length}`;
  const raceways = sizes.map(([size, outside], i) => {
    const beside = besideLine(line, (i - (sizes.length - 1) / 2) * apart);
    return {
      id: `${id}/${i + 1}`,
      size,
      radius: outside / 2,
      points: beside.map(([x, y], n): Place => [x, y, line[n]![2] + outside / 2]),
    };
  });
  return { id, line, apart, raceways };
}

/** The line so far to the right of another: at a corner where the lines beside its two legs meet. */
function besideLine(line: readonly Place[], right: number): Spot[] {
  const legs = line.slice(1).map((to, i) => {
    const from = line[i]!;
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
    const length = Math.hypot(dx, dy);
    const [nx, ny] = [dy / length, -dx / length];
    return {
      nx,
      ny,
      start: [from[0] + right * nx, from[1] + right * ny],
      end: [to[0] + right * nx, to[1] + right * ny],
    };
  });
  return line.map((_, i): Spot => {
    const [before, after] = [legs[i - 1], legs[i]];
    const [only] = [before?.end, after?.start].filter((spot) => spot !== undefined);
    if (!before || !after) return [only![0]!, only![1]!];
    // On both: nx x + ny y is the same all along a line.
    const [c1, c2] = [before, after].map(({ nx, ny, start }) => nx * start[0]! + ny * start[1]!) as [number, number];
    const area = before.nx * after.ny - before.ny * after.nx;
    if (Math.abs(area) < 1e-6) return [after.start[0]!, after.start[1]!];
    return [(c1 * after.ny - c2 * before.ny) / area, (before.nx * c2 - after.nx * c1) / area];
  });
}

/** A level straight raceway of rectangular section with its top where that of the run's start is. */
function anyBar(random: Random, { id, points, radius }: PlainRun): PlainBar {
  const [width, height] = [2 + 6 * random(), 2 + 6 * random()];
  const [[x, y, z], [x1, y1]] = points as readonly [Place, Place];
  const level = z + radius - height / 2;
  const long = Math.hypot(x1 - x, y1 - y) > 1;
  return { id, width, height, from: [x, y, level], to: long ? [x1, y1, level] : [x + 40, y, level] };
}

/** A rectangle under a gable, a hip, a valley or four slopes to a drain, turned; given by its corners, the ends of its folds and spots between. */
function foldedArea(random: Random): Drawn["areas"][number] {
  const [profile, depth] = pick(random, DECKS);
  const [w, h] = [120 + 60 * random(), 80 + 40 * random()];
  const turn = 2 * Math.PI * random();
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const [eaves, fold] = [144, 144 + pick(random, [1, -1]) * h * pick(random, [1 / 48, 1 / 24, 0.25])];
  const [inset, shift] = [
    random() < 0.4 ? 0 : h * (0.5 + 0.4 * random()),
    random() < 0.5 ? 0 : spread(random, 0.5 * h),
  ];
  const place = (x: number, y: number, z: number): Place => [c * x - s * y, s * x + c * y, z];
  const corners = [place(-w, -h, eaves), place(w, -h, eaves), place(w, h, eaves), place(-w, h, eaves)];
  const drain = random() < 0.2;
  const ends = drain
    ? [place(spread(random, 0.5 * w), shift, fold)]
    : [place(inset - w, shift, fold), place(w - inset, shift, fold)];
  const spots: Place[] = [...corners, ...ends];
  // Planes by the numbers of their corners; a gable has no slope at its ends.
  const [ring, lines]: [number[][], [number, number][]] = drain
    ? [
        [
          [0, 1, 4],
          [1, 2, 4],
          [2, 3, 4],
          [3, 0, 4],
        ],
        [
          [1, 5],
          [2, 5],
          [3, 5],
          [4, 5],
        ],
      ]
    : inset === 0
      ? [
          [
            [0, 1, 5, 4],
            [4, 5, 2, 3],
          ],
          [[5, 6]],
        ]
      : [
          [
            [0, 1, 5, 4],
            [1, 2, 5],
            [4, 5, 2, 3],
            [3, 0, 4],
          ],
          [
            [5, 6],
            [1, 5],
            [4, 5],
            [2, 6],
            [3, 6],
          ],
        ];
  const hole =
    random() < 0.3
      ? star(random, 0, 0, 4, 3, 8).map(
          ([x, y]): Spot => [x + 0.5 * w * c + 0.75 * h * s, y + 0.5 * w * s - 0.75 * h * c],
        )
      : undefined;
  const surfaces = ring.map((numbers, i) => {
    const [p, q, r] = numbers.map((n) => spots[n]!) as [Place, Place, Place];
    const [ux, uy, uz, vx, vy, vz] = [q[0] - p[0], q[1] - p[1], q[2] - p[2], r[0] - p[0], r[1] - p[1], r[2] - p[2]];
    const area = ux * vy - uy * vx;
    const [gx, gy] = [(uz * vy - vz * uy) / area, (ux * vz - vx * uz) / area];
    const outline = numbers.map((n): Spot => [spots[n]![0], spots[n]![1]]);
    const cut = hole && i === 0 ? hole : undefined;
    return { rings: cut ? [outline, cut] : [outline], gx, gy, c: p[2] - gx * p[0] - gy * p[1] };
  });
  // A spot more in the middle of some planes changes nothing.
  for (const { rings, gx, gy, c: at } of surfaces) {
    if (random() < 0.5 || rings.length > 1) continue;
    const [x, y] = [0, 1].map((k) => rings[0]!.reduce((sum, spot) => sum + spot[k]!, 0) / rings[0]!.length) as [
      number,
      number,
    ];
    spots.push([x, y, gx * x + gy * y + at]);
  }
  const outline = corners.map(([x, y]): Spot => [x, y]);
  return {
    id: "a0",
    rings: hole ? [outline, hole] : [outline],
    is: random() < 0.9 ? "roof" : "not-settled",
    depth,
    profile,
    surfaces,
    folds: { spots, lines },
  };
}

/** A deck on part of which a storey stands, in two areas that share an edge: the scene has both, the job one, and the outline of the storey. */
function setBack(random: Random): Drawn["areas"] {
  const [profile, depth] = pick(random, DECKS);
  const turn = random() < 0.5 ? 0 : 2 * Math.PI * random();
  const [c, s] = [Math.cos(turn), Math.sin(turn)];
  const turned = (ring: readonly Spot[]): Spot[] => ring.map(([x, y]) => [c * x - s * y, s * x + c * y]);
  const edge = spread(random, 30);
  const [left, right] = [turned(rectangle(-150, -120, edge, 120)), turned(rectangle(edge, -120, 150, 120))];
  const plane = surface([], 0, 0, 144, pick(random, SLOPES), 2 * Math.PI * random());
  const makes = random() < 0.8 ? "floor-above" : "not-settled";
  // Traced generously, as a storey's outline is where the deck ends with it.
  const traced = turned(rectangle(-200, -190, edge, 170));
  const whole = [turned(rectangle(-150, -120, 150, 120))];
  return [
    {
      id: "a0",
      rings: [left],
      is: makes,
      depth,
      profile,
      surfaces: [{ ...plane, rings: [left] }],
      storey: { whole, traced, makes },
    },
    { id: "a1", rings: [right], is: "roof", depth, profile, surfaces: [{ ...plane, rings: [right] }] },
  ];
}

/** Kinds of wiring that are put under folded decks too. */
const ON_FOLDS: ReadonlySet<Kind> = new Set(["couplings", "racks", "wireways"]);

/** One scene of a kind. */
export function draw(kind: Kind, random: Random, required: number): Drawn {
  const drawn: Drawn = { areas: [], runs: [], boxes: [], bars: [], racks: [] };
  const { areas, runs, boxes, bars, racks } = drawn;
  const middles: Spot[] = [];
  const add = (rings: Rings, x: number, y: number): void => {
    areas.push(anyArea(random, areas.length, kind, rings, x, y));
    middles.push([x, y]);
  };
  if (kind === "limit") return atLimit(random, required);
  if (kind === "degenerate") return degenerate(random);
  if (kind === "bends") return bent(random, required);
  if (kind === "bays") {
    // Bays that share their sides, so that what is beside one is under the next.
    const [w, h] = [120 + 80 * random(), 120 + 80 * random()];
    for (let i = 0; i < 2; i++)
      for (let j = 0; j < 2; j++)
        if (random() < 0.9) add([rectangle(i * w, j * h, (i + 1) * w, (j + 1) * h)], (i + 0.5) * w, (j + 0.5) * h);
    if (areas.length === 0) add([rectangle(0, 0, w, h)], w / 2, h / 2);
  } else if (kind === "folded" || (ON_FOLDS.has(kind) && random() < 0.4)) {
    areas.push(foldedArea(random));
    middles.push([0, 0], [60, 40]);
  } else if (kind === "setback") {
    areas.push(...setBack(random));
    middles.push([0, 0], [0, 60]);
  } else if (kind === "stacked") {
    add([star(random, 0, 0, 5, 60, 160)], 0, 0);
    const over = anyArea(random, 1, kind, [star(random, spread(random, 60), 0, 6, 60, 160)], 0, 0);
    const up = 10 + 60 * random();
    areas.push({
      ...over,
      ...(over.surfaces && { surfaces: over.surfaces.map((each) => ({ ...each, c: each.c + up })) }),
    });
    middles.push([0, 0]);
  } else {
    const count = 1 + Math.floor(random() * 3);
    for (let i = 0; i < count; i++) {
      const [x, y] = [i * 330, spread(random, 100)];
      add(anyRings(random, x, y), x, y);
    }
  }
  const many = kind === "boxes" ? 1 : 2;
  for (let i = 0; i < many; i++)
    runs.push(anyRun(random, i, areas, ...pick(random, middles), kind !== "stacked" && random() < 0.4));
  if (kind === "couplings")
    for (const [i, run] of runs.entries()) if (random() < 0.8) runs[i] = { ...run, standsOut: 0.05 + 0.6 * random() };
  if (kind === "racks") racks.push(anyRack(random, areas, runs.pop()!));
  for (const { raceways } of racks) runs.push(...raceways);
  if (kind === "wireways") for (const run of runs.splice(0)) bars.push(anyBar(random, run));
  if (kind === "stacked") {
    for (const [i, run] of runs.entries())
      runs[i] = { ...run, points: run.points.map(([x, y]): Place => [x, y, run.points[0]![2]]) };
  }
  if (kind === "boxes") for (let i = 0; i < 3; i++) boxes.push(anyBlock(random, i, areas, ...pick(random, middles)));
  return drawn;
}

/** How far from exactly at the limit: nothing, what is surely rounding, what surely is not. */
const OFF = [0, 0, 0, 1e-9, -1e-9, 2e-8, -2e-8, 1e-6, -1e-6, 1e-3, -1e-3];

/** Under a deck, beside its edge, off its corner, or under a slope, at the limit but for `OFF`. */
function atLimit(random: Random, required: number): Drawn {
  const [size, outside] = pick(random, EMT);
  const radius = outside / 2;
  const away = required + radius + pick(random, OFF);
  const slope = pick(random, SLOPES);
  const rings: Rings = [rectangle(-150, -100, 150, 100)];
  const [profile, depth] = pick(random, DECKS);
  const z = pick(random, [144, 150.25, 140 + 8 * random()]);
  const way = 2 * Math.PI * random();
  const place = random();
  const deck = surface(rings, 0, 0, z, place < 0.5 ? slope : 0, way);
  const steep = Math.hypot(deck.gx, deck.gy, 1);
  const under = (x: number, y: number): Place => [x, y, heightOf(deck, [x, y]) - away * steep];
  let points: Place[];
  if (place < 0.5)
    points = [under(spread(random, 90), spread(random, 40)), under(spread(random, 90), spread(random, 40))];
  else {
    // A right triangle between the edge and the run: beside and below by what makes up the distance.
    const part = 2 * Math.PI * random();
    const [out, down] = [Math.abs(Math.cos(part)) * away, Math.sin(part) * away];
    points =
      place < 0.75
        ? [
            [150 + out, spread(random, 90), z - down],
            [150 + out, spread(random, 90), z - down],
          ]
        : [
            [150 + 0.6 * out, 100 + 0.8 * out, z - down],
            [150 + 0.6 * out + 40, 100 + 0.8 * out + 30 * random(), z - down],
          ];
  }
  const boxes: PlainBox[] = [];
  if (place < 0.5) {
    const half: Place = [2, 3, 1.0625];
    const turn = 2 * Math.PI * random();
    // The corner that comes nearest to a falling deck.
    const [c, s] = [Math.cos(turn), Math.sin(turn)];
    const dip = Math.abs(c * deck.gx + s * deck.gy) * half[0] + Math.abs(c * deck.gy - s * deck.gx) * half[1];
    const spot: Spot = [spread(random, 50), spread(random, 30)];
    const top = heightOf(deck, spot) - dip - (required + pick(random, OFF)) * steep;
    boxes.push({ id: "b0", block: { centre: [...spot, top - half[2]], half, turn } });
  }
  return {
    areas: [{ id: "a0", rings, is: "roof", depth, profile, surfaces: [deck] }],
    runs: [{ id: "r0", size, radius, points }],
    boxes,
    bars: [],
    racks: [],
  };
}

/** A run that turns a corner under a high deck, with the tip of a lower one within the corner: what comes near that is the curve of the bend. */
function bent(random: Random, required: number): Drawn {
  const [size, outside] = pick(random, EMT);
  const radius = outside / 2;
  const bend = 3 + 25 * random();
  const half = (0.28 + 0.5 * random()) * (Math.PI / 2) + 0.1;
  const turn = 2 * Math.PI * random();
  const ray = (angle: number, by: number): Spot => [by * Math.cos(turn + angle), by * Math.sin(turn + angle)];
  // From the corner to the middle of its curve, and on to the tip.
  const out = bend / Math.sin(half) - bend + required + radius + spread(random, 0.8);
  const tip = ray(0, out);
  const ring = [tip, ...[-0.5, 0.5].map((part) => ray(part * half, 60 + out))];
  const low = surface(
    [ring],
    ...tip,
    144 + spread(random, 0.4),
    pick(random, SLOPES.slice(0, 5)),
    2 * Math.PI * random(),
  );
  const rim: Rings = [rectangle(-700, -700, 700, 700)];
  const high = random() < 0.85 ? [surface(rim, 0, 0, 200, 0, 0)] : undefined;
  const [profile, depth] = pick(random, DECKS);
  const area = { is: "roof", depth, profile } as const;
  return {
    areas: [
      { id: "a0", rings: [ring], surfaces: [low], ...area },
      { id: "a1", rings: rim, surfaces: high, ...area },
    ],
    runs: [
      {
        id: "r0",
        size,
        radius,
        bend,
        points: [-half, 0, half].map((at): Place => [...ray(at, at === 0 ? 0 : 120), 144]),
      },
    ],
    boxes: [],
    bars: [],
    racks: [],
  };
}

/** Nothing but edge cases: points, vertical runs, runs in the plane of the deck, along its edge, through a corner; slivers of deck. */
function degenerate(random: Random): Drawn {
  const [size, outside] = pick(random, EMT);
  const radius = outside / 2;
  const [profile, depth] = pick(random, DECKS);
  const sliver = random() < 0.3;
  const width = sliver ? 10 ** -(1 + 3 * random()) : 80 + 60 * random();
  const turn = random() < 0.5 ? 0 : 2 * Math.PI * random();
  const turned = ([x, y]: Spot): Spot => [
    x * Math.cos(turn) - y * Math.sin(turn),
    x * Math.sin(turn) + y * Math.cos(turn),
  ];
  const ring =
    random() < 0.5
      ? rectangle(0, 0, 200, width)
      : ([
          [0, 0],
          [200, 0],
          [100, width],
        ] as Spot[]);
  const rings: Rings = [ring.map(turned)];
  const deck = surface(rings, 0, 0, 144, pick(random, SLOPES), 2 * Math.PI * random());
  const on = (x: number, y: number, up = 0): Place => {
    const spot = turned([x, y]);
    return [...spot, heightOf(deck, spot) + up];
  };
  const here = [spread(random, 200) + 100, sliver ? spread(random, 3) : spread(random, 150) + 50] as const;
  const gap = -radius - anyGap(random);
  const point = on(...here, gap);
  const lines: readonly (() => Place[])[] = [
    () => [point, point],
    () => [point, point, on(here[0] + 20, here[1], gap)],
    () => [point, [point[0], point[1], point[2] + spread(random, 60)]],
    () => [on(20, 0.3 * width), on(150, 0.6 * width)],
    () => [on(-30, 0, -1 - 3 * random()), on(230, 0, -1 - 3 * random())],
    () => [on(0, 0, gap), on(200, 0, gap)],
    () => [on(-50, -50, gap), on(50, 50, gap)],
    () => [on(100, 0.5 * width, -20), on(100, 0.5 * width, 20)],
    () => [on(10, 0.5 * width, -1e-9), on(20, 0.5 * width, 1e-9)],
    () => [on(50, -radius - 1.5), on(150, -radius - 1.5 + 1e-9)],
  ];
  return {
    areas: [{ id: "a0", rings, is: "roof", depth, profile, surfaces: [deck] }],
    runs: [{ id: "r0", size, radius, points: pick(random, lines)() }],
    boxes: [],
    bars: [],
    racks: [],
  };
}
