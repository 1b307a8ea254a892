import type { Element } from "../../../src/job/elements/element.ts";
import { NO_FACTS, type Tag } from "../../../src/job/fields.ts";
import { type Area, emptyJob, type Job } from "../../../src/job/schema.ts";
import { type GridLine, linesOfGrid, type Plan, type PlanPlace, place } from "../plan-place.ts";
import {
  type DeckName,
  EAST,
  GRID,
  GRID_7,
  GRID_C,
  GRID_E,
  HOLES,
  LEVEL_1,
  MEZZANINE,
  MEZZANINE_DECK,
  OUTLINES,
  PAPER,
  PART_NAMES,
  PARTS,
  type PartName,
  partPlace,
  ROOF_PLACE,
  STANDING,
  valleyLines,
  valleySpots,
} from "./building.ts";
import type { MoreOfRun, StoreTag } from "./router.ts";
import type { StoreWiring } from "./wiring.ts";

type Point = [number, number];
const pair = ([x, y]: readonly [number, number]): Point => [Number(x.toFixed(4)), Number(y.toFixed(4))];
const onRoof = (at: Plan): Point => pair(place(ROOF_PLACE, at));
const onPart = (part: PartName, at: Plan): Point => pair(place(partPlace(part), at));
const inch = (value: number) => ({ value, unit: "in" }) as const;
const viewportOf = (part: PartName): string => `power-${part}`;

const PROJECT = { from: "project" } as const;
const FROM_LEVEL_1 = { from: "storey", storey: "level-1" } as const;
const DATUMS = {
  aff: FROM_LEVEL_1,
  mezzanine: { from: "storey", storey: "mezzanine" },
  project: PROJECT,
  "below-deck": { from: "below-deck" },
} as const;

function tagOf({ basis, from, inches, plusMinus }: StoreTag): Tag {
  return {
    length: inch(inches),
    datum: DATUMS[from],
    basis,
    plusMinus: plusMinus === undefined ? null : inch(plusMinus),
  };
}

const sectionOf = ({ section }: MoreOfRun = {}) =>
  section ? { section: { width: inch(section.width), height: inch(section.height) } } : {};

const besides = ({ bends, droop }: MoreOfRun = {}) => ({
  ...(bends === undefined ? {} : { bends: { is: "own" as const, length: inch(bends) } }),
  ...(droop === undefined ? {} : { droop: inch(droop) }),
});

function elements({ runs, boxes, bodies, entries, racks }: StoreWiring): Record<string, Element> {
  const all: Record<string, Element> = {};
  const put = (element: Element): void => {
    all[element.label.toLowerCase()] = element;
  };
  for (const run of runs)
    put({
      kind: "run",
      label: run.label,
      viewport: viewportOf(run.part),
      wiring: { type: run.wiring.type, tradeSize: run.wiring.size, outsideDiameter: null, ...sectionOf(run.more) },
      vertices: run.route.map((at, i) => ({ at: onPart(run.part, at), tag: run.tags[i] ? tagOf(run.tags[i]) : null })),
      facts: { ...NO_FACTS, ...run.facts },
      ...besides(run.more),
    });
  for (const rack of racks) {
    const tag: Tag = { length: inch(rack.bottom), datum: FROM_LEVEL_1, basis: "bottom", plusMinus: null };
    put({
      kind: "rack",
      label: rack.label,
      viewport: viewportOf(rack.part),
      raceways: rack.sizes.map((tradeSize) => ({
        label: "",
        wiring: { type: "emt", tradeSize, outsideDiameter: null },
        facts: NO_FACTS,
        ...(rack.couplings ? { couplings: { is: "table" as const } } : {}),
      })),
      spacing: { is: "centres", apart: inch(rack.apart) },
      vertices: rack.route.map((at) => ({ at: onPart(rack.part, at), tag })),
    });
  }
  for (const box of boxes)
    put({
      kind: "box",
      label: box.label,
      viewport: viewportOf(box.part),
      at: onPart(box.part, box.at),
      item: box.item,
      size: null,
      cover: "down",
      rotationDeg: 0,
      tag: tagOf(box.tag),
      facts: NO_FACTS,
    });
  for (const body of bodies)
    put({
      kind: "fitting",
      label: body.label,
      viewport: viewportOf(body.part),
      at: onPart(body.part, body.at),
      item: body.item,
      tradeSize: body.size!,
      size: null,
      rotationDeg: body.turned ?? 0,
      tag: tagOf(body.tag),
      facts: NO_FACTS,
    });
  for (const entry of entries)
    put({
      kind: "entry",
      label: entry.label,
      viewport: viewportOf(entry.part),
      at: onPart(entry.part, entry.at),
      run: entry.run.toLowerCase(),
      enclosure: { is: "words", words: `panel ${entry.panel}` },
      conductor: entry.conductor,
      insulation: entry.insulation,
      protection: entry.protection,
      fastened: entry.fastened,
      beforePulling: null,
    });
  return all;
}

const BY = "plan reviewer";
const WIDE_RIB: Area["deck"] = { profile: "wide-rib-1-1/2", depth: null, concreteCover: { is: "none" } };
const COMPOSITE: Area["deck"] = {
  profile: "composite-2",
  depth: null,
  concreteCover: { is: "thickness", thickness: inch(3) },
};
const roofOnly = (sheet: string): Area["classification"] => ({
  is: "roof",
  reason: `Nothing above it but roofing: ${sheet}`,
  by: BY,
});

function areas(): Record<string, Area> {
  const area = (
    name: DeckName,
    label: string,
    more: Pick<Area, "classification" | "deck"> & {
      elevation: Partial<Area["elevation"]> & Pick<Area["elevation"], "basis" | "shape">;
    },
    outline: readonly Plan[] = OUTLINES[name],
  ): Record<string, Area> => ({
    [name]: {
      label,
      viewport: "roof-framing",
      outline: outline.map(onRoof),
      holes: (HOLES[name] ?? []).map((hole) => hole.map(onRoof)),
      classification: more.classification,
      deck: more.deck,
      elevation: { datum: PROJECT, layers: [], plusMinus: null, ...more.elevation },
    },
  });
  const slope = (at: number, point: Plan, towards: Plan, rise: number, text: string): Area["elevation"]["shape"] => ({
    is: "slope",
    at: inch(at),
    point: onRoof(point),
    towards: onRoof(towards),
    rise,
    text,
  });
  const level = (at: number) => ({ is: "level", at: inch(at) }) as const;
  const slab = [{ name: "concrete slab", thickness: inch(3) }];
  const mid = GRID_7 / 2;
  return {
    ...area("sales-south", "Sales roof, south", {
      classification: roofOnly("A-120, sections 1 and 2"),
      deck: WIDE_RIB,
      elevation: { basis: "top-of-steel", shape: slope(1420, [mid, GRID_C], [mid, 0], 1 / 48, `1/4":12"`) },
    }),
    ...area("sales-north", "Sales roof, north", {
      classification: roofOnly("A-120, section 2"),
      deck: WIDE_RIB,
      elevation: {
        basis: "top-of-steel",
        shape: {
          is: "spots",
          spots: valleySpots().map(({ at, z }) => ({ at: onRoof(at), elevation: inch(z) })),
          lines: valleyLines().map(({ between: [a, b], kind }) => ({ between: [a + 1, b + 1], kind })),
        },
      },
    }),
    ...area("stock", "Stock room roof", {
      classification: roofOnly("A-120, section 2"),
      deck: WIDE_RIB,
      elevation: {
        basis: "top-of-roofing",
        layers: [
          { name: "membrane and cover board", thickness: inch(0.5) },
          { name: "tapered insulation, at the drain", thickness: inch(4.25) },
        ],
        shape: level(1374.25),
      },
    }),
    ...area("bakery", "Bakery roof", {
      classification: roofOnly("A-120"),
      deck: WIDE_RIB,
      elevation: {
        basis: "top-of-deck",
        shape: slope(1393.5, [GRID_7 - 360, GRID_E], [GRID_7 - 360, 1920], 1 / 96, `1/8":12"`),
      },
    }),
    ...area("pharmacy", "Pharmacy roof", {
      classification: roofOnly("A-120, section 1"),
      deck: WIDE_RIB,
      elevation: {
        datum: FROM_LEVEL_1,
        basis: "bottom-of-deck",
        shape: slope(174, [GRID_7, GRID_C / 2], [EAST, GRID_C / 2], 1 / 48, `1/4":12"`),
      },
    }),
    ...area(
      "mezzanine",
      "Mezzanine deck",
      {
        classification: {
          is: "from-outline",
          outlines: ["s-1", "s-2"],
          reason: "What stands on it is outlined on A-120",
          by: BY,
        },
        deck: COMPOSITE,
        elevation: { basis: "top-of-slab", layers: slab, shape: level(1349) },
      },
      MEZZANINE_DECK,
    ),
    ...area("penthouse", "Mezzanine roof", {
      classification: roofOnly("A-120, section 3"),
      deck: WIDE_RIB,
      elevation: { basis: "top-of-steel", shape: level(1488) },
    }),
    ...area("receiving", "Receiving roof", {
      classification: roofOnly("A-120, section 3"),
      deck: { profile: "deep-rib-3", depth: null, concreteCover: { is: "none" } },
      elevation: { basis: "top-of-deck", shape: level(1395) },
    }),
    ...area("canopy", "Entrance canopy", {
      classification: { is: "roof", reason: "Boards and membrane over the entrance: A-301, section 4", by: BY },
      deck: { profile: "wood", depth: inch(1.5), concreteCover: { is: "none" } },
      elevation: { datum: FROM_LEVEL_1, basis: "bottom-of-deck", shape: level(132) },
    }),
  };
}

/** What stands on the mezzanine deck, traced on the roof plan. */
function storeyOutlines(): Job["storeyOutlines"] {
  return {
    "s-1": {
      label: "S-1",
      viewport: "roof-plan",
      outline: STANDING.training.map(onRoof),
      holes: [],
      above: { is: "occupied-storey" },
      reason: "The training room: A-120, note 5",
      by: BY,
    },
    "s-2": {
      label: "S-2",
      viewport: "roof-plan",
      outline: STANDING.mechanical.map(onRoof),
      holes: [],
      above: { is: "other", what: "mezzanine", makes: "not-settled" },
      reason: "Equipment only, nobody stays there: with the authority, S-120, note 7",
      by: BY,
    },
  };
}

/** The sheets of the set in their order: number, title, and whether a plan with runs is on it. */
export const SHEETS = [
  { number: "G-001", title: "Cover, index and general notes" },
  { number: "S-120", title: "Roof framing plan" },
  { number: "A-120", title: "Roof plan" },
  ...PART_NAMES.map((part) => ({
    number: PARTS[part].sheet,
    title: `Power and reflected ceiling plan, ${PARTS[part].name.toLowerCase()}`,
  })),
  { number: "A-301", title: "Building sections" },
] as const;

/** The job traced on the set: areas on the roof framing plan, wiring on the four parts of the power plan. */
export function storeJob(file: Job["sheets"][string]["file"], wiring: StoreWiring): Job {
  const job = emptyJob("Fennick Lane Store", "us-2026");
  const sheetId = (number: string): string => number.toLowerCase();
  const scale = (text: string, ratio: number): Job["viewports"][string]["scale"] => ({
    stated: { text, ratio },
    measured: null,
    use: "stated",
  });
  const viewports: Job["viewports"] = {
    "roof-framing": {
      sheet: "s-120",
      name: "Roof framing plan",
      region: around(ROOF_PLACE, WHOLE),
      storey: "level-1",
      scale: scale(`3/32" = 1'-0"`, 128),
      registration: null,
      grid: linesOfGrid(GRID, onRoof),
    },
    "roof-plan": {
      sheet: "a-120",
      name: "Roof plan",
      region: around(ROOF_PLACE, WHOLE),
      storey: "level-1",
      scale: scale(`3/32" = 1'-0"`, 128),
      registration: {
        to: "roof-framing",
        pairs: corners(GRID.x, GRID.y).map(({ label, at }) => ({ label, here: onRoof(at), there: onRoof(at) })),
      },
    },
  };
  for (const part of PART_NAMES) {
    const { sheet, name, x, y } = PARTS[part];
    viewports[viewportOf(part)] = {
      sheet: sheetId(sheet),
      name: `Power plan, ${name.toLowerCase()}`,
      region: around(partPlace(part), PARTS[part]),
      storey: "level-1",
      scale: scale(`3/16" = 1'-0"`, 64),
      registration: {
        to: "roof-framing",
        pairs: corners(within(GRID.x, x), within(GRID.y, y)).map(({ label, at }) => ({
          label,
          here: onPart(part, at),
          there: onRoof(at),
        })),
      },
    };
  }
  return {
    ...job,
    settings: {
      job: {
        ...job.settings.job,
        editionBy: "the invented town of Ellowmere",
        tolerances: { tags: inch(0.125), decks: inch(0.125), plan: inch(1) },
      },
    },
    sheets: Object.fromEntries(
      SHEETS.map(({ number, title }, i) => [
        sheetId(number),
        {
          title: `${number} ${title}`,
          file,
          page: i + 1,
          view: [0, 0, PAPER.width, PAPER.height],
          rotate: 0,
          userUnit: 1,
        },
      ]),
    ),
    storeys: {
      "level-1": { name: "Level 1", floor: inch(LEVEL_1) },
      mezzanine: { name: "Mezzanine", floor: inch(MEZZANINE) },
    },
    viewports,
    areas: areas(),
    elements: elements(wiring),
    storeyOutlines: storeyOutlines(),
  };
}

/** All of the building, with its canopy. */
const WHOLE = { x: [0, EAST], y: [-192, 1920] } as const;

/** The part of a sheet that a plan takes up, with the faces of its outer walls; what else is on the sheet is none of its. */
function around(
  plan: PlanPlace,
  { x, y }: { readonly x: readonly [number, number]; readonly y: readonly [number, number] },
): [number, number, number, number] {
  const past = (at: number, limit: number): number => (at === limit ? 24 : 0);
  const low = pair(place(plan, [x[0] - past(x[0], 0), y[0]]));
  const high = pair(place(plan, [x[1] + past(x[1], EAST), y[1] + past(y[1], 1920)]));
  return [...low, ...high];
}

const within = (lines: readonly GridLine[], [low, high]: readonly [number, number]): readonly GridLine[] =>
  lines.filter(({ at }) => at >= low && at <= high);

/** The four outer intersections of grid lines, by their names. */
function corners(
  x: readonly GridLine[],
  y: readonly GridLine[],
): readonly { readonly label: string; readonly at: Plan }[] {
  const [west, east, south, north] = [x[0]!, x.at(-1)!, y[0]!, y.at(-1)!];
  const at = (gx: GridLine, gy: GridLine) => ({ label: `${gx.name}/${gy.name}`, at: [gx.at, gy.at] as const });
  return [at(west, south), at(east, south), at(east, north), at(west, north)];
}
