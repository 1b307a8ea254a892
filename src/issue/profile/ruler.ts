import type { PictureItem } from "../../geometry/picture.ts";
import { formatLength } from "../../units/format-length.ts";
import type { UnitSystem } from "../../units/length.ts";
import { inches, MM_PER_INCH, radians } from "../../units/quantity.ts";
import { FAINT_INK, HAIR_INK, INK } from "../inks.ts";
import { linePath } from "../paths.ts";
import { fitText } from "../report/wrap-text.ts";
import { textWidth } from "../text-width.ts";
import type { ProfileScale } from "./profile-scale.ts";

/** Steps a ruler may have, in inches: fractions, inches and feet, or round millimetres. */
const IMPERIAL = [1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24, 60, 120, 240, 600, 1200, 2400, 6000];
const METRIC = [1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000].map(
  (mm) => mm / MM_PER_INCH,
);

/** The values of a ruler from `low` to `high`, at least `apart` inches from one to the next. */
export function ticks(low: number, high: number, apart: number, system: UnitSystem): number[] {
  const steps = system === "metric" ? METRIC : IMPERIAL;
  const step = steps.find((candidate) => candidate >= apart) ?? (steps[steps.length - 1] as number);
  const values: number[] = [];
  for (let n = Math.ceil(low / step - 1e-9); n * step <= high + 1e-9 * step && values.length < 200; n++)
    values.push(n * step + 0);
  return values;
}

/** A tick's words: feet-inches, or millimetres without their sign, which the ruler's name carries. */
const tickText = (value: number, system: UnitSystem): string => {
  const text = formatLength(inches(value), system, { nearest: system === "metric" ? 1 : 1 / 16 });
  return system === "metric" ? text.replace(" mm", "") : text;
};

/** Both rulers with their names, and hairlines across the plot. */
export function rulers(scale: ProfileScale, system: UnitSystem, runLabel: string): PictureItem[] {
  const [x0, y0, x1, y1] = scale.plot;
  const items: PictureItem[] = [];
  const hair = { stroke: HAIR_INK, width: 0.4, opacity: 0.6 };
  const words = { type: "text", size: 7, angle: radians(0), face: "condensed", fill: INK } as const;
  for (const z of ticks(scale.low, scale.high, 15 / scale.up, system)) {
    const y = scale.toPicture({ station: 0, z })[1];
    items.push(
      linePath(
        [
          [x0, y],
          [x1, y],
        ],
        hair,
      ),
      linePath(
        [
          [x0 - 4, y],
          [x0, y],
        ],
        { stroke: INK, width: 0.6 },
      ),
    );
    items.push({ ...words, text: tickText(z, system), at: [x0 - 6, y - 2.4], align: "end" });
  }
  const last = Math.min(scale.end, (x1 - x0) / scale.along);
  for (const station of ticks(0, last, 46 / scale.along, system)) {
    const x = scale.toPicture({ station, z: scale.low })[0];
    items.push(
      linePath(
        [
          [x, y0],
          [x, y1],
        ],
        hair,
      ),
      linePath(
        [
          [x, y0 - 4],
          [x, y0],
        ],
        { stroke: INK, width: 0.6 },
      ),
    );
    items.push({ ...words, text: tickText(station, system), at: [x, y0 - 12], align: "middle" });
  }
  const name = { ...words, face: "regular", size: NAME, fill: FAINT_INK } as const;
  const [along, exaggerated] = names(scale, system, runLabel);
  items.push(
    linePath(
      [
        [x0, y1],
        [x0, y0],
        [x1, y0],
      ],
      { stroke: INK, width: 0.8 },
    ),
    {
      ...name,
      text: along,
      at: [x0, y0 - 25],
      align: "start",
    },
    {
      ...name,
      text: exaggerated,
      at: [x1, y0 - 25],
      align: "end",
    },
  );
  return items;
}

/** Size of the names of the rulers, and least room between them, picture units. */
const NAME = 7;
const BETWEEN = 10;

/** What the rulers count, and how much larger heights are drawn: in as many words as there is room for. */
function names({ plot, exaggeration }: ScaleOfRulers, system: UnitSystem, label: string): readonly [string, string] {
  const unit = system === "metric" ? ", mm" : "";
  const long = `Stations along ${label}; elevations above the project datum${unit}`;
  const short = `Along ${label}; above the datum${unit}`;
  const [heights, times] =
    exaggeration === 1
      ? ["Heights and lengths to the same scale", "Heights to scale"]
      : [`Heights drawn ${exaggeration} times larger than lengths`, `Heights ${exaggeration} times larger`];
  const room = plot[2] - plot[0] - BETWEEN;
  const width = (text: string) => textWidth(text, NAME, "regular");
  const fitting = [
    [long, heights],
    [long, times],
    [short, times],
  ] as const;
  // How much heights are exaggerated is never left out.
  return (
    fitting.find(([left, right]) => width(left) + width(right) <= room) ?? [
      fitText(short, room - width(times), NAME, "regular"),
      times,
    ]
  );
}

type ScaleOfRulers = Pick<ProfileScale, "plot" | "exaggeration">;
