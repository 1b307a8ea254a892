import type { Box } from "../../job/elements/box.ts";
import { findBoxKind } from "../../trade/boxes.ts";
import { type Reading, reason } from "../reading.ts";
import { sourceText, written } from "../words.ts";
import type { CheckKind } from "./kind.ts";
import { type Envelope, placedFact, placedReach, placedShape, sizeIn } from "./placed-box.ts";

/** Boxes: the depth is the height where the cover faces down, the length where it faces sideways. */
export const boxKind: CheckKind<Box> = {
  shape: (scene, box) => placedShape(scene, box, "box", envelope(box, scene.system)),
  reach: (scene, box) => placedReach(scene, box, envelope(box, scene.system)),
  fact: (scene, box, name) => placedFact(scene, box, placedReach(scene, box, envelope(box, scene.system)), name),
};

function envelope(box: Box, system: "imperial" | "metric"): Reading<Envelope> {
  const row = findBoxKind(box.item);
  const [width, length, depth, source] = box.size
    ? [sizeIn(box.size.width), sizeIn(box.size.length), sizeIn(box.size.depth), `as recorded for ${box.label}`]
    : row
      ? [row.width.value, row.length.value, row.depth.value, `${row.label}; ${sourceText(row.depth.source)}`]
      : [undefined, undefined, undefined, ""];
  if (width === undefined || length === undefined || depth === undefined) {
    const text = `${box.label}: the size of this box is not known`;
    return {
      known: false,
      missing: [{ text, remedy: { kind: "record-fact", text: `Choose the box or record its size for ${box.label}.` } }],
      explain: () => reason(text),
    };
  }
  const down = box.cover === "down";
  const height = down ? depth : length;
  return {
    known: true,
    value: down ? { along: length, across: width, height } : { along: width, across: depth, height },
    explain: () =>
      reason(`Height of ${box.label}, cover ${box.cover === "down" ? "down" : "sideways"}`, {
        value: written(height, system),
        quantity: { is: "height", in: height },
        source,
      }),
  };
}
