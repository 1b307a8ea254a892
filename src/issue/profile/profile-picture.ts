import type { RunProfile } from "../../check/run-profile.ts";
import type { Picture, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { radians } from "../../units/quantity.ts";
import { ACCENT, FAINT_INK, INK, WHITE } from "../inks.ts";
import { linePath, rectPath } from "../paths.ts";
import { textWidth } from "../text-width.ts";
import { cut, shifted } from "./cut-line.ts";
import { deckNames, drawDeck, drawDeckBeside } from "./deck-picture.ts";
import { topOver } from "./profile-reading.ts";
import { type ProfileScale, type ProfileSize, profileScale } from "./profile-scale.ts";
import { rulers } from "./ruler.ts";
import { drawStretch, stretchSigns } from "./stretch-picture.ts";

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
  picture.push(
    ...drawWiring(profile, scale),
    ...drawOthers(profile, scale),
    ...flags(profile, scale),
    ...deckNames(profile, scale),
  );
  picture.push(...stretchSigns(profile.stretches, scale));
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

/** The other raceways of a rack as thin outlines, each called by its label under its top, one label beside the other. */
function drawOthers({ others = [] }: RunProfile, scale: ProfileScale): PictureItem[] {
  const items: PictureItem[] = [];
  let x = scale.plot[0] + 5;
  for (const { label, radiusIn, axis } of others) {
    for (const piece of axis) {
      const over = topOver(piece, radiusIn);
      for (const side of [over, -over]) {
        const edge = cut(shifted(piece, side), scale);
        if (edge) items.push(linePath(edge, { stroke: ACCENT, width: 0.6 }));
      }
    }
    const top = axis[0] && cut(shifted(axis[0], topOver(axis[0], radiusIn)), scale);
    const width = textWidth(label, 6.5, "condensed");
    if (!top || x + width > scale.plot[2]) continue;
    const y = top[0][1] - 7.5;
    items.push(rectPath(x - 1.5, y - 1.5, x + width + 1.5, y + 6, { fill: WHITE, opacity: 0.7 }), {
      type: "text",
      text: label,
      at: [x, y],
      size: 6.5,
      angle: radians(0),
      align: "start",
      face: "condensed",
      fill: INK,
    });
    x += width + 8;
  }
  return items;
}

/** Vertex ticks through the wiring, with the tags that have room in a row below the plot's floor. */
function flags({ vertices, radiusIn }: RunProfile, scale: ProfileScale): PictureItem[] {
  const items: PictureItem[] = [];
  let taken = -Infinity;
  for (const { station, z, tag } of vertices) {
    const x = scale.toPicture({ station, z: scale.low })[0];
    if (z !== null && z >= scale.low) {
      const y = scale.toPicture({ station, z })[1];
      const half = radiusIn * scale.up + 3;
      items.push(
        linePath(
          [
            [x, y - half],
            [x, y + half],
          ],
          { stroke: ACCENT, width: 1.1 },
        ),
      );
    }
    if (tag === null) continue;
    const y =
      z !== null && z >= scale.low ? scale.toPicture({ station, z })[1] - radiusIn * scale.up - 16 : scale.plot[1] + 6;
    const base = Math.max(y, scale.plot[1] + 5);
    const width = textWidth(tag, 7, "condensed");
    const left = Math.min(Math.max(x - width / 2, scale.plot[0] + 2), scale.plot[2] - width);
    if (left < taken + 6) continue;
    taken = left + width;
    items.push(
      rectPath(left - 2, base - 2.5, left + width + 2, base + 7, { fill: WHITE, opacity: 0.8 }),
      linePath(
        [
          [x, base + 7],
          [x, base + 12],
        ],
        { stroke: ACCENT, width: 0.6 },
      ),
      {
        type: "text",
        text: tag,
        at: [left, base],
        size: 7,
        angle: radians(0),
        align: "start",
        face: "condensed",
        fill: INK,
      },
    );
  }
  return items;
}
