import { bendRadii } from "./bends.ts";
import { boxKinds } from "./boxes.ts";
import { conductorDiameter, conductorSizes, insulations } from "./conductors.ts";
import { deckProfiles } from "./decks.ts";
import { conduitBodies, fittingReaches } from "./fittings.ts";
import { penetrations } from "./penetrations.ts";
import { type RacewayKind, racewayKinds } from "./raceways.ts";
import type { Sourced, SourceId } from "./sources.ts";
import { supports } from "./supports.ts";

/** One value of a table. `unit` is "" for words. A value that must be given for the job is absent: `value` undefined. */
export interface TableCell {
  readonly value: string | number | undefined;
  readonly unit: "in" | "°C" | "";
  /** Absent for the names that rows go by. */
  readonly source?: SourceId;
  readonly note?: string;
}

/** A trade table for showing and listing: every value with its unit and its source. Each row has a cell for each column. */
export interface TradeTable {
  readonly name: string;
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly TableCell[])[];
}

const name = (value: string): TableCell => ({ value, unit: "" });
const cell = (sourced: Sourced<string | number>, unit: TableCell["unit"]): TableCell => ({ ...sourced, unit });
const isRectangular = ({ sizes }: RacewayKind): boolean => sizes.some(({ width }) => width !== undefined);
const racewaysWhere = (test: (kind: RacewayKind) => boolean): readonly RacewayKind[] => racewayKinds.filter(test);
const missing: TableCell = { value: undefined, unit: "in" };

/** Every trade table. A new table is one entry here. */
export const allTables = (): readonly TradeTable[] => [
  {
    name: "raceways",
    title: "Raceways and cables",
    columns: ["kind", "name", "class", "material", "size", "outside"],
    rows: racewaysWhere((kind) => !isRectangular(kind)).flatMap((kind) =>
      kind.sizes.map((row) => [
        name(kind.id),
        name(kind.label),
        name(kind.elementClass),
        cell(kind.material, ""),
        name(row.size),
        cell(row.outside, "in"),
      ]),
    ),
  },
  {
    name: "wireways",
    title: "Raceways of rectangular section",
    columns: ["kind", "name", "class", "material", "size", "width", "height"],
    rows: racewaysWhere(isRectangular).flatMap((kind) =>
      kind.sizes.flatMap((row) =>
        row.width
          ? [
              [
                name(kind.id),
                name(kind.label),
                name(kind.elementClass),
                cell(kind.material, ""),
                name(row.size),
                cell(row.width, "in"),
                cell(row.outside, "in"),
              ],
            ]
          : [],
      ),
    ),
  },
  {
    name: "fittings",
    title: "Couplings and connectors",
    columns: ["kind", "size", "outside"],
    rows: fittingReaches.map((row) => [name(row.kind), name(row.size), cell(row.outside, "in")]),
  },
  {
    name: "bends",
    title: "Bend radii, to the centre line",
    columns: ["size", "radius"],
    rows: bendRadii.map((row) => [name(row.size), cell(row.radius, "in")]),
  },
  {
    name: "conduit-bodies",
    title: "Conduit bodies",
    columns: ["size", "length", "width", "depth"],
    rows: conduitBodies.map((row) => [
      name(row.size),
      cell(row.length, "in"),
      cell(row.width, "in"),
      cell(row.depth, "in"),
    ]),
  },
  {
    name: "boxes",
    title: "Boxes",
    columns: ["box", "name", "length", "width", "depth"],
    rows: boxKinds.map((row) => [
      name(row.id),
      name(row.label),
      cell(row.length, "in"),
      cell(row.width, "in"),
      cell(row.depth, "in"),
    ]),
  },
  {
    name: "decks",
    title: "Deck profiles",
    columns: ["deck", "name", "material", "depth", "pitch"],
    rows: deckProfiles.map((row) => [
      name(row.id),
      name(row.label),
      name(row.material),
      row.depth ? cell(row.depth, "in") : missing,
      row.pitch ? cell(row.pitch, "in") : missing,
    ]),
  },
  {
    name: "supports",
    title: "Supports: room left above the raceway",
    columns: ["support", "name", "leaves"],
    rows: supports.map((row) => [name(row.id), name(row.label), cell(row.leaves, "in")]),
  },
  {
    name: "penetrations",
    title: "Roof fasteners: customary least penetrations",
    columns: ["fastener", "name", "least"],
    rows: penetrations.map((row) => [name(row.id), name(row.label), cell(row.least, "in")]),
  },
  {
    name: "insulations",
    title: "Conductor insulations",
    columns: ["insulation", "where", "rating"],
    rows: insulations.map((row) => [name(row.id), name(row.where), cell(row.ratingC, "°C")]),
  },
  {
    name: "conductors",
    title: "Conductor sizes, small to large, with bare solid diameters",
    columns: ["size", "diameter"],
    rows: conductorSizes.map((size) => {
      const diameter = conductorDiameter(size);
      return [name(size), diameter === undefined ? missing : cell({ value: diameter, source: "astm-b258" }, "in")];
    }),
  },
];
