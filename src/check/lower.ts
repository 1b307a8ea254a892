import { isCloserThan } from "../geometry/tolerance.ts";
import type { Element } from "../job/elements/element.ts";
import { MM_PER_INCH } from "../units/quantity.ts";
import { type DeckArea, hasSurface } from "./deck-area.ts";
import { shareUnder } from "./deck-share.ts";
import type { Remedy } from "./finding.ts";
import type { ElementShape } from "./kinds/kind.ts";
import { measure } from "./measure.ts";
import type { Scene } from "./scene.ts";
import { clearanceText } from "./words.ts";

/** The farthest a remedy lowers anything; beyond it the answer is another route, not a lower tag. */
const FARTHEST_IN = 240;
const MOST_STEPS = 40;

/**
 * The least lowering of the whole element, to a step a tape can hold (1/16 in. or 1 mm), that clears every roof near it, tolerances
 * included. Measured again at the new place before it is offered; undefined where none is found.
 */
export function lowerRemedy(
  scene: Scene,
  element: Element,
  shape: ElementShape,
  decks: readonly DeckArea[],
): Remedy | undefined {
  const roofs = decks.filter((deck) => hasSurface(deck) && deck.classification.is !== "floor-above");
  if (roofs.length === 0 || shape.pieces.length === 0) return undefined;
  const step = scene.system === "metric" ? 1 / MM_PER_INCH : 1 / 16;
  let by = 0;
  for (let round = 0; round < MOST_STEPS && by <= FARTHEST_IN; round++) {
    const pieces = shape.pieces.map((piece) => piece.lowered(by));
    const least = Math.min(
      ...roofs.map((deck) => {
        const shares = pieces.map((piece) => shareUnder(piece, deck));
        return measure(scene, pieces, shares, deck, shape.planTolerance, shape.standOut?.by).lo;
      }),
    );
    const lacking = isCloserThan(least, scene.required) ? scene.required - least : 0;
    if (lacking <= 0) return offer(scene, element, shape, by);
    by = Math.max(Math.ceil((by + lacking) / step - 1e-6), Math.round(by / step) + 1) * step;
  }
  return undefined;
}

function offer(scene: Scene, element: Element, shape: ElementShape, by: number): Remedy | undefined {
  if (by === 0) return undefined;
  const tags = shape.loweredTags(by);
  if (tags.length === 0) return undefined;
  const shown = tags.length > 4 ? `${tags.slice(0, 4).join(", ")}, and so on at every tag` : tags.join(", ");
  return { kind: "lower", byIn: by, text: `Lower ${element.label} by ${clearanceText(by, scene.system)}: ${shown}.` };
}
