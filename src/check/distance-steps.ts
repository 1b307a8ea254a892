import { LIMIT_TOLERANCE } from "../geometry/tolerance.ts";
import type { DeckArea } from "./deck-area.ts";
import type { Reason } from "./finding.ts";
import type { ElementShape } from "./kinds/kind.ts";
import type { Measured } from "./measure.ts";
import type { Piece } from "./piece.ts";
import type { QuantityKind } from "./quantity.ts";
import { reason } from "./reading.ts";
import type { Scene } from "./scene.ts";
import { hangsFrom, uprightDoubt } from "./upright-doubt.ts";
import { clearanceText, written } from "./words.ts";

/** How the least distance comes about: the two spots nearest each other, what is taken off, and what the tolerances make of it. */
export function distanceSteps(scene: Scene, shape: ElementShape, deck: DeckArea, measured: Measured): Reason[] {
  const { system } = scene;
  const { onElement, onFace, vertical, station, lo, hi } = measured;
  const apart = Math.hypot(onFace[0] - onElement[0], onFace[1] - onElement[1]);
  const piece = shape.pieces.find(({ from, to }) => station >= from - 1e-6 && station <= to + 1e-6) ?? shape.pieces[0];
  const standsOut = piece?.outline().standsOut ?? 0;
  const step = (text: string, is: QuantityKind, length: number) =>
    reason(text, { value: written(length, system), quantity: { is, in: length } });
  const steps: Reason[] = [
    reason("Elevation of its axis or surface there", {
      value: written(onElement[2], system),
      quantity: { is: "element-there", in: onElement[2] },
    }),
    reason("Elevation of the deck there", {
      value: written(onFace[2], system),
      quantity: { is: "deck-there", in: onFace[2] },
    }),
  ];
  if (apart > SHOWN_IN) steps.push(step("The two spots lie apart in plan by", "plan-apart", apart));
  if (standsOut > 0) steps.push(step("Less half the outside diameter", "stands-out", standsOut));
  if (vertical !== null)
    steps.push(
      reason("Straight up, as a tape measures it", {
        value: clearanceText(vertical, system),
        quantity: { is: "vertical", in: vertical },
      }),
    );
  if (hi - lo > LIMIT_TOLERANCE) {
    const [least, most] = [clearanceText(lo, system), clearanceText(hi, system)];
    const upOrDown = piece ? uprightDoubt(piece, deck) : deck.tolerance;
    const beyond = shape.standOut?.by ?? 0;
    const inPlan = scene.planTolerance + deck.planTolerance + shape.planTolerance;
    steps.push(
      reason(
        beyond > 0
          ? "By the tolerances of tag, deck and plan, and with a coupling or without one, it lies between"
          : "By the tolerances of tag, deck and plan it lies between",
        { value: `${least} and ${most}`, quantity: { is: "interval", in: lo, to: hi } },
        [
          ...(upOrDown > 0 ? [step(slackText(piece, deck), "slack-vertical", upOrDown)] : []),
          ...(beyond > 0 ? [step("A coupling stands out beyond the tube by", "stands-out-beyond", beyond)] : []),
          ...(inPlan > 0 ? [step("Plan, to any side", "slack-plan", inPlan)] : []),
        ],
      ),
    );
  }
  return steps;
}

/** Whose doubts make up how far a height may be off. */
function slackText(piece: Piece | undefined, deck: DeckArea): string {
  if (!piece?.counted) return "Tag and deck, up or down";
  if (hangsFrom(piece, deck)) return "Tag, counted from this deck, up or down";
  return piece.counted.area === deck.id
    ? "Tag and deck, up or down"
    : "Tag, the deck it is counted from, and this deck, up or down";
}

/** Less than this is not worth a line: a thousandth of an inch. */
const SHOWN_IN = 5e-4;
