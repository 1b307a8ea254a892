import { FONT_FAMILIES } from "../canvas/fonts.ts";
import type { Colour, PathItem, Picture, TextItem } from "../geometry/picture.ts";

interface PictureSvgProps {
  readonly picture: Picture;
  /** The part of the picture shown, in its own space (y up): lower left x and y, width, height. */
  readonly box: readonly [x: number, y: number, width: number, height: number];
  readonly width: number | string;
  readonly height: number | string;
  /** Read out instead of the picture; without it the picture is decoration. */
  readonly label?: string | undefined;
  readonly className?: string;
}

const css = ({ r, g, b }: Colour): string =>
  `rgb(${Math.round(r * 255)} ${Math.round(g * 255)} ${Math.round(b * 255)})`;

const { text, condensed } = FONT_FAMILIES;
const families = { regular: text, bold: text, condensed } as const;

/** A picture of the shared display list as SVG: what the card and the lists show is what the sheet carries. */
export function PictureSvg({ picture, box: [x, y, w, h], width, height, label, className }: PictureSvgProps) {
  return (
    <svg
      viewBox={`${x} ${-y - h} ${w} ${h}`}
      width={width}
      height={height}
      className={className}
      role={label === undefined ? undefined : "img"}
      aria-label={label}
      aria-hidden={label === undefined}
    >
      {picture.map((item, index) =>
        item.type === "path" ? (
          // biome-ignore lint/suspicious/noArrayIndexKey: a picture is a value, its items have no identity
          <PathShape key={index} item={item} />
        ) : (
          // biome-ignore lint/suspicious/noArrayIndexKey: a picture is a value, its items have no identity
          <TextShape key={index} item={item} />
        ),
      )}
    </svg>
  );
}

function PathShape({ item }: { item: PathItem }) {
  return (
    <path
      d={pathData(item)}
      fill={item.fill ? css(item.fill) : "none"}
      fillRule={item.evenOdd ? "evenodd" : "nonzero"}
      stroke={item.stroke ? css(item.stroke) : "none"}
      strokeWidth={item.width}
      strokeDasharray={item.dash?.join(" ")}
      strokeLinecap="round"
      strokeLinejoin="round"
      opacity={item.opacity}
    />
  );
}

function TextShape({ item }: { item: TextItem }) {
  const degrees = (-item.angle * 180) / Math.PI;
  return (
    <text
      transform={`translate(${item.at[0]} ${-item.at[1]}) rotate(${degrees})`}
      fontSize={item.size}
      fontFamily={families[item.face]}
      fontWeight={item.face === "bold" ? 700 : 400}
      textAnchor={item.align}
      fill={css(item.fill)}
      opacity={item.opacity}
    >
      {item.text}
    </text>
  );
}

/** SVG's y runs down, a picture's up. */
function pathData(item: PathItem): string {
  return item.steps
    .map((step) => {
      const [letter, ...numbers] = step;
      return letter + numbers.map((n, i) => (i % 2 === 1 ? -n : n)).join(" ");
    })
    .join("");
}
