import { describe, expect, it } from "vitest";
import { hangingRoom } from "../../src/check/hanging-room.ts";
import { type RoomMap, roomMap } from "../../src/check/room-map.ts";
import { lerp2, type Point2 } from "../../src/geometry/point.ts";
import { area as sizeOf } from "../../src/geometry/polygon.ts";
import type { Area, Job } from "../../src/job/schema.ts";
import { inches } from "../../src/units/quantity.ts";
import { findingOf, hipSpots, inch, inchJob, rectangle, roof, run, withParts } from "./inch-job.ts";

/** Tags and decks without tolerance: the lines are then just at the limit. */
function exact(): Job {
  const job = inchJob();
  const none = { tags: inch(0), decks: inch(0), plan: inch(0) };
  return { ...job, settings: { job: { ...job.settings.job, tolerances: none } } };
}

/** Over (0,0) to (600,600), falling 1/4 in. a foot towards +x from 160: 147.5 at x = 600. */
const falling: Area = {
  ...roof(null),
  elevation: {
    ...roof(null).elevation,
    shape: { is: "slope", at: inch(160), point: [0, 300], towards: [600, 300], rise: 1 / 48, text: "" },
  },
};

const mapOf = (area: Area, ceiling?: number, base: Job = exact()): RoomMap => {
  const [room] = hangingRoom(withParts(base, { a: area }, {}));
  if (room?.is !== "room") throw new Error(`expected room, got ${room?.is}`);
  const drops = room.room.drops.find(({ wiring }) => wiring.label === "EMT 3/4")!;
  return roomMap(room.room, drops, base.settings.job.system, ceiling === undefined ? undefined : inches(ceiling));
};

/** 3/4 EMT is 0.922 in. across (ANSI C80.3); square to the slope 1.961 in. from its centre, straight down a little more. */
const DROP = 1.961 * Math.sqrt(1 + (1 / 48) ** 2);

describe("the map of the room under a roof", () => {
  it("has its lines where the deck less the drop is a step of the tape, worked by hand", () => {
    const { lines, lowest, highest } = mapOf(falling);
    expect(highest).toBeCloseTo(160 - DROP, 9);
    expect(lowest).toBeCloseTo(147.5 - DROP, 9);
    // 145.5386 to 158.0386: 12.5 in. are 13 lines by the inch, too many, and six by 2 in.
    expect(lines.map(({ elevation }) => elevation)).toEqual([146, 148, 150, 152, 154, 156, 158]);
    for (const { elevation, pieces } of lines) {
      const [piece, second] = pieces;
      expect(second).toBeUndefined();
      // The deck is `elevation + DROP` high where 160 - x / 48 is.
      for (const [x] of piece!) expect(x).toBeCloseTo((160 - elevation - DROP) * 48, 6);
    }
  });

  it("is what the check says: clear on a line, too close a hair above it", () => {
    const { lines } = mapOf(falling);
    for (const { elevation, pieces } of lines) {
      const [from, to] = pieces[0]!;
      const [a, b]: Point2[] = [lerp2(from, to, 0.2), lerp2(from, to, 0.8)];
      const hung = (z: number) =>
        run([
          [a![0], a![1], z],
          [b![0], b![1], z],
        ]);
      expect(findingOf({ a: falling }, hung(elevation), exact()).verdict).toBe("clear");
      expect(findingOf({ a: falling }, hung(elevation + 0.001), exact()).verdict).toBe("too-close");
    }
  });

  it("keeps the tolerances of tags and decks off its lines, so that what follows them is never borderline", () => {
    const base = inchJob();
    const { lines } = mapOf(falling, undefined, base);
    const { elevation, pieces } = lines[2]!;
    const [from, to] = pieces[0]!;
    const hung = run([
      [...lerp2(from, to, 0.3), elevation],
      [...lerp2(from, to, 0.7), elevation],
    ] as [number, number, number][]);
    expect(findingOf({ a: falling }, hung, base).verdict).toBe("clear");
  });

  it("has no lines under a level deck, and one elevation", () => {
    expect(mapOf(roof(144))).toMatchObject({ lines: [], noRoom: [] });
    expect(mapOf(roof(144)).highest).toBeCloseTo(144 - 1.961, 9);
    expect(mapOf(roof(144)).lowest).toBe(mapOf(roof(144)).highest);
  });

  it("has millimetres in a metric job", () => {
    const job = exact();
    const metric: Job = { ...job, settings: { job: { ...job.settings.job, system: "metric" } } };
    const { lines } = mapOf(falling, undefined, metric);
    // 317.5 mm of fall: by 50 mm.
    const steps = lines.map(({ elevation }) => (elevation * 25.4) / 50);
    for (const step of steps) expect(step).toBeCloseTo(Math.round(step), 9);
    expect(lines.length).toBeGreaterThanOrEqual(6);
  });

  it("shows where the wiring does not fit above a ceiling", () => {
    // At its highest its bottom is at deck - DROP - 0.461; below a ceiling at 150 that is where 160 - x / 48 < 150 + DROP + 0.461.
    const from = (160 - 150 - DROP - 0.461) * 48;
    const { noRoom } = mapOf(falling, 150);
    expect(noRoom.reduce((sum, each) => sum + sizeOf(each), 0)).toBeCloseTo((600 - from) * 600, 3);
    expect(mapOf(falling, 140).noRoom).toEqual([]);
    expect(mapOf(roof(144), 142).noRoom.map(sizeOf)).toEqual([360000]);
    expect(mapOf(roof(144), 141).noRoom).toEqual([]);
  });

  it("counts from the floor of the storey that the deck counts from", () => {
    const base = exact();
    const storeys: Job["storeys"] = { "level-1": { name: "Level 1", floor: inch(100) } };
    const area: Area = {
      ...roof(44),
      elevation: { ...roof(44).elevation, datum: { from: "storey", storey: "level-1" } },
    };
    const map = mapOf(area, undefined, { ...base, storeys: { ...base.storeys, ...storeys } });
    expect(map.highest).toBeCloseTo(44 - 1.961, 9);
  });
});

/**
 * A hip roof worked out by hand: eaves at 120 along 480 x 240, the ridge at 160 from (120, 120) to (360, 120); every side rises 40 in 120. Its
 * lowest surface is at 120 and a third of the way in from the nearest eave.
 */
const hip: Area = {
  ...roof(null, { outline: rectangle(0, 0, 480, 240) }),
  elevation: {
    ...roof(null).elevation,
    shape: {
      is: "spots",
      spots: hipSpots(),
      lines: [
        { between: [5, 6], kind: "ridge" },
        { between: [1, 5], kind: "hip" },
        { between: [4, 5], kind: "hip" },
        { between: [2, 6], kind: "hip" },
        { between: [3, 6], kind: "hip" },
      ],
    },
  },
};
const inFromEave = ([x, y]: Point2): number => Math.min(x, y, 480 - x, 240 - y);

describe("the map under a folded deck", () => {
  /** Square to a rise of 1 in 3, 1.961 in. are 1.961 x sqrt(10) / 3 straight down. */
  const drop = (1.961 * Math.sqrt(10)) / 3;

  it("has every line all round at one distance from the eaves, worked by hand", () => {
    const { lines, lowest, highest } = mapOf(hip);
    expect(lowest).toBeCloseTo(120 - drop, 9);
    expect(highest).toBeCloseTo(160 - drop, 9);
    // 117.933 to 157.933: 40 in. are seven lines by 6 in.
    expect(lines.map(({ elevation }) => elevation)).toEqual([120, 126, 132, 138, 144, 150, 156]);
    for (const { elevation, pieces } of lines) {
      const d = 3 * (elevation + drop - 120);
      for (const at of pieces.flat()) expect(inFromEave(at)).toBeCloseTo(d, 6);
      const length = pieces.reduce((sum, [a, b]) => sum + Math.hypot(b[0] - a[0], b[1] - a[1]), 0);
      expect(length).toBeCloseTo(2 * (480 - 2 * d) + 2 * (240 - 2 * d), 6);
    }
  });

  it("has the check's own answer at places on its lines: clear there, too close a hair above", () => {
    for (const { elevation, pieces } of mapOf(hip).lines)
      for (const [from, to] of pieces) {
        const places = [lerp2(from, to, 0.3), lerp2(from, to, 0.7)] as const;
        const hung = (z: number) => run(places.map(([x, y]) => [x, y, z] as const));
        expect(findingOf({ a: hip }, hung(elevation), exact()).verdict).toBe("clear");
        expect(findingOf({ a: hip }, hung(elevation + 0.001), exact()).verdict).toBe("too-close");
      }
  });

  it("leaves no room along the eaves where a ceiling takes it, folds notwithstanding", () => {
    // Its bottom at the ceiling: the deck is 138 + drop + 0.461 there, so far in from the eaves.
    const d = 3 * (138 + drop + 0.461 - 120);
    const left = mapOf(hip, 138).noRoom.reduce((sum, each) => sum + sizeOf(each), 0);
    expect(left).toBeCloseTo(480 * 240 - (480 - 2 * d) * (240 - 2 * d), 4);
  });

  it("moves with the deck: an inch lower, and each line is three inches farther in", () => {
    const { shape } = hip.elevation;
    if (shape.is !== "spots") throw new Error("spots");
    const spots = shape.spots.map(({ at, elevation }) => ({ at, elevation: inch(elevation!.value - 1) }));
    const lower: Area = { ...hip, elevation: { ...hip.elevation, shape: { ...shape, spots } } };
    const distances = (area: Area) =>
      new Map(mapOf(area).lines.map(({ elevation, pieces }) => [elevation, inFromEave(pieces[0]![0])]));
    const [before, after] = [distances(hip), distances(lower)];
    for (const elevation of [120, 126, 144].map(inches))
      expect(after.get(elevation)! - before.get(elevation)!).toBeCloseTo(3, 6);
  });
});
