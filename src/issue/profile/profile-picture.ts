import type { RunProfile } from "../../check/run-profile.ts";
import { written } from "../../check/words.ts";
import type { Picture, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { inches, radians } from "../../units/quantity.ts";
import { ACCENT, FAINT_INK, INK, WHITE } from "../inks.ts";
import { linePath, rectPath } from "../paths.ts";
import { textWidth } from "../text-width.ts";
import { boxLabels, boxPlaces, drawBoxes, drawCouplings } from "./box-picture.ts";
import { cut, shifted } from "./cut-line.ts";
import { deckNames, drawDeck, drawDeckBeside } from "./deck-picture.ts";
import { type LabelBox, LabelRoom } from "./label-room.ts";
import { topOver, zAt } from "./profile-reading.ts";
import { type ProfileScale, type ProfileSize, profileScale } from "./profile-scale.ts";
import { racewayLanes } from "./raceway-lanes.ts";
import { rulers } from "./ruler.ts";
import { signRow } from "./sign-row.ts";
import { drawStretch } from "./stretch-picture.ts";

/** A profile as a picture, and how its space goes to stations and elevations. */
export interface DrawnProfile {
  readonly picture: Picture;
  readonly scale: ProfileScale;
}

/**
 * The run unrolled: deck, limit and wiring over the station, the stretches that need attention filled, rulers on both
 * axes. Pure. A scale that is given holds while what is drawn moves under somebody's hand. Without any known elevation it says so instead of drawing a line that nobody gave.
 */
export function profilePicture(
  profile: RunProfile,
  size: ProfileSize,
  scale: ProfileScale = profileScale(profile, size),
): DrawnProfile {
  const [x0, y0, x1, y1] = scale.plot;
  const picture: PictureItem[] = [...rulers(scale, profile.system, profile.label)];
  for (const deck of profile.decks) picture.push(...drawDeck(deck, scale));
  for (const deck of profile.beside ?? []) picture.push(...drawDeckBeside(deck, scale));
  for (const stretch of profile.stretches) picture.push(...drawStretch(profile, stretch, scale));
  const room = new LabelRoom();
  for (const place of boxPlaces(profile, scale)) room.keepOff(place);
  picture.push(
    ...drawOthers(profile, scale),
    ...drawWiring(profile, scale),
    ...drawCouplings(profile, scale),
    ...drawBoxes(profile, scale),
    ...flags(profile, scale, room),
    ...boxLabels(profile, scale, room),
    ...notes(profile, scale, room),
    ...deckNames(profile, scale),
    ...signRow(profile, scale),
    ...racewayLanes(profile, scale),
  );
  if (profile.axis.length === 0) {
    picture.push({
      type: "text",
      text: `${profile.label} has no elevation yet: give its vertices tags to see it against the deck`,
      at: [(x0 + x1) / 2, (y0 + y1) / 2],
      size: 9,
      angle: radians(0),
      align: "middle",
      face: "regular",
      fill: FAINT_INK,
    });
  }
  return { picture, scale };
}

function drawWiring({ axis, radiusIn }: RunProfile, scale: ProfileScale): PictureItem[] {
  const items: PictureItem[] = [];
  for (const piece of axis) {
    const over = topOver(piece, radiusIn);
    const top = cut(shifted(piece, over), scale);
    const bottom = cut(shifted(piece, -over), scale);
    if (top) {
      const body = bottom ?? [[top[0][0], scale.plot[1]] as Point2, [top[1][0], scale.plot[1]] as Point2];
      items.push(linePath([top[0], top[1], body[1], body[0]], { fill: ACCENT, opacity: 0.32 }, true));
      items.push(linePath(top, { stroke: ACCENT, width: 0.9 }));
    }
    if (bottom) items.push(linePath(bottom, { stroke: ACCENT, width: 0.9 }));
    const middle = cut(piece, scale);
    if (middle) items.push(linePath(middle, { stroke: ACCENT, width: 0.5, dash: [8, 2, 1.5, 2] }));
  }
  return items;
}

/** The other raceways of a rack, as thick as they are and fainter; where they are alike they lie behind one another. */
function drawOthers({ raceways = [], member }: RunProfile, scale: ProfileScale): PictureItem[] {
  const drawn = new Set<string>();
  return raceways.flatMap(({ axis, radiusIn, member: own }) =>
    own === member
      ? []
      : axis.flatMap((piece) => {
          const over = topOver(piece, radiusIn);
          const [top, bottom] = [cut(shifted(piece, over), scale), cut(shifted(piece, -over), scale)];
          const name = JSON.stringify([top, bottom]);
          if (drawn.has(name)) return [];
          drawn.add(name);
          return [
            ...(top && bottom ? [linePath([...top, bottom[1], bottom[0]], { fill: ACCENT, opacity: 0.1 }, true)] : []),
            ...[top, bottom].flatMap((edge) => (edge ? [linePath(edge, { stroke: ACCENT, width: 0.5 })] : [])),
          ];
        }),
  );
}

/** Vertex ticks through the wiring, with the tags that have room: beneath it, or above it, or at the plot's floor. */
function flags({ vertices, radiusIn }: RunProfile, scale: ProfileScale, room: LabelRoom): PictureItem[] {
  const items: PictureItem[] = [];
  const floor = scale.plot[1] + 3;
  for (const { station, z, tag } of vertices) {
    const seen = z !== null && z >= scale.low;
    const [x, y] = scale.toPicture({ station, z: seen ? z : scale.low });
    const half = radiusIn * scale.up + 3;
    if (seen)
      items.push(
        linePath(
          [
            [x, y - half],
            [x, y + half],
          ],
          { stroke: ACCENT, width: 1.1 },
        ),
      );
    if (tag === null) continue;
    const width = textWidth(tag, TAG, "condensed") + 4;
    const left = Math.min(Math.max(x - width / 2, scale.plot[0]), scale.plot[2] + 2 - width);
    const places = [seen ? Math.max(y - half - 15, floor) : floor, floor, y + half + 3].map(
      (low): LabelBox => [left, low, left + width, low + TAG + 2],
    );
    const place = room.take(places, [0, scale.plot[1], scale.plot[2] + 4, scale.plot[3]]);
    if (!place) continue;
    const isAbove = place[1] > y;
    items.push(
      rectPath(...place, { fill: WHITE, opacity: 0.8 }),
      linePath(
        [
          [x, isAbove ? place[1] : place[3]],
          [x, isAbove ? Math.max(place[1] - 5, y) : Math.min(place[3] + 5, y)],
        ],
        { stroke: ACCENT, width: 0.6 },
      ),
      {
        type: "text",
        text: tag,
        at: [left + 2, place[1] + 2.5],
        size: TAG,
        angle: radians(0),
        align: "start",
        face: "condensed",
        fill: INK,
      },
    );
  }
  return items;
}

/** Size of a tag and of a note, picture units. */
const TAG = 7;
const NOTE = 6.5;

/** What the dotted lines are, beneath or above them where there is room. */
function notes(profile: RunProfile, scale: ProfileScale, room: LabelRoom): PictureItem[] {
  const { couplingIn, axis, system, lengthIn } = profile;
  if (couplingIn === undefined) return [];
  const text = `couplings ${written(inches(couplingIn), system)} across, anywhere`;
  const width = textWidth(text, NOTE, "condensed") + 2;
  const places = [0.25, 0.5, 0.75].flatMap((part): LabelBox[] => {
    const station = part * lengthIn;
    const piece = axis.find(({ from, to }) => station >= from.station && station <= to.station);
    const z = piece && zAt(piece, station);
    if (z === undefined) return [];
    const [x, y] = scale.toPicture({ station, z });
    const off = topOver(piece!, couplingIn / 2) * scale.up + 2;
    return [y - off - NOTE, y + off].map((low) => [x - width / 2, low, x + width / 2, low + NOTE]);
  });
  const place = room.take(places, scale.plot);
  if (!place) return [];
  return [
    rectPath(...place, { fill: WHITE, opacity: 0.8 }),
    {
      type: "text",
      text,
      at: [place[0] + 1, place[1] + 1.3],
      size: NOTE,
      angle: radians(0),
      align: "start",
      face: "condensed",
      fill: FAINT_INK,
    },
  ];
}
