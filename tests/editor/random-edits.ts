import * as parts from "../../src/editor/edits/add-parts.ts";
import * as areas from "../../src/editor/edits/areas.ts";
import * as copying from "../../src/editor/edits/copies.ts";
import * as deleting from "../../src/editor/edits/delete-records.ts";
import * as elements from "../../src/editor/edits/elements.ts";
import * as gridding from "../../src/editor/edits/grid.ts";
import * as laying from "../../src/editor/edits/lay-with-scale.ts";
import * as many from "../../src/editor/edits/many.ts";
import * as notes from "../../src/editor/edits/notes.ts";
import * as racks from "../../src/editor/edits/racks.ts";
import * as raising from "../../src/editor/edits/raise-tag.ts";
import * as registering from "../../src/editor/edits/registration.ts";
import * as renaming from "../../src/editor/edits/rename.ts";
import * as renumbering from "../../src/editor/edits/renumber.ts";
import * as replacing from "../../src/editor/edits/replace-sheet.ts";
import * as roofing from "../../src/editor/edits/roofing.ts";
import * as scale from "../../src/editor/edits/scale.ts";
import * as settings from "../../src/editor/edits/settings.ts";
import * as sheets from "../../src/editor/edits/sheets.ts";
import * as splitting from "../../src/editor/edits/split-run.ts";
import * as spots from "../../src/editor/edits/spots.ts";
import * as outlines from "../../src/editor/edits/storey-outlines.ts";
import * as storeys from "../../src/editor/edits/storeys.ts";
import * as vertices from "../../src/editor/edits/vertices.ts";
import { outlineOf, type ShapedTable } from "../../src/editor/handles.ts";
import { bringBack } from "../../src/editor/said/set-aside.ts";
import type { Point2 } from "../../src/geometry/point.ts";
import type { Edit } from "../../src/job/edit.ts";
import type { Id, Tag } from "../../src/job/fields.ts";
import { LABELLED_TABLES } from "../../src/job/labels.ts";
import type { Job, TableName } from "../../src/job/schema.ts";
import type { Result } from "../../src/units/problem.ts";
import { inches, radians } from "../../src/units/quantity.ts";
import type { Chance } from "./chance.ts";
import { EMT, sheetOf } from "./sample-job.ts";

type Made = Edit | Result<Edit> | undefined;

const SHAPED: readonly ShapedTable[] = ["areas", "elements", "storeyOutlines", "notes"];
const TABLES: readonly Exclude<TableName, "settings">[] = [...SHAPED, "sheets", "viewports", "storeys"];

/** Random values of whatever an edit wants, out of a job as it is. */
export class Anything {
  readonly job: Job;
  readonly chance: Chance;
  readonly newId: () => Id;
  constructor(job: Job, chance: Chance, newId: () => Id) {
    this.job = job;
    this.chance = chance;
    this.newId = newId;
  }

  /** A record of a table, by its id; now and then one that is not there. */
  id(table: TableName): Id {
    const ids = Object.keys(this.job[table]);
    return ids.length === 0 || this.chance.oneIn(40) ? "nothing-there" : this.chance.of(ids);
  }
  /** A place on the sheet: of a coarse grid, or the place of something there is. */
  place(): Point2 {
    const { chance } = this;
    if (chance.oneIn(3)) {
      const table = chance.of(SHAPED);
      const record = this.job[table][this.id(table)];
      if (record) return chance.of(outlineOf(table, record).vertices);
    }
    return [chance.upTo(24) * 50, chance.upTo(18) * 50];
  }
  ring(): Point2[] {
    const [x, y] = this.place();
    const [w, h] = [50 + this.chance.upTo(8) * 50, 50 + this.chance.upTo(6) * 50];
    return [
      [x, y],
      [x + w, y],
      [x + w, y + h],
      [x, y + h],
    ];
  }
  region(): [number, number, number, number] {
    const [[x0, y0], , [x1, y1]] = this.ring() as [Point2, Point2, Point2, Point2];
    return [x0, y0, x1, y1];
  }
  length() {
    return { value: 1 + this.chance.upTo(200), unit: this.chance.of(["in", "ft", "mm"] as const) };
  }
  words(): string {
    return this.chance.of(["by the ordinance", "K. Invented", "two\nlines", "", "A-1", "R-2", "<b>"]);
  }
  label(): string {
    const table = this.chance.of(LABELLED_TABLES);
    return this.job[table][this.id(table)]?.label ?? "";
  }
  tag(): Tag {
    const { chance } = this;
    return {
      length: this.length(),
      datum: chance.of([
        { from: "project" },
        { from: "below-deck" },
        { from: "storey", storey: this.id("storeys") },
      ] as const),
      basis: chance.of(["bottom", "centre", "top"] as const),
      plusMinus: chance.oneIn(3) ? this.length() : null,
    };
  }
  facts() {
    return { steelFittings: this.chance.of([true, false, null]), inConcrete: this.chance.of([true, false, null]) };
  }
  elements(): Id[] {
    return [...new Set(Object.keys(this.job.elements).filter(() => this.chance.oneIn(3)))];
  }
  vertices() {
    return Array.from({ length: 2 + this.chance.upTo(3) }, () => ({
      at: this.place(),
      tag: this.chance.oneIn(3) ? this.tag() : null,
    }));
  }
  pairs() {
    return ["A/1", "A/2", "B/1"].map((label) => ({ label, here: this.place(), there: this.place() }));
  }
  shaped(): readonly [ShapedTable, Id, vertex: number] {
    const table = this.chance.of(SHAPED);
    return [table, this.id(table), this.chance.upTo(5)];
  }
  /** Ids of a few records that can be selected together. */
  picked() {
    return SHAPED.flatMap((table) =>
      Object.keys(this.job[table])
        .filter(() => this.chance.oneIn(6))
        .map((id) => ({ table, id })),
    );
  }
}

const WIRING = [EMT, { type: "rmc", tradeSize: "2", outsideDiameter: null }] as const;
const NOTE = { text: `1/4" = 1'-0"`, ratio: 48 } as const;
const FOLDS = ["ridge", "hip", "valley", "drain", "edge"] as const;

/** An edit of every kind there is, by the name of its builder, on a job as it is. */
export const EDITS: Readonly<Record<string, (any: Anything) => Made>> = {
  addParts: (any) =>
    parts.addParts(any.job, any.id("sheets"), [
      { id: any.newId(), name: any.words(), region: any.region(), scale: any.chance.oneIn(2) ? NOTE : null },
    ]),
  addArea: (any) => areas.addArea(any.job, any.newId(), any.id("viewports"), any.ring()),
  setAreaOutline: (any) => areas.setAreaOutline(any.job, any.id("areas"), any.ring()),
  addHole: (any) => areas.addHole(any.job, any.id("areas"), any.ring()),
  removeHole: (any) => areas.removeHole(any.job, any.id("areas"), any.chance.upTo(2)),
  classifyArea: (any) =>
    areas.classifyArea(any.job, any.id("areas"), {
      is: any.chance.of(["roof", "floor-above", "not-settled"] as const),
      reason: any.words(),
      by: any.words(),
    }),
  setDeck: (any) => areas.setDeck(any.job, any.id("areas"), { profile: "wood", depth: any.length() }),
  setElevation: (any) =>
    areas.setElevation(any.job, any.id("areas"), {
      basis: any.chance.of(["top-of-steel", "bottom-of-deck"] as const),
      shape: any.chance.of([
        { is: "level", at: any.length() },
        { is: "slope", at: any.length(), point: any.place(), towards: any.place(), rise: 0.02, text: "2%" },
      ] as const),
    }),
  deleteRecords: (any) => {
    const table = any.chance.of(TABLES);
    // Sheets and viewports take much along.
    if ((table === "sheets" || table === "viewports") && Object.keys(any.job[table]).length < 4) return undefined;
    return deleting.deleteRecords(any.job, [{ table, id: any.id(table) }]);
  },
  removeSheet: (any) =>
    Object.keys(any.job.sheets).length < 4 ? undefined : deleting.removeSheet(any.job, any.id("sheets")),
  addRun: (any) =>
    elements.addRun(any.job, any.newId(), {
      viewport: any.id("viewports"),
      wiring: any.chance.of(WIRING),
      vertices: any.vertices(),
    }),
  addBox: (any) =>
    elements.addBox(any.job, any.newId(), {
      viewport: any.id("viewports"),
      at: any.place(),
      item: "4sq-2-1/8",
      cover: "down",
      tag: any.tag(),
    }),
  addFitting: (any) =>
    elements.addFitting(any.job, any.newId(), {
      viewport: any.id("viewports"),
      at: any.place(),
      item: "lb",
      tradeSize: "1",
    }),
  addEntry: (any) =>
    elements.addEntry(any.job, any.newId(), {
      viewport: any.id("viewports"),
      at: any.place(),
      run: any.id("elements"),
    }),
  setWiring: (any) => elements.setWiring(any.job, any.id("elements"), any.chance.of(WIRING)),
  setItem: (any) => elements.setItem(any.job, any.id("elements"), { rotationDeg: any.chance.upTo(360) }),
  setFacts: (any) => elements.setFacts(any.job, any.id("elements"), any.facts()),
  setTag: (any) =>
    elements.setTag(
      any.job,
      any.id("elements"),
      any.chance.oneIn(3) ? "all" : any.chance.upTo(3),
      any.chance.oneIn(5) ? null : any.tag(),
    ),
  keepGrid: (any) =>
    gridding.keepGrid(
      any.job,
      any.id("viewports"),
      ["A", "1"].map((label) => ({ label, line: [any.place(), any.place()] as const })),
    ),
  forgetGrid: (any) => gridding.forgetGrid(any.job, any.id("viewports")),
  layWithScale: (any) => laying.layWithScale(any.job, any.id("viewports"), any.id("viewports"), any.pairs(), NOTE),
  raiseMany: (any) => many.raiseMany(any.job, any.elements(), inches(any.chance.upTo(25) - 12)),
  tagMany: (any) => many.tagMany(any.job, any.elements(), any.tag()),
  factsMany: (any) => many.factsMany(any.job, any.elements(), any.facts()),
  wireMany: (any) => many.wireMany(any.job, any.elements(), any.chance.of(WIRING)),
  settleMany: (any) =>
    many.settleMany(
      any.job,
      any.picked().flatMap(({ table, id }) => (table === "areas" ? [id] : [])),
      any.chance.of(["roof", "floor-above", "not-settled"] as const),
    ),
  joinMany: (any) => many.joinMany(any.job, any.elements()),
  moveMany: (any) => many.moveMany(any.job, any.picked(), [any.chance.upTo(100) - 50, any.chance.upTo(100) - 50]),
  addParallels: (any) =>
    copying.addParallels(any.job, any.id("elements"), [any.newId(), any.newId()], inches(any.chance.upTo(30) - 15)),
  addCopies: (any) =>
    copying.addCopies(
      any.job,
      [any.id("elements"), any.id("elements")].map((of) => ({
        of,
        id: any.newId(),
        by: [any.chance.upTo(99), 25] as const,
      })),
    ),
  addNote: (any) =>
    notes.addNote(any.job, any.newId(), {
      sheet: any.id("sheets"),
      text: any.words(),
      at: any.place(),
      place: any.place(),
      about: { table: "elements", id: any.id("elements") },
    }),
  setNoteText: (any) => notes.setNoteText(any.job, any.id("notes"), any.words()),
  setNotePlace: (any) => notes.setNotePlace(any.job, any.id("notes"), any.place()),
  setNoteAbout: (any) => notes.setNoteAbout(any.job, any.id("notes"), any.chance.oneIn(4) ? "" : any.label()),
  addRack: (any) =>
    racks.addRack(any.job, any.newId(), { viewport: any.id("viewports"), wiring: EMT, vertices: any.vertices() }),
  makeRack: (any) => racks.makeRack(any.job, any.id("elements")),
  addRaceway: (any) => racks.addRaceway(any.job, any.id("elements"), any.chance.upTo(2)),
  removeRaceway: (any) => racks.removeRaceway(any.job, any.id("elements"), any.chance.upTo(2)),
  setSpacing: (any) => racks.setSpacing(any.job, any.id("elements"), any.chance.of(["centres", "offsets"] as const)),
  raiseTag: (any) =>
    raising.raiseTag(any.job, any.id("elements"), any.chance.upTo(3), inches(any.chance.upTo(25) - 12)),
  registerViewport: (any) =>
    registering.registerViewport(any.job, any.id("viewports"), any.id("viewports"), any.pairs()),
  unregisterViewport: (any) => registering.unregisterViewport(any.job, any.id("viewports")),
  rename: (any) => {
    const table = any.chance.of(LABELLED_TABLES);
    return renaming.rename(
      any.job,
      table,
      any.id(table),
      any.chance.oneIn(2) ? any.label() : `X-${any.chance.upTo(99)}`,
    );
  },
  renumber: (any) => renumbering.renumber(any.job, any.picked(), any.chance.of(["place", "selection"] as const)),
  replaceSheet: (any) =>
    replacing.replaceSheet(any.job, any.id("sheets"), {
      page: sheetOf("Again", {
        page: 1 + any.chance.upTo(50),
        file: { sha256: "cd".repeat(32), name: "b.pdf", bytes: 5 },
      }),
      sim: {
        scale: any.chance.of([1, 1, 0.5, 2]),
        angle: radians(any.chance.of([0, 0, Math.PI / 2])),
        dx: any.chance.upTo(9),
        dy: any.chance.upTo(9),
      },
      by: "grid",
      residualPt: 0.5,
      toLookAt: any
        .picked()
        .flatMap(({ table, id }) =>
          table === "notes" ? [] : [{ table, id, line: null, beside: true, texts: [{ was: "old", now: null }] }],
        ),
    }),
  lookedAt: (any) => {
    const sheet = any.id("sheets");
    const look = any.job.sheets[sheet]?.toLookAt?.[0];
    return look && replacing.lookedAt(any.job, sheet, look.table, look.id);
  },
  setRoofing: (any) => roofing.setRoofing(any.job, any.id("areas"), { fastener: any.length(), flange: "top" }),
  removeRoofing: (any) => roofing.removeRoofing(any.job, any.id("areas")),
  setStatedScale: (any) =>
    scale.setStatedScale(any.job, any.id("viewports"), any.chance.of([`1/8" = 1'-0"`, "1:50", "?"])),
  stateScale: (any) => scale.stateScale(any.job, any.id("viewports"), NOTE, "note"),
  setMeasuredScale: (any) =>
    scale.setMeasuredScale(any.job, any.id("viewports"), any.place(), any.place(), any.length()),
  chooseScale: (any) => scale.chooseScale(any.job, any.id("viewports"), any.chance.of(["stated", "measured"] as const)),
  removeScale: (any) => scale.removeScale(any.job, any.id("viewports"), any.chance.of(["stated", "measured"] as const)),
  setSettings: (any) =>
    settings.setSettings(
      any.job,
      any.chance.of([
        { name: any.words() },
        { system: any.chance.of(["imperial", "metric"] as const) },
        { edition: any.chance.of(["us-2020", "us-2023", "us-2026"]), editionBy: any.words() },
        { tolerances: { tags: any.length(), decks: any.length(), plan: any.length() } },
      ]),
    ),
  addSheets: (any) => {
    const id = any.newId();
    return sheets.addSheets(any.job, [{ id, viewportId: any.newId(), sheet: sheetOf(`Sheet ${id}`) }]);
  },
  setSheetTitle: (any) => sheets.setSheetTitle(any.job, any.id("sheets"), any.words()),
  addViewport: (any) =>
    sheets.addViewport(any.job, any.newId(), { sheet: any.id("sheets"), name: "Part", region: any.region() }),
  setViewport: (any) =>
    sheets.setViewport(
      any.job,
      any.id("viewports"),
      any.chance.of([
        { name: any.words() },
        { region: any.chance.oneIn(2) ? null : any.region() },
        { storey: any.chance.oneIn(2) ? null : any.id("storeys") },
      ]),
    ),
  splitRun: (any) => splitting.splitRun(any.job, any.id("elements"), 1, any.newId()),
  joinRuns: (any) => splitting.joinRuns(any.job, any.id("elements"), any.id("elements")),
  setSpots: (any) =>
    spots.setSpots(
      any.job,
      any.id("areas"),
      Array.from({ length: 3 + any.chance.upTo(3) }, () => ({ at: any.place(), elevation: any.length() })),
      [],
    ),
  removeSpot: (any) => spots.removeSpot(any.job, any.id("areas"), any.chance.upTo(4)),
  addFoldLine: (any) =>
    spots.addFoldLine(any.job, any.id("areas"), {
      between: [1 + any.chance.upTo(4), 1 + any.chance.upTo(4)],
      kind: any.chance.of(FOLDS),
    }),
  setFoldLine: (any) =>
    spots.setFoldLine(any.job, any.id("areas"), any.chance.upTo(2), any.chance.oneIn(2) ? null : any.chance.of(FOLDS)),
  addStoreyOutline: (any) => outlines.addStoreyOutline(any.job, any.newId(), any.id("viewports"), any.ring()),
  setStoreyRing: (any) => outlines.setStoreyRing(any.job, any.id("storeyOutlines"), any.ring()),
  addStoreyHole: (any) => outlines.addStoreyHole(any.job, any.id("storeyOutlines"), any.ring()),
  removeStoreyHole: (any) => outlines.removeStoreyHole(any.job, any.id("storeyOutlines"), 0),
  setStanding: (any) =>
    outlines.setStanding(any.job, any.id("storeyOutlines"), { above: { is: "occupied-storey" }, by: any.words() }),
  speakFor: (any) => outlines.speakFor(any.job, any.id("storeyOutlines"), any.id("areas"), any.chance.oneIn(2)),
  followOutlines: (any) => outlines.followOutlines(any.job, any.id("areas")),
  addStorey: (any) => storeys.addStorey(any.job, any.newId(), { name: any.words(), floor: any.length() }),
  setStorey: (any) => storeys.setStorey(any.job, any.id("storeys"), { floor: any.length() }),
  moveVertex: (any) => vertices.moveVertex(any.job, ...any.shaped(), any.place()),
  insertVertex: (any) => vertices.insertVertex(any.job, ...any.shaped(), any.place()),
  deleteVertex: (any) => vertices.deleteVertex(any.job, ...any.shaped()),
  moveWhole: (any) => {
    const [table, id] = any.shaped();
    return vertices.moveWhole(any.job, table, id, [any.chance.upTo(99) - 50, any.chance.upTo(99) - 50]);
  },
  bringBack: (any) => bringBack(any.job, any.id("sheets")),
};

/** What the files of edits hand out beside edits of their own: parts of edits, and questions about a job. */
export const NO_EDITS: readonly string[] = [
  "added",
  "allSound",
  "centresFor",
  "changeRecord",
  "eachByItself",
  "inOne",
  "keyStep",
  "meetingRuns",
  "nextPartName",
  "outlinesOver",
  "parallelsOf",
  "partsOf",
  "relabelled",
  "sameData",
  "soundElevation",
  "soundPoints",
  "soundRing",
  "soundSize",
  "soundThickness",
  "soundVertices",
  "withoutIdle",
];
