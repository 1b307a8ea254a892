import type { Element } from "../../src/job/elements/element.ts";
import type { Entry } from "../../src/job/elements/entry.ts";
import { NO_FACTS, type Tag } from "../../src/job/fields.ts";
import { type Area, emptyJob, type Job } from "../../src/job/schema.ts";
import { FOOT, linesOfGrid, place } from "./plan-place.ts";
import {
  BOXES,
  CEILING,
  CEILING_PAPER,
  ENTRIES,
  FRAMING,
  FRAMING_PAPER,
  GRID,
  GRID_X,
  GRID_Y,
  NORTH,
  OUTLINES,
  onFramingPage,
  RUNS,
  STEP,
} from "./workshop.ts";

type Point = [number, number];
const pair = ([x, y]: readonly [number, number]): Point => [Number(x.toFixed(6)), Number(y.toFixed(6))];
/** A plan point on the page of the framing sheet, and of the ceiling sheet. */
const framing = (x: number, y: number): Point => pair(onFramingPage(place(FRAMING, [x, y])));
const ceiling = (x: number, y: number): Point => pair(place(CEILING, [x, y]));
const inch = (value: number) => ({ value, unit: "in" }) as const;
const feet = (whole: number, more = 0) => inch(whole * FOOT + more);

const FROM_FLOOR = { from: "storey", storey: "level-1" } as const;
const tag = (basis: Tag["basis"], whole: number, more: number, plusMinus: number | null = null): Tag => ({
  length: feet(whole, more),
  datum: FROM_FLOOR,
  basis,
  plusMinus: plusMinus === null ? null : inch(plusMinus),
});

/** What is traced of each run beside its route: type, size, tags at its two ends, facts. */
const WIRING: Readonly<
  Record<string, { type: string; size: string; tags: [Tag | null, Tag | null]; steel?: boolean; inConcrete?: boolean }>
> = {
  "R-1": { type: "emt", size: "3/4", tags: [tag("centre", 15, 0), tag("centre", 15, 0)] },
  "R-2": { type: "emt", size: "1", tags: [tag("centre", 14, 8), tag("centre", 14, 8)] },
  "R-3": { type: "emt", size: "3/4", tags: [tag("top", 11, 10.5, 0), tag("top", 11, 10.5, 0)] },
  "R-4": { type: "emt", size: "3/4", tags: [tag("centre", 11, 10, 0.25), tag("centre", 11, 10, 0.25)] },
  "R-5": { type: "emt", size: "1/2", tags: [tag("centre", 15, 8.75), tag("centre", 15, 4.75)], inConcrete: false },
  "R-6": { type: "rmc", size: "1", tags: [tag("top", 14, 11.875), tag("top", 14, 11.875)], steel: true },
  "R-7": { type: "rmc", size: "3/4", tags: [tag("top", 15, 9.5), tag("top", 15, 9.5)] },
  "R-8": { type: "emt", size: "3/4", tags: [tag("centre", 12, 0.5), tag("centre", 12, 0.5)] },
  "R-9": { type: "emt", size: "1-1/4", tags: [tag("top", 11, 11), tag("top", 11, 11)] },
  "R-10": { type: "emt", size: "3/4", tags: [tag("top", 11, 11.5), tag("top", 11, 11.5)] },
  "R-11": { type: "mc", size: "12/2", tags: [tag("centre", 10, 5), tag("centre", 10, 5)] },
  "R-12": { type: "emt", size: "3/4", tags: [null, null] },
};

function elements(): Record<string, Element> {
  const all: Record<string, Element> = {};
  for (const run of RUNS) {
    const wiring = WIRING[run.label]!;
    all[run.label.toLowerCase()] = {
      kind: "run",
      label: run.label,
      viewport: "ceiling-plan",
      wiring: { type: wiring.type, tradeSize: wiring.size, outsideDiameter: null },
      vertices: run.route.map(([x, y], i) => ({ at: ceiling(x, y), tag: wiring.tags[i] ?? null })),
      facts: { ...NO_FACTS, steelFittings: wiring.steel ?? null, inConcrete: wiring.inConcrete ?? null },
    };
  }
  all["b-1"] = {
    kind: "box",
    label: "B-1",
    viewport: "ceiling-plan",
    at: ceiling(...BOXES["B-1"].at),
    item: "4sq-2-1/8",
    size: null,
    cover: "down",
    rotationDeg: 0,
    tag: tag("top", 15, 3.75),
    facts: NO_FACTS,
  };
  all["b-2"] = {
    kind: "box",
    label: "B-2",
    viewport: "ceiling-plan",
    at: ceiling(...BOXES["B-2"].at),
    item: "4oct-1-1/2",
    size: null,
    cover: "down",
    rotationDeg: 0,
    tag: { length: inch(4), datum: { from: "below-deck" }, basis: "centre", plusMinus: null },
    facts: NO_FACTS,
  };
  all["f-1"] = {
    kind: "fitting",
    label: "F-1",
    viewport: "ceiling-plan",
    at: ceiling(...BOXES["F-1"].at),
    item: "conduit-body",
    tradeSize: "1",
    size: null,
    rotationDeg: 90,
    tag: tag("centre", 14, 8),
    facts: NO_FACTS,
  };
  const bushing = (ratingC: number) => ({ is: "method", method: "insulating-fitting", ratingC }) as const;
  const entry = (
    label: keyof typeof ENTRIES,
    more: Pick<Entry, "run" | "conductor" | "insulation" | "protection">,
    panel: string,
  ) => {
    all[label.toLowerCase()] = {
      kind: "entry",
      label,
      viewport: "ceiling-plan",
      at: ceiling(...ENTRIES[label].at),
      enclosure: { is: "words", words: panel },
      fastened: true,
      beforePulling: true,
      ...more,
    };
  };
  entry("E-1", { run: "r-9", conductor: "1/0", insulation: "THWN-2", protection: bushing(75) }, "panel LP-1");
  entry("E-2", { run: "r-6", conductor: "4", insulation: "THHN", protection: bushing(105) }, "panel LP-2");
  return all;
}

function areas(): Record<string, Area> {
  const outline = (name: keyof typeof OUTLINES): Point[] => OUTLINES[name].map(([x, y]) => framing(x, y));
  const roofDeck = { profile: "wide-rib-1-1/2", depth: null, concreteCover: { is: "none" } } as const;
  const common = { viewport: "framing-plan", holes: [] };
  const by = "plan reviewer";
  return {
    "hall-roof": {
      ...common,
      label: "Hall roof",
      outline: outline("hall"),
      classification: { is: "roof", reason: "Nothing above it but roofing: S-201, detail 2", by },
      deck: roofDeck,
      elevation: {
        datum: FROM_FLOOR,
        basis: "top-of-steel",
        layers: [],
        shape: {
          is: "slope",
          at: feet(16),
          point: framing(STEP / 2, NORTH),
          towards: framing(STEP / 2, 0),
          rise: 1 / 48,
          text: `1/4" per foot`,
        },
        plusMinus: null,
      },
    },
    "store-roof": {
      ...common,
      label: "Store roof",
      outline: outline("store"),
      classification: { is: "roof", reason: "Nothing above it but roofing: S-201, detail 3", by },
      deck: roofDeck,
      elevation: {
        datum: FROM_FLOOR,
        basis: "top-of-deck",
        layers: [],
        shape: { is: "level", at: feet(12, 1.5) },
        plusMinus: inch(0),
      },
    },
    "loft-floor": {
      ...common,
      label: "Loft floor",
      outline: outline("loft"),
      classification: { is: "floor-above", reason: "The loft is above it: S-201, note 4", by },
      deck: {
        profile: "composite-2",
        depth: null,
        concreteCover: { is: "thickness", thickness: inch(3) },
      },
      elevation: {
        datum: FROM_FLOOR,
        basis: "top-of-steel",
        layers: [],
        shape: { is: "level", at: feet(12) },
        plusMinus: null,
      },
    },
    canopy: {
      ...common,
      label: "Canopy",
      outline: outline("canopy"),
      classification: { is: "not-settled", reason: "A viewing terrace on it is under discussion: S-201, note 5", by },
      deck: roofDeck,
      elevation: {
        datum: FROM_FLOOR,
        basis: "bottom-of-deck",
        layers: [],
        shape: { is: "level", at: feet(10, 6) },
        plusMinus: null,
      },
    },
  };
}

/** The job traced on the sample's two sheets. `file` is the drawing set as written. */
export function workshopJob(file: Job["sheets"][string]["file"]): Job {
  const job = emptyJob("Riverside Workshop", "us-2023");
  const corner = (label: string, x: number, y: number) => ({ label, here: ceiling(x, y), there: framing(x, y) });
  const [west, east] = [GRID_X[0]!, GRID_X[4]!];
  const [south, north] = [GRID_Y[0]!, GRID_Y[3]!];
  return {
    ...job,
    settings: {
      job: {
        ...job.settings.job,
        editionBy: "the invented town of Ellowmere",
        tolerances: { tags: inch(0.125), decks: inch(0.125), plan: inch(1) },
      },
    },
    sheets: {
      "s-201": {
        title: "S-201 Roof framing plan and details",
        file,
        page: 1,
        view: [0, 0, FRAMING_PAPER.height, FRAMING_PAPER.width],
        rotate: 90,
        userUnit: 1,
      },
      "a-131": {
        title: "A-131 Reflected ceiling plan and raceways",
        file,
        page: 2,
        view: [0, 0, CEILING_PAPER.width, CEILING_PAPER.height],
        rotate: 0,
        userUnit: 1,
      },
    },
    viewports: {
      "framing-plan": {
        sheet: "s-201",
        name: "Roof framing plan",
        region: null,
        storey: "level-1",
        scale: { stated: { text: `1/8" = 1'-0"`, ratio: 96 }, measured: null, use: "stated" },
        registration: null,
        grid: linesOfGrid(GRID, ([x, y]) => framing(x, y)),
      },
      "ceiling-plan": {
        sheet: "a-131",
        name: "Reflected ceiling plan",
        region: null,
        storey: "level-1",
        scale: { stated: { text: `1/4" = 1'-0"`, ratio: 48 }, measured: null, use: "stated" },
        registration: {
          to: "framing-plan",
          pairs: [
            corner(`${west.name}/${south.name}`, west.at, south.at),
            corner(`${east.name}/${south.name}`, east.at, south.at),
            corner(`${east.name}/${north.name}`, east.at, north.at),
            corner(`${west.name}/${north.name}`, west.at, north.at),
          ],
        },
      },
    },
    areas: areas(),
    elements: elements(),
  };
}
