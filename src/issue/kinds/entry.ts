import { isQuiet } from "../../check/finding.ts";
import { enclosureWords } from "../../check/kinds/entry.ts";
import { distance2, type Point2 } from "../../geometry/point.ts";
import type { Entry } from "../../job/elements/entry.ts";
import type { Job } from "../../job/schema.ts";
import { conductorSizeWords } from "../../trade/conductors.ts";
import { ACCENT, INK, VERDICT_INK } from "../inks.ts";
import { arcSteps, linePath } from "../paths.ts";
import { elementSentence } from "../words.ts";
import type { Drawing, DrawingContext } from "./drawing.ts";
import { spotsAround } from "./label-spots.ts";

/** Radius of the ring and half the turn of its gap: points of paper, radians. */
const RING = 4;
const GAP = 0.2 * Math.PI;

/** What an entry is called: `conductor entry, 4/0 AWG THWN-2`. */
export function entryWords({ conductor, insulation }: Entry): string {
  const size = conductor === null ? "" : conductorSizeWords(conductor);
  const wire = [size, insulation ?? ""].filter(Boolean).join(" ");
  return wire ? `conductor entry, ${wire}` : "conductor entry";
}

/** A ring with a gap towards the run, and a bar that enters it: not to scale, since a plan does not show the opening itself. */
export function drawEntry(entry: Entry, context: DrawingContext): Drawing {
  const { point } = context.frame;
  const { at } = entry;
  const loud = context.findings.find(({ verdict }) => !isQuiet(verdict));
  const ink = loud ? VERDICT_INK[loud.verdict] : ACCENT;
  const from = comingFrom(context.job, entry);
  const [dx, dy] = [Math.cos(from), Math.sin(from)];
  const radius = RING * point;
  const corner = (x: number, y: number): Point2 => [at[0] + x * radius, at[1] + y * radius];
  const outline = [corner(-1, -1), corner(1, -1), corner(1, 1), corner(-1, 1)];
  const words = entryWords(entry);
  const into = enclosureWords(context.job, entry.enclosure);
  return {
    picture: [
      {
        type: "path",
        steps: arcSteps(at, radius, from + GAP, from + 2 * Math.PI - GAP),
        stroke: ink,
        width: 1.1 * point,
        opacity: 0.9,
      },
      linePath([[at[0] + 2 * dx * radius, at[1] + 2 * dy * radius], at], {
        stroke: ink,
        width: 1.6 * point,
        opacity: 0.9,
      }),
    ],
    hit: { kind: "area", outline },
    annotation: {
      subtype: "Polygon",
      subject: "Conductor entry",
      contents: elementSentence(entry.label, into ? `${words}, into ${into}` : words, context.findings),
      vertices: outline,
      colour: ink,
    },
    labels: [
      {
        lines: [
          { text: entry.label, size: 8 * point, face: "bold", ink: ACCENT },
          ...(entry.conductor === null
            ? []
            : [
                {
                  text: conductorSizeWords(entry.conductor),
                  size: 6.5 * point,
                  face: "condensed" as const,
                  ink: INK,
                },
              ]),
        ],
        spots: spotsAround(context.frame, at, RING + 3),
      },
    ],
    keepClear: [[...outline, outline[0] as Point2]],
  };
}

/** The direction in which the run leaves the entry, sheet space; to the left where no run is recorded or it has no length. */
function comingFrom(job: Job, { run, at }: Entry): number {
  const record = job.elements[run ?? ""];
  if (!record || !("vertices" in record)) return Math.PI;
  const line = record.vertices.map((vertex) => vertex.at);
  const [first, last] = [line[0], line.at(-1)];
  if (!first || !last) return Math.PI;
  const outwards = distance2(first, at) <= distance2(last, at) ? line : line.toReversed();
  const next = outwards.find((place) => distance2(place, outwards[0] as Point2) > 0);
  const start = outwards[0] as Point2;
  return next ? Math.atan2(next[1] - start[1], next[0] - start[0]) : Math.PI;
}
