import type { Verdict } from "../../check/finding.ts";
import type { ProfileDeck, ProfileLine, RunProfile } from "../../check/run-profile.ts";
import type { Colour, Picture, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { radians } from "../../units/quantity.ts";
import { ACCENT, DECK_INK, FAINT_INK, INK, OKABE_ITO, VERDICT_INK, WHITE } from "../inks.ts";
import { linePath, rectPath, roundRectPath } from "../paths.ts";
import { placePicture } from "../place-picture.ts";
import { symbolOf } from "../symbols.ts";
import { textWidth } from "../text-width.ts";
import { topOver } from "./profile-reading.ts";
import { type ProfileScale, type ProfileSize, profileScale } from "./profile-scale.ts";
import { rulers } from "./ruler.ts";

/** A profile as a picture, and how its space goes to stations and elevations. */
export interface DrawnProfile {
  readonly picture: Picture;
  readonly scale: ProfileScale;
}

/** How each kind of deck is edged from below. */
const UNDERSIDE: Readonly<Record<ProfileDeck["is"], { readonly ink: Colour; readonly dash?: readonly number[] }>> = {
  roof: { ink: DECK_INK },
  "floor-above": { ink: VERDICT_INK["not-governed"] },
  "not-settled": { ink: OKABE_ITO.reddishPurple, dash: [3, 3] },
};

/** Spacing of the hatch that tells stretches apart in grey, and its slant; picture units. */
const STRETCH_HATCH: Readonly<Partial<Record<Verdict, { readonly step: number; readonly slant: number }>>> = {
  "too-close": { step: 4, slant: 1 },
  concealed: { step: 2.5, slant: 1 },
  borderline: { step: 7, slant: -1 },
  "cannot-tell": { step: 9, slant: 0 },
};

/**
 * The run unrolled: deck, limit and wiring over the station, the stretches that need attention filled, rulers on both
 * axes. Pure. Without any known elevation it says so instead of drawing a line that nobody gave.
 */
export function profilePicture(profile: RunProfile, size: ProfileSize): DrawnProfile {
  const scale = profileScale(profile, size);
  const [x0, y0, x1, y1] = scale.plot;
  const picture: PictureItem[] = [...rulers(scale, profile.system, profile.label)];
  for (const deck of profile.decks) picture.push(...drawDeck(deck, scale));
  for (const stretch of profile.stretches) picture.push(...drawStretch(profile, stretch, scale));
  picture.push(...drawWiring(profile, scale), ...flags(profile, scale), ...deckNames(profile, scale));
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

/** The line in the picture, cut at the lower edge of the plot; undefined when wholly below. */
function cut(line: ProfileLine, scale: ProfileScale): readonly [Point2, Point2] | undefined {
  const a = scale.toPicture(line.from);
  const b = scale.toPicture(line.to);
  const floor = scale.plot[1];
  if (a[1] < floor && b[1] < floor) return undefined;
  const at = (p: Point2, q: Point2): Point2 => [p[0] + ((q[0] - p[0]) * (floor - p[1])) / (q[1] - p[1]), floor];
  return [a[1] < floor ? at(a, b) : a, b[1] < floor ? at(b, a) : b];
}

const shifted = ({ from, to }: ProfileLine, by: number): ProfileLine => ({
  from: { station: from.station, z: from.z + by },
  to: { station: to.station, z: to.z + by },
});

function drawDeck(deck: ProfileDeck, scale: ProfileScale): PictureItem[] {
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

/** A hint of flutes between the lowest surface and the top: the way they run is not known, so neither is their pitch here. */
function fluteLine(low: readonly [Point2, Point2], high: readonly [Point2, Point2]): Point2[] {
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

/** Parallel hatch lines between a lower and an upper line, `step` apart along; slant 1 leans right, -1 left, 0 upright. */
function hatch(
  low: readonly [Point2, Point2],
  high: readonly [Point2, Point2],
  step: number,
  slant: number,
  paint: { stroke: Colour; width: number; opacity: number },
): PictureItem[] {
  const [x0, x1] = [low[0][0], low[1][0]];
  const yOn = (line: readonly [Point2, Point2], x: number): number =>
    line[1][0] === line[0][0]
      ? line[0][1]
      : line[0][1] + ((line[1][1] - line[0][1]) * (x - line[0][0])) / (line[1][0] - line[0][0]);
  const tallest = Math.max(yOn(high, x0) - yOn(low, x0), yOn(high, x1) - yOn(low, x1), 0);
  const items: PictureItem[] = [];
  for (let x = x0 - (slant > 0 ? tallest : 0); x < x1 + (slant < 0 ? tallest : 0) && items.length < 2000; x += step) {
    // The part of the hatch line from (x, low) that lies between both ends and both lines, in small steps of the height.
    const points: Point2[] = [];
    const pieces = slant === 0 ? 1 : 24;
    for (let k = 0; k <= pieces; k++) {
      const up = (tallest * k) / pieces;
      const px = x + slant * up;
      if (px < x0 - 1e-9 || px > x1 + 1e-9) continue;
      const base = yOn(low, Math.min(Math.max(x, x0), x1));
      const py = slant === 0 && k === pieces ? yOn(high, px) : base + up;
      if (py >= yOn(low, px) - 1e-9 && py <= yOn(high, px) + 1e-9) points.push([px, py]);
    }
    const first = points[0];
    const last = points[points.length - 1];
    if (first && last && first !== last) items.push(linePath([first, last], paint));
  }
  return items;
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

type ProfileStretch = RunProfile["stretches"][number];

/** From the lower edge of the wiring up to the deck, filled in the verdict's colour and hatched. */
function drawStretch(profile: RunProfile, stretch: ProfileStretch, scale: ProfileScale): PictureItem[] {
  const ink = VERDICT_INK[stretch.verdict];
  const items: PictureItem[] = [];
  for (const piece of profile.axis) {
    const from = Math.max(stretch.fromIn, piece.from.station);
    const to = Math.min(stretch.toIn, piece.to.station);
    if (to < from) continue;
    const over = topOver(piece, profile.radiusIn);
    const cuts = profile.decks.flatMap(({ underside }) => [underside.from.station, underside.to.station]);
    const edges = [from, ...cuts.filter((s) => s > from && s < to).sort((a, b) => a - b), to];
    for (let i = 0; i + 1 < edges.length; i++) {
      const [a, b] = [edges[i] as number, edges[i + 1] as number];
      const low = cut(shifted(part(piece, a, b), -over), scale);
      const deck = lowestOver(profile.decks, (a + b) / 2);
      const high = deck ? cut(part(deck.underside, a, b), scale) : cut(shifted(part(piece, a, b), over), scale);
      if (!low || !high) continue;
      // Wiring at or above the underside: the fill still shows its own height.
      const top: [Point2, Point2] = [
        [high[0][0], Math.max(high[0][1], low[0][1] + 2)],
        [high[1][0], Math.max(high[1][1], low[1][1] + 2)],
      ];
      const shape = [low[0], low[1], top[1], top[0]];
      const pattern = STRETCH_HATCH[stretch.verdict] ?? { step: 4, slant: 1 };
      items.push(
        linePath(shape, { fill: ink, opacity: 0.3 }, true),
        ...hatch(low, top, pattern.step, pattern.slant, { stroke: ink, width: 0.7, opacity: 0.9 }),
        linePath([low[0], top[0]], { stroke: ink, width: 1 }),
        linePath([low[1], top[1]], { stroke: ink, width: 1 }),
      );
    }
  }
  return items;
}

function part(line: ProfileLine, a: number, b: number): ProfileLine {
  const length = line.to.station - line.from.station;
  const z = (s: number) =>
    length > 0 ? line.from.z + ((line.to.z - line.from.z) * (s - line.from.station)) / length : line.from.z;
  return { from: { station: a, z: z(a) }, to: { station: b, z: z(b) } };
}

function lowestOver(decks: readonly ProfileDeck[], station: number): ProfileDeck | undefined {
  let best: { deck: ProfileDeck; z: number } | undefined;
  for (const deck of decks) {
    if (station < deck.underside.from.station || station > deck.underside.to.station) continue;
    const z = part(deck.underside, station, station).from.z;
    if (!best || z < best.z) best = { deck, z };
  }
  return best?.deck;
}

/** Symbol and number over every stretch, at the top of the plot; pushed to the right where the one before is in the way. */
function stretchSigns(stretches: readonly ProfileStretch[], scale: ProfileScale): PictureItem[] {
  const middle = (stretch: ProfileStretch): number =>
    scale.toPicture({ station: (stretch.fromIn + stretch.toIn) / 2, z: scale.high })[0];
  let free = -Infinity;
  return [...stretches]
    .sort((a, b) => middle(a) - middle(b))
    .flatMap((stretch) => {
      const width = signWidth(stretch) + 6;
      const x = Math.max(middle(stretch), free + width / 2);
      if (x + width / 2 > scale.plot[2] + 16) return [];
      free = x + width / 2 + 1.5;
      return stretchSign(stretch, x, middle(stretch), scale);
    });
}

const signWidth = ({ number }: ProfileStretch): number =>
  number === null ? 14 : 16 + textWidth(String(number), 9, "bold");

function stretchSign(stretch: ProfileStretch, x: number, spot: number, scale: ProfileScale): PictureItem[] {
  const y = scale.plot[3] + 2;
  const number = stretch.number === null ? "" : String(stretch.number);
  const width = signWidth(stretch);
  const left = x - width / 2;
  const ink = VERDICT_INK[stretch.verdict];
  const items: PictureItem[] = [
    roundRectPath(left - 3, y - 8, left + width + 3, y + 8, 2.5, { fill: WHITE, stroke: ink, width: 0.7 }),
    ...placePicture(symbolOf(stretch.verdict), { scale: 11, angle: radians(0), dx: left + 6, dy: y }),
    linePath(
      [
        [x, y - 8],
        [spot, scale.plot[3] - 11],
      ],
      { stroke: ink, width: 0.6 },
    ),
  ];
  if (number) {
    items.push({
      type: "text",
      text: number,
      at: [left + 15, y - 3.2],
      size: 9,
      angle: radians(0),
      align: "start",
      face: "bold",
      fill: ink,
    });
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

/** Names of the decks above them, where they fit over their part of the run. */
function deckNames({ decks }: RunProfile, scale: ProfileScale): PictureItem[] {
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
