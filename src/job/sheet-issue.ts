import { z } from "zod";
import { idSchema } from "./fields.ts";

/** The page of a file that a sheet is, by the file's content, and how it lies. */
export const sheetPage = {
  file: z.strictObject({
    /** Content hash, lower-case hexadecimal: the drawing is known by what it holds, not by its name. */
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
    name: z.string(),
    bytes: z.number().int().nonnegative(),
  }),
  /** Page of the file, counted from 1. */
  page: z.number().int().min(1),
  /** Crop box in user space units, /Rotate and /UserUnit, as read from the file. */
  view: z.tuple([z.number(), z.number(), z.number(), z.number()]),
  rotate: z.union([z.literal(0), z.literal(90), z.literal(180), z.literal(270)]),
  userUnit: z.number().positive(),
};

/** An issue of a sheet that another one has replaced, and how that one was laid on it. */
export const earlierIssueSchema = z.strictObject({
  ...sheetPage,
  laid: z.strictObject({
    /** By grid lines both name, held against the lines; by the lines alone; by points a person gave. */
    by: z.enum(["grid", "lines", "points"]),
    /** From this issue's sheet space to that of the one after it: scale, turn in degrees counter-clockwise, shift. */
    scale: z.number().positive(),
    turnDeg: z.number(),
    shift: z.tuple([z.number(), z.number()]),
    /** How far the pairs it rests on lie apart: root mean square, 1/72 in. of the paper of the issue after it. */
    residualPt: z.number().nonnegative(),
  }),
});
export type EarlierIssue = z.infer<typeof earlierIssueSchema>;

/** What the drawing shows otherwise where something lies, for a person to look at. */
export const toLookAtSchema = z.strictObject({
  table: z.enum(["elements", "areas", "storeyOutlines"]),
  /** Of what lies there; one that has been deleted since is passed over. */
  id: idSchema,
  /** Its drawn line: which part of it is still there, and how far beside its old place the rest is drawn now (1/72 in. of paper; null: nowhere near). Null where the line is as it was. */
  line: z.strictObject({ there: z.number().min(0).max(1), movedPt: z.number().nonnegative().nullable() }).nullable(),
  /** Whether something else is drawn beside it than before. */
  beside: z.boolean(),
  /** Texts next to it that read otherwise; null where there was none before, or is none now. */
  texts: z.array(z.strictObject({ was: z.string().nullable(), now: z.string().nullable() })),
});
export type ToLookAt = z.infer<typeof toLookAtSchema>;
