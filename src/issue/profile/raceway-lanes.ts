import { VERDICTS } from "../../check/finding.ts";
import type { ProfileRaceway } from "../../check/profile-raceways.ts";
import type { RunProfile } from "../../check/run-profile.ts";
import type { Colour, FontFace, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { radians } from "../../units/quantity.ts";
import { leastWords } from "../finding-sentence.ts";
import { FAINT_INK, HAIR_INK, INK, VERDICT_INK, WHITE } from "../inks.ts";
import { linePath, rectPath } from "../paths.ts";
import { placePicture } from "../place-picture.ts";
import { fitText } from "../report/wrap-text.ts";
import { symbolOf } from "../symbols.ts";
import { textWidth } from "../text-width.ts";
import { LANE } from "./lane-count.ts";
import type { ProfileScale } from "./profile-scale.ts";
import { verdictHatch } from "./stretch-picture.ts";

/** How much of a lane its bar takes, picture units. */
const BAR = 7;
const SIZE = 6.5;

/** What the lanes show: all raceways, or as many as there is room for and a line for the others. */
interface Lanes {
  readonly shown: readonly ProfileRaceway[];
  readonly left: number;
}

/** The raceways of a rack one below the other, each with its own verdict, least distance and stretches, on the stations of the plot above. */
export function racewayLanes(profile: RunProfile, scale: ProfileScale): PictureItem[] {
  const { shown, left } = lanesOf(profile, scale.lanes);
  const lanes = shown.flatMap((raceway, i) => lane(profile, raceway, scale, topOf(scale, i)));
  if (left === 0) return lanes;
  const text = `and ${left} more, none of them worse`;
  return [...lanes, words(text, [scale.plot[0] + 2, topOf(scale, shown.length) - LANE + 3.5], "start", FAINT_INK)];
}

/** The worst where there is no room for all; in the order of the rack. */
function lanesOf({ raceways = [] }: RunProfile, room: number): Lanes {
  if (room === 0 || raceways.length <= room) return { shown: room === 0 ? [] : raceways, left: 0 };
  const rank = ({ verdict, leastIn }: ProfileRaceway): readonly [number, number] => [
    verdict === undefined ? VERDICTS.length : VERDICTS.indexOf(verdict),
    leastIn ?? Infinity,
  ];
  const worst = [...raceways]
    .sort((a, b) => {
      const [[x, near], [y, far]] = [rank(a), rank(b)];
      return x - y || (near === far ? 0 : near - far);
    })
    .slice(0, room - 1);
  return { shown: raceways.filter((each) => worst.includes(each)), left: raceways.length - worst.length };
}

/** The upper edge of a lane: lanes hang under the ruler's words. */
const topOf = ({ plot }: ProfileScale, i: number): number => plot[1] - 31 - i * LANE;

function lane(
  { member, system }: RunProfile,
  { member: own, label, verdict, leastIn, stretches }: ProfileRaceway,
  scale: ProfileScale,
  top: number,
): PictureItem[] {
  const [x0, , x1] = scale.plot;
  const [high, low] = [top - 2, top - 2 - BAR];
  const middle = (high + low) / 2;
  const base = middle - SIZE * 0.34;
  const face = own === member ? "bold" : "condensed";
  const items: PictureItem[] = [
    linePath(
      [
        [x0, middle],
        [scale.toPicture({ station: scale.end, z: 0 })[0], middle],
      ],
      { stroke: HAIR_INK, width: 0.8 },
    ),
    words(fitText(label, x0 - 24, SIZE, face), [x0 - 6, base], "end", INK, face),
    ...(verdict ? placePicture(symbolOf(verdict), { scale: 8.5, angle: radians(0), dx: 9, dy: middle }) : []),
  ];
  for (const stretch of stretches) {
    const from = Math.max(x0, scale.toPicture({ station: stretch.fromIn, z: 0 })[0]);
    const to = Math.min(x1, scale.toPicture({ station: stretch.toIn, z: 0 })[0]);
    const ink = VERDICT_INK[stretch.verdict];
    const edge = (y: number): [Point2, Point2] => [
      [from, y],
      [to, y],
    ];
    items.push(
      rectPath(from, low, to, high, { fill: WHITE }),
      rectPath(from, low, to, high, { fill: ink, opacity: 0.3 }),
      ...verdictHatch(stretch.verdict, edge(low), edge(high), ink),
      rectPath(from, low, to, high, { stroke: ink, width: 0.8 }),
    );
    const number = stretch.number === null ? "" : String(stretch.number);
    const width = textWidth(number, SIZE, "bold") + 3;
    if (number === "" || width > to - from) continue;
    const x = (from + to) / 2;
    items.push(
      rectPath(x - width / 2, low + 0.4, x + width / 2, high - 0.4, { fill: WHITE, opacity: 0.85 }),
      words(number, [x, base], "middle", INK, "bold"),
    );
  }
  if (leastIn === null) return items;
  const least = leastWords(leastIn, system);
  const width = textWidth(least, SIZE, "condensed");
  return [
    ...items,
    rectPath(x1 - width - 4, low - 0.5, x1, high + 0.5, { fill: WHITE, opacity: 0.9 }),
    words(least, [x1 - 2, base], "end", INK),
  ];
}

const words = (
  text: string,
  at: Point2,
  align: "start" | "middle" | "end",
  fill: Colour,
  face: FontFace = "condensed",
): PictureItem => ({ type: "text", text, at, size: SIZE, angle: radians(0), align, face, fill });
