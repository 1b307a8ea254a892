import type { Face } from "../geometry/face.ts";
import { levelLines, partBelow } from "../geometry/level-lines.ts";
import type { Point2 } from "../geometry/point.ts";
import type { Polygon } from "../geometry/polygon.ts";
import type { UnitSystem } from "../units/length.ts";
import { type Inches, inches, MM_PER_INCH } from "../units/quantity.ts";
import type { Drops, Room } from "./hanging-room.ts";

/** How high the centre of one size of wiring may hang under one roof, place by place. Plan in building space. */
export interface RoomMap {
  /** Where the centre may be just as high: the elevation a step of the tape, as `Room.storey` counts it. None under a level deck. */
  readonly lines: readonly RoomLine[];
  /** The highest permitted centre where the deck is lowest and where it is highest. Not rounded. */
  readonly lowest: Inches;
  readonly highest: Inches;
  /** Where the wiring at its highest would still reach below the ceiling; empty where no ceiling is given. */
  readonly noRoom: readonly Polygon[];
}

/** A line of equal permitted elevation, in pieces. */
export interface RoomLine {
  readonly elevation: Inches;
  readonly pieces: readonly (readonly [Point2, Point2])[];
}

/** Steps between lines, the finest first, in the unit of the tape. */
const STEPS: Readonly<Record<UnitSystem, readonly number[]>> = {
  imperial: [1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24, 48],
  metric: [5, 10, 25, 50, 100, 250, 500, 1000].map((mm) => mm / MM_PER_INCH),
};
/** More lines than these under one deck are no help to anybody. */
const MOST_LINES = 10;

/**
 * The map of the room under one roof for one of its sizes. What hangs as its lines say is clear, as `hangingRoom` has it: the same drop is taken
 * under all faces of a deck, that of the steepest one, so that beside a ridge or valley the lines are on the safe side. `ceiling` counts
 * as the lines do.
 */
export function roomMap(room: Room, drops: Drops, system: UnitSystem, ceiling?: Inches): RoomMap {
  const datum = room.storey?.floor ?? 0;
  const centreBelowDeck = drops.centre + room.deckSlack;
  const permitted = (deck: number): Inches => inches(deck - centreBelowDeck - datum);
  const lowest = permitted(Math.min(...room.faces.map(({ box }) => box.min[2])));
  const highest = permitted(Math.max(...room.faces.map(({ box }) => box.max[2])));
  const lines = elevationsBetween(lowest, highest, STEPS[system]).map((elevation) => ({
    elevation,
    pieces: room.faces.flatMap((face) => levelLines(face, elevation + datum + centreBelowDeck)),
  }));
  const needed = ceiling === undefined ? undefined : ceiling + datum + drops.bottom + room.deckSlack;
  return {
    lines: lines.filter(({ pieces }) => pieces.length > 0),
    lowest,
    highest,
    noRoom: needed === undefined ? [] : room.faces.flatMap((face: Face) => partBelow(face, needed)),
  };
}

/** Multiples of the finest step that leaves few enough of them. */
function elevationsBetween(low: number, high: number, steps: readonly number[]): Inches[] {
  const step = steps.find((each) => (high - low) / each <= MOST_LINES) ?? steps.at(-1)!;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => inches((first + i) * step));
}
