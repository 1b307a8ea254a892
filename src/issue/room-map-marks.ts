import type { AreaRoom, Room } from "../check/hanging-room.ts";
import { type RoomMap, roomMap } from "../check/room-map.ts";
import type { Picture, PictureItem } from "../geometry/picture.ts";
import { distance2, lerp2, type Point2 } from "../geometry/point.ts";
import { labelPoint, type Polygon, segmentInside } from "../geometry/polygon.ts";
import { applyTo, invert } from "../geometry/similarity.ts";
import type { Id } from "../job/fields.ts";
import { sheetToBuilding } from "../job/registration.ts";
import type { Job } from "../job/schema.ts";
import type { TextRun } from "../pdf/read/plan-contents.ts";
import { formatLength } from "../units/format-length.ts";
import { type Length, toInches, type UnitSystem } from "../units/length.ts";
import { type Clip, clipLine, clipOf } from "./clip-drawing.ts";
import { OKABE_ITO } from "./inks.ts";
import type { Label } from "./kinds/drawing.ts";
import { spotsAlong, spotsOver } from "./kinds/label-spots.ts";
import { Occupancy } from "./occupancy.ts";
import { linePath } from "./paths.ts";
import { placeLabel } from "./place-label.ts";
import { type SheetFrame, sheetFrame } from "./sheet-frame.ts";
import { showLeast } from "./show-length.ts";

/** What a room map is drawn for: one size by its label, and the ceiling, counted as the areas count their elevations. */
export interface RoomMapChoice {
  readonly wiring: string;
  readonly ceiling: Length | null;
}

/** The map of one deck area on one sheet, sheet space. */
export interface RoomMapMark {
  /** `room:AREA@VIEWPORT`, with a number where storeys above part the area. */
  readonly key: string;
  readonly picture: Picture;
}

const INK = OKABE_ITO.blue;
/** Between hatch lines where there is no room, points of paper. */
const HATCH_STEP = 7;

/**
 * The room map of a sheet: under every roof whose lowest surface is known lines of equal elevation with the highest permitted centre of the
 * chosen size, one number under a level deck, and hatching where it does not fit above the ceiling. `words` are the drawing's own:
 * numbers look for room beside them.
 */
export function roomMapMarks(
  job: Job,
  rooms: readonly AreaRoom[],
  sheet: Id,
  choice: RoomMapChoice,
  words: readonly TextRun[] = [],
): RoomMapMark[] {
  const page = job.sheets[sheet];
  if (!page) return [];
  const { system } = job.settings.job;
  const frame = sheetFrame(page);
  const occupancy = new Occupancy(frame.view, 3 * frame.point);
  for (const text of words) occupancy.addLine([text.at, endOf(text)], 3);
  const used = new Map<string, number>();
  return Object.entries(job.viewports).flatMap(([viewport, { sheet: own }]) => {
    const registered = sheetToBuilding(job, viewport);
    if (own !== sheet || !registered.ok) return [];
    const back = invert(registered.value.sim);
    const clip = clipOf(job, viewport);
    return rooms.flatMap((area): RoomMapMark[] => {
      if (area.is !== "room" || area.room.root !== registered.value.root) return [];
      const drops = area.room.drops.find(({ wiring }) => wiring.label === choice.wiring);
      if (!drops) return [];
      const map = roomMap(area.room, drops, system, choice.ceiling ? toInches(choice.ceiling) : undefined);
      const drawn = new RoomPicture(frame, occupancy, clip, system, (at) => applyTo(back, at));
      const picture = drawn.of(map, area.room);
      const name = `room:${area.id}@${viewport}`;
      const count = (used.get(name) ?? 0) + 1;
      used.set(name, count);
      return picture.length === 0 ? [] : [{ key: count > 1 ? `${name}:${count}` : name, picture }];
    });
  });
}

const endOf = ({ at: [x, y], angle, width }: TextRun): Point2 => [
  x + width * Math.cos(angle),
  y + width * Math.sin(angle),
];

/** Draws one map on one viewport. */
class RoomPicture {
  readonly #frame: SheetFrame;
  readonly #occupancy: Occupancy;
  readonly #clip: Clip;
  readonly #system: UnitSystem;
  readonly #place: (at: Point2) => Point2;

  constructor(frame: SheetFrame, occupancy: Occupancy, clip: Clip, system: UnitSystem, place: (at: Point2) => Point2) {
    this.#frame = frame;
    this.#occupancy = occupancy;
    this.#clip = clip;
    this.#system = system;
    this.#place = place;
  }

  of(map: RoomMap, { faces, storey }: Room): Picture {
    // An elevation never stands without what it is counted from.
    const counted = (text: string) => (storey ? `${text} AFF` : `el. ${text}`);
    const hatched = map.noRoom.flatMap((part) => this.#hatch(this.#placed(part)));
    if (map.lines.length > 0) return [...hatched, ...this.#lines(map, counted)];
    const [at] = this.#within([labelPoint(this.#placed(faces[0]!.polygon))]);
    const text = `centre at most ${counted(showLeast(map.lowest, this.#system))}`;
    return at ? [...hatched, ...placeLabel(this.#label(text, spotsOver(this.#frame, at)), this.#occupancy)] : hatched;
  }

  #lines({ lines }: RoomMap, counted: (text: string) => string): PictureItem[] {
    const { point } = this.#frame;
    const paint = { stroke: INK, width: 0.7 * point, opacity: 0.8 };
    return lines.flatMap(({ elevation, pieces }) => {
      const drawn = pieces.flatMap((piece) => clipLine(piece.map(this.#place), this.#clip));
      const longest = drawn.reduce<readonly Point2[]>(
        (best, each) => (lengthOf(each) > lengthOf(best) ? each : best),
        [],
      );
      const number = counted(formatLength(elevation, this.#system));
      return [
        ...drawn.map((piece) => linePath(piece, paint)),
        ...placeLabel(this.#label(number, spotsAlong(this.#frame, longest, 0.5)), this.#occupancy),
      ];
    });
  }

  #label(text: string, spots: Label["spots"]): Label {
    return { lines: [{ text, size: 7 * this.#frame.point, face: "condensed", ink: INK }], spots };
  }

  /** Lines across a part, rising to the right as the sheet is displayed. */
  #hatch(part: Polygon): PictureItem[] {
    const { point, shift } = this.#frame;
    const paint = { stroke: OKABE_ITO.vermillion, width: 0.5 * point, opacity: 0.7 };
    const [dx, dy] = shift(1, 1);
    const [ux, uy] = [dx / Math.hypot(dx, dy), dy / Math.hypot(dx, dy)];
    const spread = (by: (at: Point2) => number): [number, number] => {
      const all = part.outline.map(by);
      return [Math.min(...all), Math.max(...all)];
    };
    const [low, high] = spread(([x, y]) => x * ux + y * uy);
    const [left, right] = spread(([x, y]) => y * ux - x * uy);
    const step = HATCH_STEP * point;
    const items: PictureItem[] = [];
    for (let off = Math.ceil(left / step) * step; off < right; off += step) {
      const at = (along: number): Point2 => [along * ux - off * uy, along * uy + off * ux];
      const [from, to] = [at(low), at(high)];
      for (const [a, b] of segmentInside(part, from, to))
        for (const piece of clipLine([lerp2(from, to, a), lerp2(from, to, b)], this.#clip))
          items.push(linePath(piece, paint));
    }
    return items;
  }

  #placed({ outline, holes }: Polygon): Polygon {
    return { outline: outline.map(this.#place), holes: holes.map((ring) => ring.map(this.#place)) };
  }

  /** Those of the places that the viewport holds. */
  #within(places: readonly Point2[]): Point2[] {
    return places.filter((at) => clipLine([at, [at[0] + 1e-6, at[1]]], this.#clip).length > 0);
  }
}

const lengthOf = (line: readonly Point2[]): number =>
  line.slice(1).reduce((sum, at, i) => sum + distance2(line[i]!, at), 0);
