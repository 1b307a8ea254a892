import { VERDICTS, type Verdict } from "../../check/finding.ts";
import type { RunProfile } from "../../check/run-profile.ts";
import type { PictureItem } from "../../geometry/picture.ts";
import { radians } from "../../units/quantity.ts";
import { INK, VERDICT_INK, WHITE } from "../inks.ts";
import { linePath, roundRectPath } from "../paths.ts";
import { placePicture } from "../place-picture.ts";
import { symbolOf } from "../symbols.ts";
import { textWidth } from "../text-width.ts";
import type { ProfileScale } from "./profile-scale.ts";

/** A symbol with its number, and the station of the place it stands over. */
interface Sign {
  readonly verdict: Verdict;
  readonly number: number | null;
  readonly station: number;
  /** How many signs of the same finding come before it. */
  readonly repeats: number;
}

/** Between two signs, and how far the last may stand out to the right, picture units. */
const APART = 7.5;
const OUT = 12;

/**
 * Symbol and number over every stretch and every box that needs attention, at the top of the plot, moved aside where another is in the way.
 * Where there is no room for all, every finding keeps its first one as long as it can, the worst longest.
 */
export function signRow({ stretches, boxes = [] }: RunProfile, scale: ProfileScale): PictureItem[] {
  const over = [
    ...stretches.map(({ verdict, number, fromIn, toIn }) => ({ verdict, number, station: (fromIn + toIn) / 2 })),
    ...boxes.flatMap(({ verdict, number, fromIn, toIn }) =>
      verdict === undefined || number === null ? [] : [{ verdict, number, station: (fromIn + toIn) / 2 }],
    ),
  ].sort((a, b) => a.station - b.station);
  const signs = over.map(
    (sign, i): Sign => ({
      ...sign,
      repeats: over.slice(0, i).filter(({ verdict, number }) => verdict === sign.verdict && number === sign.number)
        .length,
    }),
  );
  const shown = withRoom(signs, scale.plot[2] - scale.plot[0] + 2 * OUT);
  const xs = standing(shown, scale);
  return shown.flatMap((sign, i) => drawSign(sign, xs[i]!, xOf(sign, scale), scale));
}

const xOf = ({ station }: Sign, scale: ProfileScale): number => scale.toPicture({ station, z: scale.high })[0];
const widthOf = ({ number }: Sign): number => (number === null ? 14 : 16 + textWidth(String(number), 9, "bold"));

/** As many as fit side by side; left out are repeats first, and then the least bad. */
function withRoom(signs: readonly Sign[], room: number): readonly Sign[] {
  const byNeed = [...signs].sort(
    (a, b) => a.repeats - b.repeats || VERDICTS.indexOf(a.verdict) - VERDICTS.indexOf(b.verdict),
  );
  let used = 0;
  const kept = new Set(
    byNeed.filter((sign) => {
      used += widthOf(sign) + APART;
      return used <= room;
    }),
  );
  return signs.filter((sign) => kept.has(sign));
}

/** Middles of signs in order: each over its spot, pushed to the right by the one before, and back where the last would leave the plot. */
function standing(signs: readonly Sign[], scale: ProfileScale): number[] {
  const xs: number[] = [];
  for (const [i, sign] of signs.entries()) {
    const free = i === 0 ? scale.plot[0] - OUT : xs[i - 1]! + widthOf(signs[i - 1]!) / 2 + APART;
    xs.push(Math.max(xOf(sign, scale), free + widthOf(sign) / 2));
  }
  let end = scale.plot[2] + OUT;
  for (let i = signs.length - 1; i >= 0; i--) {
    const half = widthOf(signs[i]!) / 2;
    xs[i] = Math.min(xs[i]!, end - half);
    end = xs[i]! - half - APART;
  }
  return xs;
}

function drawSign(sign: Sign, x: number, spot: number, scale: ProfileScale): PictureItem[] {
  const y = scale.plot[3] + 2;
  const number = sign.number === null ? "" : String(sign.number);
  const width = widthOf(sign);
  const left = x - width / 2;
  const ink = VERDICT_INK[sign.verdict];
  const items: PictureItem[] = [
    roundRectPath(left - 3, y - 8, left + width + 3, y + 8, 2.5, { fill: WHITE, stroke: ink, width: 0.7 }),
    ...placePicture(symbolOf(sign.verdict), { scale: 11, angle: radians(0), dx: left + 6, dy: y }),
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
      // The symbol has the colour: words in it would be pale in grey print.
      fill: INK,
    });
  }
  return items;
}
