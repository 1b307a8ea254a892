import { SECTION_REACH_IN, type Section, type SectionDeck, type SectionPoint } from "../../check/section-at.ts";
import { stationText, written } from "../../check/words.ts";
import type { Picture, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { inches, radians } from "../../units/quantity.ts";
import { ACCENT, FAINT_INK, INK, OKABE_ITO } from "../inks.ts";
import { arcSteps, circlePath, linePath } from "../paths.ts";
import { fluteLine, UNDERSIDE } from "./deck-picture.ts";
import { hatch } from "./hatch.ts";

const SIZE = 7;
/** Room above for the station and below for the figures, picture units. */
const HEAD = 14;
const FOOT = 30;

/**
 * A section through wiring at true shape, heights not exaggerated: decks with their lowest surface, what the wiring has to stay out of, the
 * tube, the least distance and the gap straight up with their figures. Fits the box; picture units, y up, origin at the lower left.
 */
export function sectionPicture(section: Section, width: number, height: number): Picture {
  const { wiring, requiredIn, system } = section;
  const tall = tallOf(section);
  const room = height - HEAD - FOOT;
  const scale = Math.min(width / (2 * SECTION_REACH_IN), room / tall);
  const foot = FOOT + (room - tall * scale) / 2;
  const low = wiring.z - wiring.radiusIn - 1;
  const place = ({ u, z }: SectionPoint): Point2 => [width / 2 + u * scale, foot + (z - low) * scale];
  const clip = (deck: SectionDeck) => drawDeck(deck, requiredIn, scale, place);
  const centre = place({ u: 0, z: wiring.z });
  const items: PictureItem[] = [
    ...section.decks.filter((deck) => isInSight(deck, low, low + tall)).flatMap(clip),
    circlePath(centre, wiring.radiusIn * scale, { stroke: ACCENT, width: 1, fill: ACCENT, opacity: 0.35 }),
    circlePath(centre, wiring.radiusIn * scale, { stroke: ACCENT, width: 1 }),
    ...leastLine(section, place),
    words(
      `${section.label} at ${stationText(section.station, system)}: section, true to shape`,
      0,
      height - 9,
      FAINT_INK,
    ),
  ];
  const [least, gap] = figures(section);
  items.push(words(least, 0, 14, INK), words(gap, 0, 4, FAINT_INK));
  return items;
}

/** From below the wiring to above the nearest deck; where that is far, the wiring alone with what it asks for. */
function tallOf({ wiring, nearest, requiredIn, decks }: Section): number {
  const least = 2 * wiring.radiusIn + 2 + requiredIn + 2;
  const far = 2 * SECTION_REACH_IN;
  if (!nearest) return least;
  const depth = Math.max(0, ...decks.map(({ depthIn }) => depthIn));
  const top = nearest.z + depth + 1 - (wiring.z - wiring.radiusIn - 1);
  return Math.min(far, Math.max(least, top));
}

const isInSight = ({ line, depthIn }: SectionDeck, low: number, high: number): boolean =>
  line.some(({ z }) => z + depthIn > low && z < high);

function drawDeck(
  { line, is, ends, depthIn, fluted }: SectionDeck,
  requiredIn: number,
  scale: number,
  place: (at: SectionPoint) => Point2,
): PictureItem[] {
  const [a, b] = [place(line[0]), place(line[1])];
  const over = depthIn * scale;
  const [c, d]: Point2[] = [
    [a[0], a[1] + over],
    [b[0], b[1] + over],
  ];
  const { ink, dash } = UNDERSIDE[is];
  const body = linePath([a, b, d!, c!], { fill: ink, opacity: 0.08 }, true);
  const inside = fluted
    ? [linePath(fluteLine([a, b], [c!, d!]), { stroke: ink, width: 0.6, opacity: 0.6 })]
    : hatch([a, b], [c!, d!], 6, 1, { stroke: ink, width: 0.4, opacity: 0.45 });
  return [
    body,
    ...inside,
    linePath([c!, d!], { stroke: ink, width: 0.5, opacity: 0.6 }),
    ...(is === "floor-above" ? [] : [limitOf([a, b], ends, requiredIn * scale)]),
    linePath([a, b], { stroke: ink, width: 1.8, ...(dash ? { dash } : {}) }),
  ];
}

/** How near the wiring may come to a stretch of deck from below: along it, and round the edges it ends at. */
function limitOf([a, b]: readonly [Point2, Point2], ends: readonly [boolean, boolean], r: number): PictureItem {
  const along = Math.atan2(b[1] - a[1], b[0] - a[0]);
  const down = along - Math.PI / 2;
  const off = ([x, y]: Point2): Point2 => [x + r * Math.cos(down), y + r * Math.sin(down)];
  const [from, to] = [off(a), off(b)];
  return {
    type: "path",
    steps: [
      ...(ends[0] ? arcSteps(a, r, down - Math.PI / 2, down) : []),
      ["M", from[0], from[1]],
      ["L", to[0], to[1]],
      ...(ends[1] ? arcSteps(b, r, down, down + Math.PI / 2) : []),
    ],
    stroke: INK,
    width: 0.9,
    dash: [5, 2.5],
  };
}

/** From the surface of the wiring to the nearest place of a deck. */
function leastLine({ nearest, wiring }: Section, place: (at: SectionPoint) => Point2): PictureItem[] {
  if (!nearest || nearest.leastIn <= 0) return [];
  const [du, dz] = [nearest.u, nearest.z - wiring.z];
  const length = Math.hypot(du, dz);
  const from = place({
    u: (du / length) * wiring.radiusIn,
    z: wiring.z + (dz / length) * wiring.radiusIn,
  });
  const to = place(nearest);
  return [
    linePath([from, to], { stroke: OKABE_ITO.vermillion, width: 1.2 }),
    circlePath(to, 1.6, { fill: OKABE_ITO.vermillion }),
  ];
}

function figures({ nearest, gapIn, requiredIn, system }: Section): [least: string, gap: string] {
  const length = (value: number): string => written(inches(value), system);
  const least =
    nearest === undefined
      ? "No roof of known elevation near"
      : nearest.leastIn <= 0
        ? `Reaches ${length(-nearest.leastIn)} through the lowest surface`
        : `${length(nearest.leastIn)} to the deck here; ${length(requiredIn)} asked for`;
  return [least, gapIn === undefined ? "No deck straight above" : `Straight up, by tape: ${length(gapIn)}`];
}

const words = (text: string, x: number, y: number, fill: typeof INK): PictureItem => ({
  type: "text",
  text,
  at: [x, y],
  size: SIZE,
  angle: radians(0),
  align: "start",
  face: "condensed",
  fill,
});
