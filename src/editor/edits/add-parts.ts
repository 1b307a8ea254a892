import type { Edit } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job } from "../../job/schema.ts";
import type { Result } from "../../units/problem.ts";
import type { ScaleNote } from "../../units/scale-note.ts";
import type { Region } from "../region.ts";
import { inOne } from "./change.ts";
import { stateScale } from "./scale.ts";
import { addViewport, nextPartName } from "./sheets.ts";

/** A part of a sheet that its file names, to be taken into the job. */
export interface NewPart {
  readonly id: Id;
  /** "" takes the next free one. */
  readonly name: string;
  readonly region: Region;
  /** Null where the file says none that can be read. */
  readonly scale: ScaleNote | null;
}

/** Adds parts of a sheet with their scales as one undo step. Problems: those of `addViewport`. */
export const addParts = (job: Job, sheet: Id, parts: readonly NewPart[]): Result<Edit> =>
  inOne(
    job,
    parts.length === 1 ? "Add a part of a sheet" : `Add ${parts.length} parts of a sheet`,
    parts.flatMap(({ id, name, region, scale }) => [
      (present: Job) => addViewport(present, id, { sheet, name: name || nextPartName(present, sheet), region }),
      ...(scale ? [(present: Job) => stateScale(present, id, scale)] : []),
    ]),
  );
