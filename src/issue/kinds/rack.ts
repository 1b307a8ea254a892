import { offsetAxis } from "../../check/kinds/offset-axis.ts";
import { memberIn } from "../../check/subject.ts";
import type { PictureItem } from "../../geometry/picture.ts";
import { type Rack, racewayAsRun, racewayOffset } from "../../job/elements/rack.ts";
import { ACCENT } from "../inks.ts";
import { linePath } from "../paths.ts";
import { elementSentence } from "../words.ts";
import type { Drawing, DrawingContext } from "./drawing.ts";
import { spotsAlong } from "./label-spots.ts";
import { dots, outsideIn, strongStretch, tagLabels, wiringWords } from "./run.ts";

/** What is on a rack, like raceways together: `rack of 2 EMT, 2 × 3/4 EMT`. */
export function rackWords(rack: Rack): string {
  const counts = new Map<string, number>();
  rack.raceways.forEach((_, i) => {
    const words = wiringWords(racewayAsRun(rack, i));
    counts.set(words, (counts.get(words) ?? 0) + 1);
  });
  const each = [...counts].map(([words, count]) => (count > 1 ? `${count} × ${words}` : words));
  return `rack of ${each.join(", ")}`;
}

/** A true-width band for every raceway at its place across the rack, the traced line, the stretches that need attention, and the label. */
export function drawRack(rack: Rack, context: DrawingContext): Drawing {
  const { point } = context.frame;
  const line = rack.vertices.map(({ at }) => at);
  const picture: PictureItem[] = [];
  rack.raceways.forEach((_, i) => {
    const across = racewayOffset(rack, i);
    if (across === undefined || context.inchesPerUnit === undefined) return;
    const own = offsetAxis(line, across / context.inchesPerUnit);
    const outside = outsideIn(racewayAsRun(rack, i).wiring);
    if (outside !== undefined)
      picture.push(
        linePath(own, { stroke: ACCENT, width: Math.max(outside / context.inchesPerUnit, point), opacity: 0.3 }),
      );
    picture.push(linePath(own, { stroke: ACCENT, width: 0.5 * point, opacity: 0.8 }));
  });
  picture.push(linePath(line, { stroke: ACCENT, width: 0.4 * point, opacity: 0.9, dash: [4 * point, 2 * point] }));
  picture.push(dots(line, 2.2 * point));
  for (const finding of context.findings) {
    const along = context.alongMember?.(memberIn(finding.about) ?? "");
    for (const stretch of finding.stretches)
      picture.push(...strongStretch({ ...context, along }, stretch, finding.verdict));
  }
  const words = rackWords(rack);
  return {
    picture,
    hit: { kind: "line", points: line },
    annotation: {
      subtype: "PolyLine",
      subject: "Rack",
      contents: elementSentence(rack.label, words, context.findings),
      vertices: line,
      colour: ACCENT,
    },
    labels: [
      {
        lines: [{ text: `${rack.label}  ${words}`, size: 8 * point, face: "bold", ink: ACCENT }],
        spots: spotsAlong(context.frame, line, 3),
      },
      ...tagLabels(rack.vertices, context),
    ],
    keepClear: [line],
  };
}
