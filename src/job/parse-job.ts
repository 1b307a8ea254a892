import type { z } from "zod";
import { fail, ok, type Problem, type Result } from "../units/problem.ts";
import { duplicateKeys } from "./duplicate-keys.ts";
import { migrateJob } from "./migrations.ts";
import { dangling } from "./references.ts";
import { JOB_FORMAT, JOB_VERSION, type Job, jobSchema } from "./schema.ts";

/**
 * A job from parsed JSON: told from other files by its first key, migrated from older versions, checked key by key, and
 * its references followed. Every problem found is returned with the path to its place; nothing is repaired in silence.
 */
export function parseJob(json: unknown): Result<Job> {
  if (typeof json !== "object" || json === null || Array.isArray(json)) return fail("job.not-a-job");
  const { format, version } = json as { format?: unknown; version?: unknown };
  if (format !== JOB_FORMAT) return fail("job.not-a-job");
  if (typeof version !== "number" || !Number.isInteger(version) || version < 1)
    return fail("job.bad-version", "version");
  if (version > JOB_VERSION) return fail("job.newer-version", "version", { version, known: JOB_VERSION });
  const parsed = jobSchema.safeParse(migrateJob(json as Record<string, unknown>, version));
  if (!parsed.success) return { ok: false, problems: parsed.error.issues.flatMap(problemsOf) };
  const loose = dangling(parsed.data);
  return loose.length > 0 ? { ok: false, problems: loose } : ok(parsed.data);
}

/** A job from the text of a job file. */
export function parseJobText(text: string): Result<Job> {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch (error) {
    return fail("job.not-json", "", { detail: error instanceof Error ? error.message : String(error) });
  }
  const twice = duplicateKeys(text, json);
  if (twice.length > 0)
    return { ok: false, problems: twice.map((where) => ({ code: "job.duplicate-key", where, params: {} })) };
  return parseJob(json);
}

/** The one way a job is written: tables sorted by id, keys in the schema's order; the same job gives the same text, whoever built it. */
export function jobText(job: Job): string {
  const sorted = <T>(table: Record<string, T>): Record<string, T> =>
    Object.fromEntries(Object.entries(table).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
  // Reading it puts every record's keys in the schema's order; a job that cannot be read is written as it is.
  const read = jobSchema.safeParse(job);
  const { format, version, settings, sheets, storeys, viewports, areas, elements, storeyOutlines, notes } = read.success
    ? read.data
    : job;
  const whole: Omit<Job, "storeyOutlines" | "notes"> & Partial<Job> = {
    format,
    version,
    settings,
    sheets: sorted(sheets),
    storeys: sorted(storeys),
    viewports: sorted(viewports),
    areas: sorted(areas),
    elements: sorted(elements),
    // Absent while there are none, so that a job that needs none is the same file as before there were any.
    ...(Object.keys(storeyOutlines).length === 0 ? {} : { storeyOutlines: sorted(storeyOutlines) }),
    ...(Object.keys(notes).length === 0 ? {} : { notes: sorted(notes) }),
  };
  return `${JSON.stringify(whole, null, 1)}\n`;
}

function problemsOf(issue: z.core.$ZodIssue): Problem[] {
  const where = issue.path.map(String).join("/");
  if (issue.code === "unrecognized_keys")
    return issue.keys.map((key) => ({
      code: "job.unknown-key",
      where: where ? `${where}/${key}` : key,
      params: { key },
    }));
  return [{ code: "job.bad-value", where, params: { detail: issue.message } }];
}
