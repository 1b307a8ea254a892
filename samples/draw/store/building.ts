import { FOOT, type Grid, type Plan, type PlanPlace, rectangle } from "../plan-place.ts";

/**
 * The Fennick Lane Store: a building invented for this sample. Plan coordinates in inches from grid 1 / A, x east and y north. The finished
 * floor of Level 1 is elevation 100'-0" above the project datum, so a height above that floor is an elevation less 1200 in.
 */
export const LEVEL_1 = 1200;
/** Finished floor of the mezzanine level, on the slab of the training room and the mechanical mezzanine: 112'-5". */
export const MEZZANINE = 1349;

const ft = (feet: number): number => feet * FOOT;
export const EAST = ft(240);
export const NORTH = ft(160);
export const GRID: Grid = {
  x: ["1", "2", "3", "4", "5", "6", "7", "8", "9"].map((name, i) => ({ name, at: ft(i * 30) })),
  y: ["A", "B", "C", "D", "E", "F"].map((name, i) => ({ name, at: ft(i * 32) })),
};
/** Grid lines that matter by name: the ridge (C), the valley (D), the step to the low roofs (E and 7). */
export const GRID_5 = ft(120);
export const GRID_7 = ft(180);
export const GRID_8 = ft(210);
export const GRID_C = ft(64);
export const GRID_D = ft(96);
export const GRID_E = ft(128);

/** The valley of the sales roof: elevations of its lowest surface at the ridge, at the high points and at the drains of the valley. */
export const VALLEY = { ridge: 1420, high: 1412, drain: 1408.25, half: ft(30), reach: ft(32) } as const;

/** The points of the valley roof whose elevation is given, as on S-120: ridge (0 to 3), valley from west to east (4 to 10), grid E (11 to 14). */
export function valleySpots(): readonly { readonly at: Plan; readonly z: number }[] {
  const { ridge, high, drain, half } = VALLEY;
  const highs = [0, 2, 4, 6].map((k) => k * half);
  return [
    ...highs.map((x) => ({ at: [x, GRID_C] as const, z: ridge })),
    ...[0, 1, 2, 3, 4, 5, 6].map((k) => ({ at: [k * half, GRID_D] as const, z: k % 2 === 0 ? high : drain })),
    ...highs.map((x) => ({ at: [x, GRID_E] as const, z: ridge })),
  ];
}

/** The lines along which the valley roof folds, between its spots: ridges, the valley, and the edges of the crickets. */
export function valleyLines(): readonly {
  readonly between: readonly [number, number];
  readonly kind: "ridge" | "valley";
}[] {
  const lines: { between: readonly [number, number]; kind: "ridge" | "valley" }[] = [];
  for (let bay = 0; bay < 3; bay++) {
    const drain = 5 + 2 * bay;
    for (const ridge of [bay, 11 + bay]) {
      lines.push({ between: [ridge, ridge + 1], kind: "ridge" });
      lines.push({ between: [ridge, drain], kind: "valley" }, { between: [ridge + 1, drain], kind: "valley" });
    }
    lines.push({ between: [drain - 1, drain], kind: "valley" }, { between: [drain, drain + 1], kind: "valley" });
  }
  return lines;
}

/** Deck outlines in plan. */
export const OUTLINES = {
  "sales-south": rectangle(0, 0, GRID_7, GRID_C),
  "sales-north": rectangle(0, GRID_C, GRID_7, GRID_E),
  stock: rectangle(0, GRID_E, GRID_5, NORTH),
  bakery: rectangle(GRID_5, GRID_E, GRID_7, NORTH),
  pharmacy: rectangle(GRID_7, 0, EAST, GRID_C),
  training: rectangle(GRID_7, GRID_C, GRID_8, GRID_D),
  mezzanine: rectangle(GRID_8, GRID_C, EAST, GRID_D),
  penthouse: rectangle(GRID_7, GRID_C, EAST, GRID_D),
  receiving: rectangle(GRID_7, GRID_D, EAST, NORTH),
  canopy: rectangle(ft(75), ft(-14), ft(105), 0),
} as const;
export type DeckName = keyof typeof OUTLINES;
/** The deck over both the training room's and the mezzanine's bay: one deck, of which not everything above is settled. */
export const MEZZANINE_DECK = rectangle(GRID_7, GRID_C, EAST, GRID_D);

/** Openings through the decks: skylights over the sales floor, a hatch over the stock room, a shaft over the ovens. */
export const HOLES: Readonly<Partial<Record<DeckName, readonly (readonly Plan[])[]>>> = {
  "sales-south": [20, 50, 80, 110, 140, 170].map((x) => rectangle(ft(x - 2), ft(36), ft(x + 2), ft(44))),
  stock: [rectangle(ft(64), ft(146), ft(67), ft(149))],
  bakery: [rectangle(ft(160), ft(142), ft(166), ft(150))],
};

/**
 * The lowest surface of a deck over a plan point: the very planes of the drawings. Used to route believably; what the check says of the
 * routes it works out for itself from the job.
 */
export function lowest(deck: DeckName, [x, y]: Plan): number {
  switch (deck) {
    case "sales-south":
      return 1420 - (GRID_C - y) / 48;
    case "sales-north": {
      const { ridge, high, drain, half, reach } = VALLEY;
      const u = Math.abs((x % (2 * half)) - half) / half;
      const v = Math.abs(y - GRID_D) / reach;
      return drain + (ridge - high) * v + (high - drain) * Math.max(u, v);
    }
    case "stock":
      return 1368;
    case "bakery":
      return 1392 - (y - GRID_E) / 96;
    case "pharmacy":
      return LEVEL_1 + 174 - (x - GRID_7) / 48;
    case "training":
    case "mezzanine":
      return 1344;
    case "penthouse":
      return 1488;
    case "receiving":
      return 1392;
    case "canopy":
      return 1332;
  }
}

/** What stands on the mezzanine deck, to the outer faces of its walls: the training room, and the mechanical mezzanine beside it. */
export const STANDING = {
  training: rectangle(GRID_7 - 6, GRID_C - 6, GRID_8, GRID_D + 6),
  mechanical: rectangle(GRID_8, GRID_C - 6, EAST + 6, GRID_D + 6),
} as const;

/** The four parts in which the power plan is drawn, each by what of the building it shows. */
export const PARTS = {
  sw: { sheet: "E-121", name: "SOUTH WEST", x: [0, ft(120)], y: [ft(-16), ft(72)] },
  se: { sheet: "E-122", name: "SOUTH EAST", x: [ft(120), EAST], y: [ft(-16), ft(72)] },
  nw: { sheet: "E-123", name: "NORTH WEST", x: [0, ft(120)], y: [ft(72), NORTH] },
  ne: { sheet: "E-124", name: "NORTH EAST", x: [ft(120), EAST], y: [ft(72), NORTH] },
} as const satisfies Record<
  string,
  { sheet: string; name: string; x: readonly [number, number]; y: readonly [number, number] }
>;
export type PartName = keyof typeof PARTS;
export const PART_NAMES = Object.keys(PARTS) as PartName[];

/** All sheets are 36 x 24 in. */
export const PAPER = { width: 36 * 72, height: 24 * 72 } as const;
/** Roof framing and roof plans: 3/32" = 1'-0". */
export const ROOF_PLACE: PlanPlace = { pointsPerInch: 72 / 128, origin: [232, 300] };
/** Parts of the power plan: 3/16" = 1'-0"; the south-west corner of each part at one place on its sheet. */
export function partPlace(part: PartName): PlanPlace {
  const { x, y } = PARTS[part];
  const pointsPerInch = 72 / 64;
  return { pointsPerInch, origin: [212 - x[0] * pointsPerInch, 268 - y[0] * pointsPerInch] };
}
