import { CONDUIT_BODY } from "../../check/kinds/fitting.ts";
import type { Fitting } from "../../job/elements/fitting.ts";
import { findConduitBody } from "../../trade/fittings.ts";
import { linePath } from "../paths.ts";
import type { Drawing, DrawingContext } from "./drawing.ts";
import { drawPlacedBox, inchesOf } from "./placed-box.ts";

/** What a fitting is called: `conduit body, trade size 3/4`. */
export function fittingWords(fitting: Fitting): string {
  const name = fitting.item === CONDUIT_BODY ? "conduit body" : "fitting";
  return fitting.tradeSize ? `${name}, trade size ${fitting.tradeSize}` : name;
}

/** Its envelope in plan with a line along it. */
export function drawFitting(fitting: Fitting, context: DrawingContext): Drawing {
  const row = fitting.item === CONDUIT_BODY ? findConduitBody(fitting.tradeSize) : undefined;
  const length = inchesOf(fitting.size?.length) ?? row?.length.value;
  const width = inchesOf(fitting.size?.width) ?? row?.width.value;
  const sizeIn = length !== undefined && width !== undefined ? ([length, width] as const) : undefined;
  return drawPlacedBox(
    { ...fitting, words: fittingWords(fitting), subject: "Fitting", sizeIn },
    context,
    (ink, corner) => [
      linePath([corner(-1, 0), corner(1, 0)], { stroke: ink, width: 0.6 * context.frame.point, opacity: 0.8 }),
    ],
  );
}
