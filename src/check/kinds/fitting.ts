import type { Fitting } from "../../job/elements/fitting.ts";
import { findConduitBody } from "../../trade/fittings.ts";
import { type Reading, reason } from "../reading.ts";
import { sourceText, written } from "../words.ts";
import type { CheckKind } from "./kind.ts";
import { type Envelope, placedFact, placedReach, placedShape, sizeIn } from "./placed-box.ts";

/** The item of a fitting that is a conduit body; any other is a plain fitting with a size of its own. */
export const CONDUIT_BODY = "conduit-body";

/** Fittings: the rectangular envelope around a conduit body or another fitting. */
export const fittingKind: CheckKind<Fitting> = {
  shape: (scene, fitting) =>
    placedShape(
      scene,
      fitting,
      fitting.item === CONDUIT_BODY ? "conduit-body" : "fitting",
      envelope(fitting, scene.system),
    ),
  reach: (scene, fitting) => placedReach(scene, fitting, envelope(fitting, scene.system)),
  fact: (scene, fitting, name) =>
    placedFact(scene, fitting, placedReach(scene, fitting, envelope(fitting, scene.system)), name),
};

function envelope(fitting: Fitting, system: "imperial" | "metric"): Reading<Envelope> {
  const row = fitting.item === CONDUIT_BODY ? findConduitBody(fitting.tradeSize) : undefined;
  const found: (Envelope & { source: string }) | undefined = fitting.size
    ? {
        along: sizeIn(fitting.size.length),
        across: sizeIn(fitting.size.width),
        height: sizeIn(fitting.size.height),
        source: `as recorded for ${fitting.label}`,
      }
    : row && {
        along: row.length.value,
        across: row.width.value,
        height: row.depth.value,
        source: `conduit body, trade size ${row.size}; ${sourceText(row.depth.source)}`,
      };
  if (!found) {
    const text = `${fitting.label}: the size of this fitting is not known`;
    return {
      known: false,
      missing: [{ text, remedy: { kind: "record-fact", text: `Record the size of ${fitting.label}.` } }],
      explain: () => reason(text),
    };
  }
  return {
    known: true,
    value: found,
    explain: () =>
      reason(`Height of ${fitting.label}`, {
        value: written(found.height, system),
        quantity: { is: "height", in: found.height },
        source: found.source,
      }),
  };
}
