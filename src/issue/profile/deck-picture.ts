import type { ProfileDeck, RunProfile } from "../../check/run-profile.ts";
import type { Colour, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { radians } from "../../units/quantity.ts";
import { DECK_INK, INK, OKABE_ITO, VERDICT_INK } from "../inks.ts";
import { linePath } from "../paths.ts";
import { textWidth } from "../text-width.ts";
import { cut, shifted } from "./cut-line.ts";
import { hatch } from "./hatch.ts";
import type { ProfileScale } from "./profile-scale.ts";

/** How each kind of deck is edged from below. */
export const UNDERSIDE: Readonly<
  Record<ProfileDeck["is"], { readonly ink: Colour; readonly dash?: readonly number[] }>
> = {
  roof: { ink: DECK_INK },
  "floor-above": { ink: VERDICT_INK["not-governed"] },
  "not-settled": { ink: OKABE_ITO.reddishPurple, dash: [3, 3] },
};

/** A deck: its body, its lowest surface drawn strong, and the limit below it. */
export function drawDeck(deck: ProfileDeck, scale: ProfileScale): PictureItem[] {
  const low = cut(deck.underside, scale);
  const high = cut(shifted(deck.underside, deck.depthIn), scale);
  if (!low || !high) return [];
  const { ink, dash } = UNDERSIDE[deck.is];
  const items: PictureItem[] = [linePath([low[0], low[1], high[1], high[0]], { fill: ink, opacity: 0.08 }, true)];
  if (deck.fluted) items.push(linePath(fluteLine(low, high), { stroke: ink, width: 0.6, opacity: 0.6 }));
  else items.push(...hatch(low, high, 6, 1, { stroke: ink, width: 0.4, opacity: 0.45 }));
  items.push(linePath([high[0], high[1]], { stroke: ink, width: 0.5, opacity: 0.6 }));
  const limit = deck.limit && cut(deck.limit, scale);
  if (limit) {
    items.push(linePath([low[0], low[1], limit[1], limit[0]], { fill: OKABE_ITO.vermillion, opacity: 0.07 }, true));
    items.push(linePath(limit, { stroke: INK, width: 0.9, dash: [6, 3] }));
  }
  items.push(linePath(low, { stroke: ink, width: 1.8, ...(dash ? { dash } : {}) }));
  // A floor carries a second line: it is not a roof that anybody drives fasteners through.
  if (deck.is === "floor-above")
    items.push(
      linePath(
        low.map(([x, y]): Point2 => [x, y + 3.2]),
        { stroke: ink, width: 0.8 },
      ),
    );
  return items;
}

/** A deck the run passes beside: its edge, seen from the run, in broken lines, with its name on it. */
export function drawDeckBeside(deck: ProfileDeck, scale: ProfileScale): PictureItem[] {
  const low = cut(deck.underside, scale);
  const high = cut(shifted(deck.underside, deck.depthIn), scale);
  if (!low || !high) return [];
  const { ink } = UNDERSIDE[deck.is];
  const label = `${deck.label}, beside the run`;
  const items: PictureItem[] = [
    linePath(
      [low[0], low[1], high[1], high[0]],
      { fill: ink, stroke: ink, width: 0.9, dash: [4, 3], opacity: 0.25 },
      true,
    ),
    linePath(low, { stroke: ink, width: 1.4, dash: [7, 3] }),
  ];
  if (textWidth(label, 7.5, "bold") < high[1][0] - high[0][0])
    items.push({
      type: "text",
      text: label,
      at: [high[0][0] + 4, high[0][1] + 4],
      size: 7.5,
      angle: radians(0),
      align: "start",
      face: "bold",
      fill: ink,
    });
  return items;
}

/** A hint of flutes between the lowest surface and the top: the way they run is not known, so neither is their pitch here. */
export function fluteLine(low: readonly [Point2, Point2], high: readonly [Point2, Point2]): Point2[] {
  const length = low[1][0] - low[0][0];
  const count = Math.max(1, Math.round(length / 16));
  const at = (t: number, part: number): Point2 => {
    const [a, b] = [low[0], low[1]];
    const [c, d] = [high[0], high[1]];
    const bottom: Point2 = [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
    const top: Point2 = [c[0] + (d[0] - c[0]) * t, c[1] + (d[1] - c[1]) * t];
    return [bottom[0] + (top[0] - bottom[0]) * part, bottom[1] + (top[1] - bottom[1]) * part];
  };
  const points: Point2[] = [];
  for (let i = 0; i < count; i++) {
    const t = (part: number) => (i + part) / count;
    points.push(at(t(0), 0), at(t(0.42), 0), at(t(0.52), 1), at(t(0.9), 1), at(t(1), 0));
  }
  return points;
}

/** Names of the decks above them, where they fit over their part of the run. */
export function deckNames({ decks }: RunProfile, scale: ProfileScale): PictureItem[] {
  const items: PictureItem[] = [];
  let taken = -Infinity;
  const sorted = [...decks].sort((a, b) => a.underside.from.station - b.underside.from.station);
  for (const [i, deck] of sorted.entries()) {
    // A deck comes in a piece a segment; its name is wanted once.
    if (sorted[i - 1]?.areaId === deck.areaId) continue;
    const last = sorted.slice(i).findIndex(({ areaId }) => areaId !== deck.areaId);
    const end = sorted[last < 0 ? sorted.length - 1 : i + last - 1] as ProfileDeck;
    const from = scale.toPicture({ station: deck.underside.from.station, z: scale.high })[0];
    const to = scale.toPicture({ station: end.underside.to.station, z: scale.high })[0];
    const width = textWidth(deck.label, 7.5, "bold");
    const left = Math.max(from, taken + 6);
    if (left + width > to + 2) continue;
    taken = left + width;
    items.push({
      type: "text",
      text: deck.label,
      at: [left, scale.plot[3] + 16],
      size: 7.5,
      angle: radians(0),
      align: "start",
      face: "bold",
      fill: UNDERSIDE[deck.is].ink,
    });
  }
  return items;
}
