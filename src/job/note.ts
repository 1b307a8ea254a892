import { z } from "zod";
import { idSchema, pointSchema } from "./fields.ts";

/** So many characters a note may have: more belongs in a letter. */
export const NOTE_LIMIT = 2000;

/** What a note may be about: a thing on a sheet that carries a label of its own. */
const noteAboutSchema = z.strictObject({ table: z.enum(["elements", "areas", "storeyOutlines"]), id: idSchema });
export type NoteAbout = z.infer<typeof noteAboutSchema>;

/** Words of the reviewer's own on a sheet, with a leader to what they are about. They bear on no finding. */
export const noteSchema = z.strictObject({
  label: z.string(),
  sheet: idSchema,
  /** As typed, lines parted by line feeds. */
  text: z.string().max(NOTE_LIMIT),
  /** The point the leader shows to, sheet space. */
  at: pointSchema,
  /** Where the leader meets the words, sheet space: they stand on the side of it that is away from `at`. */
  place: pointSchema,
  /** What it is about; absent: nothing but the place it shows to. */
  about: noteAboutSchema.exactOptional(),
});
export type Note = z.infer<typeof noteSchema>;
