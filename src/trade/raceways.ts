import { inches } from "../units/quantity.ts";
import type { Sourced, SourcedInches, SourceId } from "./sources.ts";

/** One trade size of a raceway, or one size of a cable. */
export interface RacewaySize {
  /** As it is called: `3/4`, `1-1/4`; cables by their make-up: `12/2`. */
  readonly size: string;
  /** Largest outside dimension across, which is what reaches the deck; of a rectangular section, its height. */
  readonly outside: SourcedInches;
  /** Outside width of a rectangular section; absent for round ones. */
  readonly width?: SourcedInches;
}

/** A kind of raceway or cable, with its sizes from small to large. */
export interface RacewayKind {
  readonly id: string;
  readonly label: string;
  readonly short: string;
  readonly elementClass: "raceway" | "cable";
  readonly material: Sourced<"metal" | "plastic">;
  /** The outside diameter differs by maker: the table holds a default, to be edited on the run. */
  readonly variesByMaker: boolean;
  /** Hangs lower between its supports than at them, unlike rigid tubing. */
  readonly flexible?: boolean;
  readonly sizes: readonly RacewaySize[];
}

type Column = readonly (readonly [size: string, outsideIn: number])[];

const sized = (source: SourceId, column: Column, note?: string): RacewaySize[] =>
  column.map(([size, outside]) => ({
    size,
    outside: { value: inches(outside), source, ...(note === undefined ? {} : { note }) },
  }));

/** Rectangular sections, outside width by height. */
const rectangular = (column: readonly (readonly [size: string, widthIn: number, heightIn: number])[]): RacewaySize[] =>
  column.map(([size, width, height]) => ({
    size,
    outside: { value: inches(height), source: "from-memory", note: NOMINAL },
    width: { value: inches(width), source: "from-memory", note: NOMINAL },
  }));
const NOMINAL =
  "Nominal, width by height. Covers, hinges and screws stand out beyond it and differ by maker: edit it on the run.";

const metal = { value: "metal", source: "from-memory" } as const;
const plastic = { value: "plastic", source: "from-memory" } as const;
const BY_MAKER = "Varies by maker. A default on the large side; measure or ask the maker, and edit it on the run.";

/** Iron-pipe outside diameters, shared by rigid metal conduit and PVC conduit. */
const IRON_PIPE: Column = [
  ["1/2", 0.84],
  ["3/4", 1.05],
  ["1", 1.315],
  ["1-1/4", 1.66],
  ["1-1/2", 1.9],
  ["2", 2.375],
  ["2-1/2", 2.875],
  ["3", 3.5],
  ["3-1/2", 4],
  ["4", 4.5],
];

/** Every kind of raceway and cable. A new kind is one entry here. */
export const racewayKinds: readonly RacewayKind[] = [
  {
    id: "emt",
    label: "Electrical metallic tubing",
    short: "EMT",
    elementClass: "raceway",
    material: metal,
    variesByMaker: false,
    sizes: sized("ansi-c80.3", [
      ["1/2", 0.706],
      ["3/4", 0.922],
      ["1", 1.163],
      ["1-1/4", 1.51],
      ["1-1/2", 1.74],
      ["2", 2.197],
      ["2-1/2", 2.875],
      ["3", 3.5],
      ["3-1/2", 4],
      ["4", 4.5],
    ]),
  },
  {
    id: "rmc",
    label: "Rigid metal conduit",
    short: "RMC",
    elementClass: "raceway",
    material: metal,
    variesByMaker: false,
    sizes: sized("ansi-c80.1", IRON_PIPE),
  },
  {
    id: "imc",
    label: "Intermediate metal conduit",
    short: "IMC",
    elementClass: "raceway",
    material: metal,
    variesByMaker: false,
    sizes: sized("ansi-c80.6", [
      ["1/2", 0.815],
      ["3/4", 1.029],
      ["1", 1.29],
      ["1-1/4", 1.638],
      ["1-1/2", 1.883],
      ["2", 2.36],
      ["2-1/2", 2.857],
      ["3", 3.476],
      ["3-1/2", 3.971],
      ["4", 4.466],
    ]),
  },
  {
    id: "pvc40",
    label: "Rigid PVC conduit, schedule 40",
    short: "PVC 40",
    elementClass: "raceway",
    material: plastic,
    variesByMaker: false,
    sizes: sized("nema-tc-2", IRON_PIPE),
  },
  {
    id: "pvc80",
    label: "Rigid PVC conduit, schedule 80",
    short: "PVC 80",
    elementClass: "raceway",
    material: plastic,
    variesByMaker: false,
    sizes: sized("nema-tc-2", IRON_PIPE),
  },
  {
    id: "fmc",
    label: "Flexible metal conduit",
    short: "FMC",
    elementClass: "raceway",
    material: metal,
    variesByMaker: true,
    flexible: true,
    sizes: sized(
      "from-memory",
      [
        ["3/8", 0.61],
        ["1/2", 0.92],
        ["3/4", 1.105],
        ["1", 1.38],
        ["1-1/4", 1.63],
        ["1-1/2", 1.95],
        ["2", 2.45],
      ],
      BY_MAKER,
    ),
  },
  {
    id: "lfmc",
    label: "Liquidtight flexible metal conduit",
    short: "LFMC",
    elementClass: "raceway",
    material: metal,
    variesByMaker: true,
    flexible: true,
    sizes: sized(
      "from-memory",
      [
        ["3/8", 0.71],
        ["1/2", 0.84],
        ["3/4", 1.05],
        ["1", 1.315],
        ["1-1/4", 1.66],
        ["1-1/2", 1.9],
        ["2", 2.375],
      ],
      BY_MAKER,
    ),
  },
  {
    id: "lfnc",
    label: "Liquidtight flexible nonmetallic conduit",
    short: "LFNC",
    elementClass: "raceway",
    material: plastic,
    variesByMaker: true,
    flexible: true,
    sizes: sized(
      "from-memory",
      [
        ["3/8", 0.71],
        ["1/2", 0.84],
        ["3/4", 1.05],
        ["1", 1.315],
        ["1-1/4", 1.66],
        ["1-1/2", 1.9],
        ["2", 2.375],
      ],
      BY_MAKER,
    ),
  },
  {
    id: "ent",
    label: "Electrical nonmetallic tubing",
    short: "ENT",
    elementClass: "raceway",
    material: plastic,
    variesByMaker: true,
    flexible: true,
    sizes: sized(
      "from-memory",
      [
        ["1/2", 0.84],
        ["3/4", 1.05],
        ["1", 1.315],
        ["1-1/4", 1.66],
        ["1-1/2", 1.9],
        ["2", 2.375],
      ],
      BY_MAKER,
    ),
  },
  {
    id: "mc",
    label: "Metal-clad cable",
    short: "MC",
    elementClass: "cable",
    material: metal,
    variesByMaker: true,
    flexible: true,
    sizes: sized(
      "from-memory",
      [
        ["14/2", 0.48],
        ["12/2", 0.52],
        ["12/3", 0.56],
        ["10/2", 0.58],
        ["10/3", 0.63],
      ],
      BY_MAKER,
    ),
  },
  {
    id: "ac",
    label: "Armored cable",
    short: "AC",
    elementClass: "cable",
    material: metal,
    variesByMaker: true,
    flexible: true,
    sizes: sized(
      "from-memory",
      [
        ["14/2", 0.48],
        ["12/2", 0.52],
        ["12/3", 0.56],
        ["10/3", 0.63],
      ],
      BY_MAKER,
    ),
  },
  {
    id: "nm",
    label: "Nonmetallic-sheathed cable",
    short: "NM",
    elementClass: "cable",
    material: plastic,
    variesByMaker: true,
    flexible: true,
    sizes: sized(
      "from-memory",
      [
        ["14/2", 0.4],
        ["14/3", 0.4],
        ["12/2", 0.45],
        ["12/3", 0.45],
        ["10/2", 0.53],
        ["10/3", 0.53],
      ],
      `Width across the flat. ${BY_MAKER}`,
    ),
  },
  {
    id: "wireway",
    label: "Metal wireway",
    short: "Wireway",
    elementClass: "raceway",
    material: metal,
    variesByMaker: true,
    sizes: rectangular([
      ["2-1/2x2-1/2", 2.5, 2.5],
      ["4x4", 4, 4],
      ["6x6", 6, 6],
      ["8x8", 8, 8],
      ["10x10", 10, 10],
      ["12x12", 12, 12],
    ]),
  },
];

/** The kind with this id, or undefined. */
export const findRacewayKind = (id: string): RacewayKind | undefined => racewayKinds.find((kind) => kind.id === id);

/** One size of one kind, or undefined when the table has no such row: never a neighbouring size. */
export const findRacewaySize = (kindId: string, size: string): RacewaySize | undefined =>
  findRacewayKind(kindId)?.sizes.find((row) => row.size === size);
