import { FOOT, type Grid, type Plan, type PlanPlace, rectangle } from "./plan-place.ts";

/**
 * The Riverside Workshop: a building invented for this sample. Plan coordinates in inches from grid 1 / A, x east and y north;
 * elevations in inches above the project datum, which is the finished floor of Level 1.
 */
/** Grid lines: numbers run east, letters run north. */
export const GRID_X = ["1", "2", "3", "4", "5"].map((name, i) => ({ name, at: i * 24 * FOOT }));
export const GRID_Y = ["A", "B", "C", "D"].map((name, i) => ({ name, at: i * 20 * FOOT }));
export const GRID: Grid = { x: GRID_X, y: GRID_Y };
export const EAST = 96 * FOOT;
export const NORTH = 60 * FOOT;
/** The step between the two roofs: grid 4. */
export const STEP = 72 * FOOT;
/** Grid C, where the store roof ends and the loft begins. */
export const LOFT = 40 * FOOT;

/** Deck areas by plan outline. */
export const OUTLINES = {
  hall: rectangle(0, 0, STEP, NORTH),
  store: rectangle(STEP, 0, EAST, LOFT),
  loft: rectangle(STEP, LOFT, EAST, NORTH),
  canopy: rectangle(24 * FOOT, -10 * FOOT, 48 * FOOT, 0),
} as const;

/** The runs as drawn on the ceiling sheet: label, what it is, its tag, and its route in plan. */
export interface DrawnRun {
  readonly label: string;
  readonly says: string;
  readonly route: readonly Plan[];
  /** Where its label stands: a plan point, and which way the lettering runs. */
  readonly note: { readonly at: Plan; readonly turn: 0 | 90 };
}

const ft = (feet: number): number => feet * FOOT;
export const RUNS: readonly DrawnRun[] = [
  {
    label: "R-1",
    says: `3/4" EMT  C.L. 15'-0" AFF`,
    route: [
      [ft(4), ft(32)],
      [ft(68), ft(32)],
    ],
    note: { at: [ft(50), ft(32)], turn: 0 },
  },
  {
    label: "R-2",
    says: `1" EMT  C.L. 14'-8" AFF`,
    route: [
      [ft(36), ft(32)],
      [ft(36), ft(2)],
    ],
    note: { at: [ft(36), ft(20)], turn: 90 },
  },
  {
    label: "R-3",
    says: `3/4" EMT  TOP 11'-10 1/2" AFF (SURVEYED)`,
    route: [
      [ft(74), ft(12)],
      [ft(94), ft(12)],
    ],
    note: { at: [ft(84), ft(12)], turn: 0 },
  },
  {
    label: "R-4",
    says: `3/4" EMT  C.L. 11'-10" AFF +/- 1/4"`,
    route: [
      [ft(74), ft(32)],
      [ft(94), ft(32)],
    ],
    note: { at: [ft(80), ft(32)], turn: 0 },
  },
  {
    label: "R-5",
    says: `1/2" EMT IN FLUTE  C.L. 15'-8 3/4" TO 15'-4 3/4" AFF`,
    route: [
      [ft(60), ft(44)],
      [ft(60), ft(28)],
    ],
    note: { at: [ft(60), ft(39)], turn: 90 },
  },
  {
    label: "R-6",
    says: `1" RMC, STEEL FITTINGS  TOP 14'-11 7/8" AFF`,
    route: [
      [ft(4), ft(12)],
      [ft(68), ft(12)],
    ],
    note: { at: [ft(26.5), ft(12)], turn: 0 },
  },
  {
    label: "R-7",
    says: `3/4" RMC  TOP 15'-9 1/2" AFF`,
    route: [
      [ft(4), ft(52)],
      [ft(68), ft(52)],
    ],
    note: { at: [ft(20), ft(52)], turn: 0 },
  },
  {
    label: "R-8",
    says: `3/4" EMT AT EDGE ANGLE  C.L. 12'-0 1/2" AFF`,
    route: [
      [STEP - 0.75, ft(5)],
      [STEP - 0.75, ft(25)],
    ],
    note: { at: [ft(70.6), ft(15)], turn: 90 },
  },
  {
    label: "R-9",
    says: `1 1/4" EMT  TOP 11'-11" AFF`,
    route: [
      [ft(86), ft(35)],
      [ft(86), ft(55)],
    ],
    note: { at: [ft(86), ft(49)], turn: 90 },
  },
  {
    label: "R-10",
    says: `3/4" EMT  TOP 11'-11 1/2" AFF`,
    route: [
      [ft(76), ft(45)],
      [ft(76), ft(57)],
    ],
    note: { at: [ft(76), ft(51)], turn: 90 },
  },
  {
    label: "R-11",
    says: `MC 12/2  C.L. 10'-5" AFF`,
    route: [
      [ft(26), ft(-5)],
      [ft(46), ft(-5)],
    ],
    note: { at: [ft(41), ft(-5)], turn: 0 },
  },
  {
    label: "R-12",
    says: `3/4" EMT  ELEV. NOT GIVEN`,
    route: [
      [ft(10), ft(34)],
      [ft(10), ft(56)],
    ],
    note: { at: [ft(10), ft(41)], turn: 90 },
  },
];

/** Boxes and the conduit body, by plan centre. */
export const BOXES = {
  "B-1": { at: [ft(18), ft(32)] as Plan, says: [`B-1  4" SQ. BOX, 2 1/8" DEEP`, `TOP 15'-3 3/4" AFF`] },
  "B-2": { at: [ft(84), ft(18)] as Plan, says: [`B-2  4" OCT. BOX, 1 1/2" DEEP`, `C.L. 4" BELOW DECK`] },
  "F-1": { at: [ft(36), ft(2)] as Plan, says: [`F-1  1" CONDUIT BODY`, `C.L. 14'-8" AFF`] },
} as const;

/** Where raceways enter panels, by plan point, with what is written beside it. */
export const ENTRIES = {
  "E-1": {
    at: [ft(86), ft(55)] as Plan,
    says: ["E-1  R-9 INTO PANEL LP-1", "1/0 AWG THWN-2", "INS. BUSHING 75 C, LOCKNUT"],
  },
  "E-2": {
    at: [ft(68), ft(12)] as Plan,
    says: ["E-2  R-6 INTO PANEL LP-2", "4 AWG THHN", "INS. BUSHING 105 C, LOCKNUT"],
  },
} as const;

/** Roof framing plan: 1/8" = 1'-0". */
export const FRAMING: PlanPlace = { pointsPerInch: 72 / 96, origin: [232, 540] };
/** Reflected ceiling plan: 1/4" = 1'-0". */
export const CEILING: PlanPlace = { pointsPerInch: 72 / 48, origin: [300, 396] };

/** Paper of the framing sheet as read: 24 x 18 in., stored upright and turned by /Rotate 90. */
export const FRAMING_PAPER = { width: 24 * 72, height: 18 * 72 } as const;
/** Paper of the ceiling sheet: 36 x 24 in. */
export const CEILING_PAPER = { width: 36 * 72, height: 24 * 72 } as const;

/** From the framing sheet as read to user space of its page (ISO 32000-2, 7.7.3.3: /Rotate turns the page clockwise). */
export const FRAMING_TO_PAGE = [0, 1, -1, 0, FRAMING_PAPER.height, 0] as const;
export const onFramingPage = ([x, y]: readonly [number, number]): readonly [number, number] => [
  FRAMING_PAPER.height - y,
  x,
];
