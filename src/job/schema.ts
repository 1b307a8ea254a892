import { z } from "zod";
import { amendmentSchema } from "./amendment.ts";
import { elementSchema } from "./elements/element.ts";
import { datumSchema, idSchema, lengthSchema, pointSchema } from "./fields.ts";
import { noteSchema } from "./note.ts";
import { layerSchema, roofingSchema } from "./roofing.ts";
import { earlierIssueSchema, sheetPage, toLookAtSchema } from "./sheet-issue.ts";
import { classificationSchema, storeyOutlineSchema } from "./storey-outline.ts";

/** The version this program writes. Older ones are migrated on opening, newer ones are refused with words. */
export const JOB_VERSION = 1;
/** The first key of every job file, so that a file can be told from any other JSON. */
export const JOB_FORMAT = "underside-job";

const settingsSchema = z.strictObject({
  name: z.string(),
  /** Which of a rule's two stated values applies, and how lengths are shown. */
  system: z.enum(["imperial", "metric"]),
  /** Id of the rule set, such as "us-2023", and by whose decision it applies ("" when not recorded). */
  edition: z.string(),
  editionBy: z.string(),
  /** Local amendments to that rule set, in order; absent: none. */
  amendments: z.array(amendmentSchema).exactOptional(),
  /** The largest number a label of each letter was given, where the thing it named is gone or called otherwise: it is not given again. Absent: none. */
  labelsGiven: z.record(z.string().regex(/^[A-Z]$/), z.number().int().min(1)).exactOptional(),
  /** How far a reading may be off, each way, where a tag, a deck or a drawing does not say it for itself. */
  tolerances: z.strictObject({ tags: lengthSchema, decks: lengthSchema, plan: lengthSchema }),
});

const sheetSchema = z.strictObject({
  title: z.string(),
  ...sheetPage,
  /** Issues of the sheet that this one replaced, oldest first; absent: none. */
  earlier: z.array(earlierIssueSchema).exactOptional(),
  /** What the last replacement left for a person to look at; absent: nothing, or all of it has been looked at. */
  toLookAt: z.array(toLookAtSchema).exactOptional(),
  /** Texts of the drawing that somebody has set aside, each with its middle: they are not offered again. Absent: none. */
  setAside: z.array(z.strictObject({ text: z.string(), at: pointSchema })).exactOptional(),
});

/** What on the sheet a scale was taken from: a note at a view or in the title block, the file itself, a scale bar, dimensions. Absent: typed, or measured by hand. */
const scaleSource = z.enum(["note", "title-block", "file", "scale-bar", "dimensions"]).exactOptional();

const storeySchema = z.strictObject({
  name: z.string(),
  /** Elevation of the finished floor above the project datum. */
  floor: lengthSchema,
});

/** A scale as the sheet states it: `ratio` is length in the building per length on paper (1/4" = 1'-0" is 48). */
const statedScaleSchema = z.strictObject({ text: z.string(), ratio: z.number().positive(), source: scaleSource });
/** A scale measured on the sheet: two points in sheet space and the distance between them in the building. */
const measuredScaleSchema = z.strictObject({
  a: pointSchema,
  b: pointSchema,
  distance: lengthSchema,
  source: scaleSource,
});

const viewportSchema = z.strictObject({
  sheet: idSchema,
  name: z.string(),
  /** The part of the sheet this viewport holds, in sheet space; null is the whole page. */
  region: z.tuple([z.number(), z.number(), z.number(), z.number()]).nullable(),
  /** The storey whose finished floor AFF tags traced here start from by default. */
  storey: idSchema.nullable(),
  scale: z.strictObject({
    stated: statedScaleSchema.nullable(),
    measured: measuredScaleSchema.nullable(),
    /** Which of the two is used; null while neither is given. */
    use: z.enum(["stated", "measured"]).nullable(),
  }),
  /** How this viewport lies on another one: shared points (grid intersections), at least two. */
  registration: z
    .strictObject({
      to: idSchema,
      pairs: z.array(z.strictObject({ label: z.string(), here: pointSchema, there: pointSchema })),
    })
    .nullable(),
  /** Lines of the building's grid as drawn here, kept by somebody to say where things are. They bear on no verdict. Absent: none kept. */
  grid: z
    .array(z.strictObject({ label: z.string(), line: z.tuple([pointSchema, pointSchema]).readonly() }))
    .exactOptional(),
});

const spotNumber = z.number().int().min(1);
const foldLineSchema = z.strictObject({
  between: z.tuple([spotNumber, spotNumber]).readonly(),
  /** What the drawing calls it; the deck lies the same whichever it is. */
  kind: z.enum(["ridge", "hip", "valley", "drain", "edge"]),
});

const shapeSchema = z.discriminatedUnion("is", [
  z.strictObject({ is: z.literal("level"), at: lengthSchema.nullable() }),
  z.strictObject({
    is: z.literal("slope"),
    /** The elevation given, at `point`; the deck falls from `point` towards `towards` by `rise` per unit of run. */
    at: lengthSchema.nullable(),
    point: pointSchema,
    towards: pointSchema,
    rise: z.number().nonnegative(),
    /** The slope as it was typed: 1/4" per foot. */
    text: z.string(),
  }),
  z.strictObject({
    is: z.literal("spots"),
    spots: z.array(z.strictObject({ at: pointSchema, elevation: lengthSchema.nullable() })),
    /** Straight lines the deck folds along, each between two spots by their numbers, counted from 1; absent: none recorded. */
    lines: z.array(foldLineSchema).exactOptional(),
  }),
]);

const areaSchema = z.strictObject({
  label: z.string(),
  viewport: idSchema,
  /** Ring in sheet space, not repeated at its end. */
  outline: z.array(pointSchema),
  holes: z.array(z.array(pointSchema)),
  classification: classificationSchema,
  deck: z.strictObject({
    /** Row of the deck table: "wide-rib-1-1/2", "wood", "concrete"… */
    profile: z.string(),
    /** Depth of the flutes, or thickness of a plain deck; null takes the table's. */
    depth: lengthSchema.nullable(),
    /** Concrete over the deck, measured from the top of the corrugations. */
    concreteCover: z.discriminatedUnion("is", [
      z.strictObject({ is: z.literal("not-recorded") }),
      z.strictObject({ is: z.literal("none") }),
      z.strictObject({ is: z.literal("thickness"), thickness: lengthSchema }),
    ]),
  }),
  elevation: z.strictObject({
    datum: datumSchema,
    basis: z.enum(["bottom-of-deck", "top-of-steel", "top-of-deck", "top-of-slab", "top-of-roofing"]),
    /** What lies between the stated surface and the top of the deck, from above; null thickness = not known. */
    layers: z.array(layerSchema),
    shape: shapeSchema,
    plusMinus: lengthSchema.nullable(),
  }),
  /** How the roofing is held down; absent: nobody has asked. */
  roofing: roofingSchema.exactOptional(),
});

const table = <S extends z.ZodType>(record: S) => z.record(idSchema, record);

/** The one document. Records lie in tables by stable id, so that two copies can be merged record by record. */
export const jobSchema = z.strictObject({
  format: z.literal(JOB_FORMAT),
  version: z.literal(JOB_VERSION),
  /** A table with one record, "job", so that settings are edited like everything else. */
  settings: z.strictObject({ job: settingsSchema }),
  sheets: table(sheetSchema),
  storeys: table(storeySchema),
  viewports: table(viewportSchema),
  areas: table(areaSchema),
  elements: table(elementSchema),
  /** Outlines of what stands on the decks; a file without any has no such key. */
  storeyOutlines: table(storeyOutlineSchema).default({}),
  /** Notes of the reviewer's own; a file without any has no such key. */
  notes: table(noteSchema).default({}),
});

/** The job and the records of its tables, as data; what each field means is said at its schema. */
export type Job = z.infer<typeof jobSchema>;
export type Settings = z.infer<typeof settingsSchema>;
export type Sheet = z.infer<typeof sheetSchema>;
export type Storey = z.infer<typeof storeySchema>;
export type Viewport = z.infer<typeof viewportSchema>;
export type Area = z.infer<typeof areaSchema>;
export type AreaShape = z.infer<typeof shapeSchema>;
export type FoldLine = z.infer<typeof foldLineSchema>;
/** The tables of a job, by name. */
export type TableName =
  | "settings"
  | "sheets"
  | "storeys"
  | "viewports"
  | "areas"
  | "elements"
  | "storeyOutlines"
  | "notes";
export type RecordOf<T extends TableName> = Job[T][keyof Job[T]];

/** An empty job: no sheets, US customary units, one storey at the project datum. */
export function emptyJob(name: string, edition: string): Job {
  return {
    format: JOB_FORMAT,
    version: JOB_VERSION,
    settings: {
      job: {
        name,
        system: "imperial",
        edition,
        editionBy: "",
        tolerances: {
          tags: { value: 0, unit: "in" },
          decks: { value: 0, unit: "in" },
          plan: { value: 1, unit: "in" },
        },
      },
    },
    sheets: {},
    storeys: { "level-1": { name: "Level 1", floor: { value: 0, unit: "in" } } },
    viewports: {},
    areas: {},
    elements: {},
    storeyOutlines: {},
    notes: {},
  };
}
