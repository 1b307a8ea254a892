import type { Job, Sheet } from "./schema.ts";

/** Every drawing file the job refers to, once each: those of its sheets, and those of their earlier issues, by content hash. */
export function drawingFiles(job: Job): readonly Sheet["file"][] {
  const files = new Map<string, Sheet["file"]>();
  for (const { file, earlier = [] } of Object.values(job.sheets))
    for (const one of [file, ...earlier.map((issue) => issue.file)])
      if (!files.has(one.sha256)) files.set(one.sha256, one);
  return [...files.values()].sort((a, b) => (a.sha256 < b.sha256 ? -1 : 1));
}
