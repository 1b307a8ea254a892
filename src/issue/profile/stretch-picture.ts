import type { Verdict } from "../../check/finding.ts";
import type { ProfileLine, ProfileStretch } from "../../check/profile-line.ts";
import type { ProfileDeck, RunProfile } from "../../check/run-profile.ts";
import type { Colour, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import { VERDICT_INK } from "../inks.ts";
import { linePath } from "../paths.ts";
import { cut, shifted } from "./cut-line.ts";
import { hatch } from "./hatch.ts";
import { topOver } from "./profile-reading.ts";
import type { ProfileScale } from "./profile-scale.ts";

/** Spacing of the hatch that tells stretches apart in grey, and its slant; picture units. */
const STRETCH_HATCH: Readonly<Partial<Record<Verdict, { readonly step: number; readonly slant: number }>>> = {
  "too-close": { step: 4, slant: 1 },
  concealed: { step: 2.5, slant: 1 },
  borderline: { step: 7, slant: -1 },
  "cannot-tell": { step: 9, slant: 0 },
};

/** The hatch of a verdict between a lower and an upper line. */
export function verdictHatch(
  verdict: Verdict,
  low: readonly [Point2, Point2],
  high: readonly [Point2, Point2],
  ink: Colour,
): PictureItem[] {
  const { step, slant } = STRETCH_HATCH[verdict] ?? { step: 4, slant: 1 };
  return hatch(low, high, step, slant, { stroke: ink, width: 0.7, opacity: 0.9 });
}

/** From the lower edge of the wiring up to the deck, filled in the verdict's colour and hatched. */
export function drawStretch(profile: RunProfile, stretch: ProfileStretch, scale: ProfileScale): PictureItem[] {
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
      const wiring = {
        low: cut(shifted(part(piece, a, b), -over), scale),
        high: cut(shifted(part(piece, a, b), over), scale),
      };
      if (!wiring.low || !wiring.high) continue;
      const deck = nearDeck(profile, piece, (a + b) / 2);
      const underside = (deck && cut(part(deck.underside, a, b), scale)) ?? wiring.high;
      // From the wiring up to the deck; where it reaches into or above the deck, from the deck's lowest surface up.
      const edge = (side: 0 | 1, pick: (...y: number[]) => number): Point2 => [
        underside[side][0],
        pick(wiring.low![side][1], wiring.high![side][1], underside[side][1]),
      ];
      const low: [Point2, Point2] = [edge(0, Math.min), edge(1, Math.min)];
      const top: [Point2, Point2] = [edge(0, Math.max), edge(1, Math.max)];
      const shape = [low[0], low[1], top[1], top[0]];
      items.push(
        linePath(shape, { fill: ink, opacity: 0.3 }, true),
        ...verdictHatch(stretch.verdict, low, top, ink),
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

/** The deck straight above, unless it is so far that the stretch must be about another one beside it. */
function nearDeck(profile: RunProfile, piece: ProfileLine, station: number): ProfileDeck | undefined {
  const deck = lowestOver(profile.decks, station);
  if (!deck) return undefined;
  const gap = part(deck.underside, station, station).from.z - part(piece, station, station).from.z - profile.radiusIn;
  return gap <= 2 * profile.requiredIn ? deck : undefined;
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
