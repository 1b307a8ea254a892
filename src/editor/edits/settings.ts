import type { Edit } from "../../job/edit.ts";
import type { Job, Settings } from "../../job/schema.ts";
import { fail, type Result } from "../../units/problem.ts";
import { changeRecord } from "./change.ts";
import { allSound, soundThickness } from "./sound.ts";

/** Changes the name of the job, the edition in force, the unit system or the tolerances. Problems: `edit.empty-name`, `edit.not-finite`, `edit.negative`. */
export function setSettings(job: Job, patch: Partial<Settings>): Result<Edit> {
  if (patch.name !== undefined && patch.name.trim() === "") return fail("edit.empty-name", "settings/job/name");
  const sound = allSound(
    ...Object.entries(patch.tolerances ?? {}).map(([name, length]) =>
      soundThickness(`settings/job/tolerances/${name}`, length),
    ),
  );
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "settings",
    "job",
    () => "Change the settings of the job",
    () => ({ ...patch, ...(patch.name === undefined ? {} : { name: patch.name.trim() }) }),
  );
}
