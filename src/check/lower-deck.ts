import { totalLength } from "../geometry/interval-set.ts";
import { NO_ROOFING } from "../job/roofing.ts";
import type { Area } from "../job/schema.ts";
import { toInches } from "../units/length.ts";
import { type Inches, inches } from "../units/quantity.ts";
import type { Cover } from "./coverage.ts";
import { type DeckArea, hasSurface, surfaceAt } from "./deck-area.ts";
import type { DeckShare } from "./deck-share.ts";
import { deckDepth } from "./deck-surface.ts";
import type { Reason } from "./finding.ts";
import type { ElementShape } from "./kinds/kind.ts";
import type { Near } from "./near.ts";
import { reason } from "./reading.ts";
import type { Scene } from "./scene.ts";
import { uprightDoubt } from "./upright-doubt.ts";
import { clearanceText, written } from "./words.ts";

/**
 * How much farther than its recorded build-up, and all tolerances, something has to lie above a deck before it is no matter of that deck: paving,
 * ballast, curbs and what else is seldom recorded. Common practice, no source; inches.
 */
export const ABOVE_BUILD_UP_IN = inches(12);

/**
 * Thickness of a deck and what lies on it, above its lowest surface: its depth and the layers recorded with its elevation or its
 * roofing, the larger of the two. Undefined where its depth or a layer is not known, or nothing of what lies on it is recorded.
 */
export function buildUp(area: Area): Inches | undefined {
  const depth = deckDepth(area);
  const { basis, layers } = area.elevation;
  const counted = basis === "top-of-slab" || basis === "top-of-roofing" ? layers : [];
  const { layers: roofing } = area.roofing ?? NO_ROOFING;
  if (depth === undefined || (counted.length === 0 && roofing.length === 0)) return undefined;
  let most = 0;
  for (const stack of [counted, roofing]) {
    let sum = 0;
    for (const { thickness } of stack) {
      if (!thickness) return undefined;
      sum += toInches(thickness);
    }
    most = Math.max(most, sum);
  }
  return inches(depth + most);
}

/** How an element lies to a deck that is not the next one above any of it, and below which no part of it lies. */
export interface OverDeck {
  readonly deck: DeckArea;
  /** The decks it lies under there instead. */
  readonly under: readonly DeckArea[];
  /** How far the lowest of it lies above the lowest surface, square to it, inches. */
  readonly by: Inches;
  /** The build-up, and whether it lies farther above than that and what is allowed for: then the deck has no say. */
  readonly buildUp: Inches | undefined;
  readonly isClear: boolean;
}

/**
 * How an element lies over a deck, where everything of it that is over the deck lies above its lowest surface and under another
 * deck whose surface is known and higher there. Undefined where that does not hold. `covers(i)`: which decks are next above piece i of the element.
 */
export function overDeck(
  scene: Scene,
  deck: DeckArea,
  { pieces, shares }: Near,
  covers: (piece: number) => readonly Cover[],
  { planTolerance }: ElementShape,
): OverDeck | undefined {
  if (!hasSurface(deck)) return undefined;
  const steepest = Math.max(...deck.faces.map(({ steepness }) => steepness));
  let by = Number.POSITIVE_INFINITY;
  let slack = 0;
  const under: DeckArea[] = [];
  for (let i = 0; i < pieces.length; i++) {
    const piece = pieces[i]!;
    const share = shares[i]!;
    if (share.gaps.length === 0) continue;
    if (share.below) return undefined;
    const radius = piece.axis?.radius ?? 0;
    for (const { axisFrom, axisTo } of share.gaps) by = Math.min(by, -Math.max(axisFrom, axisTo) / steepest - radius);
    if (by <= 0) return undefined;
    slack = Math.max(slack, uprightDoubt(piece, deck));
    for (const cover of covers(i)) {
      if (!isOver(share, cover)) continue;
      const at = piece.planAt((cover.from + cover.to) / 2);
      const next = cover.deck;
      // One that is lower than this, or as high, is itself below the element: nothing is known of what is above.
      if (!next || next === deck || !hasSurface(next) || surfaceAt(next, at) <= surfaceAt(deck, at)) return undefined;
      if (!under.includes(next)) under.push(next);
    }
  }
  if (under.length === 0) return undefined;
  const own = buildUp(deck.area);
  const plan = scene.planTolerance + deck.planTolerance + planTolerance;
  const needed = Math.max(ABOVE_BUILD_UP_IN, scene.required) + slack + plan;
  return { deck, under, by: inches(by), buildUp: own, isClear: own !== undefined && by > own + needed };
}

/** Whether a cover speaks of a part of a piece that lies over the deck. */
function isOver({ under }: DeckShare, { from, to }: Cover): boolean {
  if (from === to) return under.length > 0;
  return totalLength(under.map(([a, b]) => [Math.max(a, from), Math.max(Math.max(a, from), Math.min(b, to))])) > 0;
}

/** The same pieces, none of them counted as over the deck: only how far they are from its edges. */
export const besideOnly = ({ pieces }: Near): Near => ({ pieces, shares: pieces.map(() => BESIDE) });

const BESIDE: DeckShare = { under: [], gaps: [], rises: false, below: false };

/** Why a deck that an element lies above has no say. */
export function overDeckReason({ system }: Scene, label: string, { deck, under, by, buildUp: own }: OverDeck): Reason {
  const names = under.map(({ area }) => area.label).join(" and ");
  return reason(
    `${label} lies above the deck of ${deck.area.label} and its build-up, and is judged under the next above it: ${names}`,
    { value: `${clearanceText(by, system)} above its lowest surface` },
    [
      reason("Its build-up, as recorded: the depth of the deck and what lies on it", {
        value: own === undefined ? "" : written(own, system),
        source: `as recorded for ${deck.area.label}`,
      }),
      reason("Allowed for what is seldom recorded, besides the tolerances", {
        value: written(ABOVE_BUILD_UP_IN, system),
        source: "common practice, no source",
      }),
    ],
  );
}
