import type { Stretch, Verdict } from "../../check/finding.ts";
import type { PathItem, PathStep, PictureItem } from "../../geometry/picture.ts";
import type { Point2 } from "../../geometry/point.ts";
import type { Run, Wiring } from "../../job/elements/run.ts";
import { findRacewayKind, findRacewaySize } from "../../trade/raceways.ts";
import { toInches } from "../../units/length.ts";
import { ACCENT, INK, VERDICT_INK } from "../inks.ts";
import { linePath } from "../paths.ts";
import { showTag } from "../show-length.ts";
import { elementSentence } from "../words.ts";
import { stretchPoints } from "./along.ts";
import type { Drawing, DrawingContext, Label } from "./drawing.ts";
import { spotsAlong, spotsAround } from "./label-spots.ts";

/** How stretches are told apart without colour: dash lengths in points, none for a solid line. */
export const STRETCH_DASH: Readonly<Partial<Record<Verdict, readonly number[]>>> = {
  borderline: [6, 4],
  "cannot-tell": [0.1, 4],
  concealed: [9, 3, 0.1, 3],
};
/** Width of a stretch drawn strong, points of paper. */
const STRETCH_WIDTH = 3.2;

/** Type and size of a run's wiring as the trade calls it: `3/4 EMT`. */
export function wiringWords(run: Run): string {
  const kind = findRacewayKind(run.wiring.type)?.short ?? run.wiring.type;
  return run.wiring.tradeSize ? `${run.wiring.tradeSize} ${kind}` : kind;
}

/** How wide a raceway lies in plan, inches: its diameter, or the width of its section; undefined where it is not known. */
export function outsideIn({ type, tradeSize, outsideDiameter, section }: Wiring): number | undefined {
  if (section) return toInches(section.width);
  if (outsideDiameter) return toInches(outsideDiameter);
  const row = findRacewaySize(type, tradeSize);
  return (row?.width ?? row?.outside)?.value;
}

/** True-width band, centre line, the stretches that need attention, and the label along the longest part. */
export function drawRun(run: Run, context: DrawingContext): Drawing {
  const { point } = context.frame;
  const line = run.vertices.map(({ at }) => at);
  const outside = outsideIn(run.wiring);
  const picture: PictureItem[] = [];
  if (outside !== undefined && context.inchesPerUnit !== undefined) {
    const width = Math.max(outside / context.inchesPerUnit, 1.6 * point);
    picture.push(linePath(line, { stroke: ACCENT, width, opacity: 0.3 }));
  }
  picture.push(linePath(line, { stroke: ACCENT, width: 0.6 * point, opacity: 0.9 }));
  picture.push(dots(line, 2.2 * point));
  for (const finding of context.findings) {
    for (const stretch of finding.stretches) picture.push(...strongStretch(context, stretch, finding.verdict));
  }
  const words = wiringWords(run);
  return {
    picture,
    hit: { kind: "line", points: line },
    annotation: {
      subtype: "PolyLine",
      subject: "Run",
      contents: elementSentence(run.label, words, context.findings),
      vertices: line,
      colour: ACCENT,
    },
    labels: [
      {
        lines: [{ text: `${run.label}  ${words}`, size: 8 * point, face: "bold", ink: ACCENT }],
        spots: spotsAlong(context.frame, line, 3),
      },
      ...tagLabels(run.vertices, context),
    ],
    keepClear: [line],
  };
}

/** A round dot on every point, as one path: very short lines with round caps. */
export function dots(points: readonly Point2[], size: number): PathItem {
  const steps = points.flatMap(([x, y]): PathStep[] => [
    ["M", x, y],
    ["L", x + size / 1000, y],
  ]);
  return { type: "path", steps, stroke: ACCENT, width: size, opacity: 0.9 };
}

/** A stretch that needs attention, drawn strong in the manner of its verdict. */
export function strongStretch(context: DrawingContext, stretch: Stretch, verdict: Verdict): PathItem[] {
  if (!context.along) return [];
  const points = stretchPoints(context.along, stretch);
  const { point } = context.frame;
  const dash = STRETCH_DASH[verdict]?.map((length) => length * point);
  return [
    linePath(points, {
      stroke: VERDICT_INK[verdict],
      width: STRETCH_WIDTH * point,
      opacity: 0.6,
      ...(dash ? { dash } : {}),
    }),
  ];
}

/** The tags of vertices, each at its own. */
export function tagLabels(vertices: Run["vertices"], { frame, job }: DrawingContext): Label[] {
  const { system } = job.settings.job;
  return vertices.flatMap(({ at, tag }): Label[] => {
    if (!tag) return [];
    const line = { text: showTag(tag, system), size: 6.5 * frame.point, face: "condensed" as const, ink: INK };
    return [{ lines: [line], spots: spotsAround(frame, at, 3.5) }];
  });
}
