import type { Element } from "../../src/job/elements/element.ts";
import { NO_FACTS } from "../../src/job/fields.ts";
import { type Area, emptyJob, type Job } from "../../src/job/schema.ts";
import { type Drawings, writeJobFile } from "../../src/store/job-file.ts";
import { sha256 } from "../../src/store/sha256.ts";
import { seeded } from "../geometry/random-scenes.ts";
import { plainSheet, plainViewport } from "../job/plain-records.ts";
import { contentPagePdf } from "../pdf/read/tiny-pdf.ts";

/** Of the random runs. */
const SEED = 83;
/** Bays of 30 by 25 ft, and the inches of building in a point of the sheet: 1/16" = 1'-0". */
const [COLUMNS, ROWS, WIDE, DEEP, SCALE] = [20, 15, 360, 300, 192 / 72];
/** A 42 by 30 in. sheet, and where the building lies on it, points. */
const VIEW: [number, number, number, number] = [0, 0, 3024, 2160];
const [LEFT, BELOW] = [162, 236];
const SEGMENTS = 3;

const inch = (value: number) => ({ value, unit: "in" as const });
const onSheet = (x: number, y: number): [number, number] => [LEFT + x / SCALE, BELOW + y / SCALE];

/** A large job as a file, with its drawing; the same numbers give the same job. */
export interface BigJob {
  readonly job: Job;
  readonly plan: Uint8Array<ArrayBuffer>;
  /** With the drawing in it. */
  readonly file: Uint8Array;
}

/** An invented building under 300 sloped decks on one sheet, and so many runs of four vertices that go square to its grid; one in ten has a vertex too near. */
export async function bigJob(runs: number): Promise<BigJob> {
  const random = seeded(SEED);
  const plan = contentPagePdf(gridLines(), { view: VIEW, rotate: 0, userUnit: 1 }) as Uint8Array<ArrayBuffer>;
  const hash = await sha256(plan);
  const areas = Array.from({ length: COLUMNS * ROWS }, (_, i): [string, Area] => {
    const [x, y] = [(i % COLUMNS) * WIDE, Math.floor(i / COLUMNS) * DEEP];
    const corners = [onSheet(x, y), onSheet(x + WIDE, y), onSheet(x + WIDE, y + DEEP), onSheet(x, y + DEEP)];
    return [
      `a${i}`,
      {
        label: `A-${i + 1}`,
        viewport: "v",
        outline: corners,
        holes: [],
        classification: { is: "roof", reason: "", by: "" },
        deck: { profile: "wide-rib-1-1/2", depth: null, concreteCover: { is: "none" } },
        elevation: {
          datum: { from: "project" },
          basis: "bottom-of-deck",
          layers: [],
          shape: { is: "slope", at: inch(150), point: corners[0]!, towards: corners[3]!, rise: 1 / 48, text: "" },
          plusMinus: null,
        },
      },
    ];
  });
  const elements = Array.from({ length: runs }, (_, i): [string, Element] => {
    const [east, north] = [COLUMNS * WIDE, ROWS * DEEP];
    let [x, y] = [random() * east, random() * north];
    let along = random() < 0.5;
    const near = random() < 0.1 ? Math.floor(random() * (SEGMENTS + 1)) : -1;
    const z = 120 + 16 * random();
    const vertices = Array.from({ length: SEGMENTS + 1 }, (_, k) => {
      const vertex = {
        at: onSheet(x, y),
        tag: {
          length: inch(k === near ? 143 + 3 * random() : z),
          datum: { from: "project" as const },
          basis: "centre" as const,
          plusMinus: null,
        },
      };
      const step = (random() < 0.5 ? -1 : 1) * (24 + 120 * random());
      if (along) x = Math.min(east, Math.max(0, x + step));
      else y = Math.min(north, Math.max(0, y + step));
      along = !along;
      return vertex;
    });
    const wiring = { type: "emt", tradeSize: "3/4", outsideDiameter: null };
    return [`r${i}`, { kind: "run", label: `R-${i + 1}`, viewport: "v", wiring, vertices, facts: NO_FACTS }];
  });
  const job: Job = {
    ...emptyJob("A large job", "us-2026"),
    sheets: {
      s: plainSheet({ title: "E-101", file: { sha256: hash, name: "plan.pdf", bytes: plan.length }, view: VIEW }),
    },
    viewports: { v: plainViewport("s", 192) },
    areas: Object.fromEntries(areas),
    elements: Object.fromEntries(elements),
  };
  const drawings: Drawings = new Map([[hash, plan]]);
  return { job, plan, file: await writeJobFile(job, drawings) };
}

/** What is drawn on the sheet: the grid, and joists between. */
function gridLines(): string {
  const lines: string[] = ["0.4 w"];
  for (let i = 0; i <= COLUMNS * 6; i++) {
    const [x, y0] = onSheet((i * WIDE) / 6, 0);
    lines.push(`${x} ${y0} m ${x} ${onSheet(0, ROWS * DEEP)[1]} l S`);
  }
  for (let j = 0; j <= ROWS; j++) {
    const [x0, y] = onSheet(0, j * DEEP);
    lines.push(`${x0} ${y} m ${onSheet(COLUMNS * WIDE, 0)[0]} ${y} l S`);
  }
  return lines.join("\n");
}
