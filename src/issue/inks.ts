import type { Verdict } from "../check/finding.ts";
import type { Colour } from "../geometry/picture.ts";

/** A colour from its usual six-digit notation. Throws on anything else: the colours are the program's own. */
export function colour(hex: string): Colour {
  if (!/^#[0-9a-f]{6}$/i.test(hex)) throw new Error(`not a colour: ${hex}`);
  const part = (from: number) => Number.parseInt(hex.slice(from, from + 2), 16) / 255;
  return { r: part(1), g: part(3), b: part(5) };
}

/** The colour as the screen writes it: #rrggbb. */
export const hexOf = ({ r, g, b }: Colour): string =>
  `#${[r, g, b]
    .map((part) =>
      Math.round(part * 255)
        .toString(16)
        .padStart(2, "0"),
    )
    .join("")}`;

/**
 * The colour-blind safe palette of M. Okabe and K. Ito, "Color Universal Design" (2008), and a grey. Shape comes first:
 * no meaning rests on colour alone.
 */
export const OKABE_ITO = {
  vermillion: colour("#d55e00"),
  orange: colour("#e69f00"),
  reddishPurple: colour("#cc79a7"),
  bluishGreen: colour("#009e73"),
  blue: colour("#0072b2"),
  skyBlue: colour("#56b4e9"),
  yellow: colour("#f0e442"),
} as const;

/** Colour of each verdict, for symbols, stretches and lists. */
export const VERDICT_INK: Readonly<Record<Verdict, Colour>> = {
  concealed: OKABE_ITO.vermillion,
  "entry-unprotected": OKABE_ITO.vermillion,
  "too-close": OKABE_ITO.vermillion,
  "cannot-tell": OKABE_ITO.reddishPurple,
  borderline: OKABE_ITO.orange,
  clear: OKABE_ITO.bluishGreen,
  "not-governed": colour("#7a7a78"),
};

/** Lines and words. */
export const INK = colour("#23211f");
/** Words of second rank: still 4.5 to 1 against the paper. */
export const FAINT_INK = colour("#66615b");
/** Rules and tick marks. */
export const HAIR_INK = colour("#b9b2a8");
/** The warm ground of the screen; issued pages stay white. */
export const PAPER = colour("#faf6ee");
export const WHITE = colour("#ffffff");
/** The one accent: wiring, and what a hand may take hold of. */
export const ACCENT = OKABE_ITO.blue;
/** Decks: outlines and their tags. */
export const DECK_INK = colour("#7b5a3c");
