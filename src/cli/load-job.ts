import { readdir } from "node:fs/promises";
import { dirname, join } from "node:path";
import { jobFromIssued } from "../issue/issue-sheets.ts";
import type { IssuedChange } from "../issue/issued-changes.ts";
import { parseJobText } from "../job/parse-job.ts";
import type { Job } from "../job/schema.ts";
import { type Drawings, missingDrawings, readJobFile } from "../store/job-file.ts";
import { kindOfFile } from "../store/job-file-kind.ts";
import { sha256 } from "../store/sha256.ts";
import type { Result } from "../units/problem.ts";
import { readBytes } from "./files.ts";
import { problemText } from "./messages.ts";
import { Refusal, refuse } from "./refusal.ts";

/** A job as the person named it: where it was, and the drawings that came with it. */
interface LoadedJob {
  readonly path: string;
  readonly job: Job;
  readonly drawings: Drawings;
  /** Of an issued PDF: what other programs did to its marks since, to be told. */
  readonly changes?: readonly IssuedChange[];
}

/** The job at a path: a job's JSON, a saved job file, or an issued PDF that carries one. Refused with every problem found. */
export async function loadJob(path: string, password?: string): Promise<LoadedJob> {
  const bytes = await readBytes(path);
  switch (kindOfFile(bytes)) {
    case "job":
      return { path, job: accept(parseJobText(new TextDecoder().decode(bytes))), drawings: new Map() };
    case "job-file":
      return { path, ...accept(await readJobFile(bytes)) };
    case "pdf": {
      const carried = accept(jobFromIssued(bytes, password));
      return carried ? { path, ...carried } : refuse("cli.carries-no-job", path);
    }
    default:
      return refuse("cli.not-a-job", path);
  }
}

/**
 * Every drawing of the job, by SHA-256: those that came with it, else PDFs in the job's folder with that very content (the one of
 * the same name is looked at first). Refused naming every drawing that is not there.
 */
export async function drawingsOf({ path, job, drawings }: LoadedJob): Promise<Drawings> {
  const found = new Map(drawings);
  const wanted = missingDrawings(job, found);
  if (wanted.length === 0) return found;
  const folder = dirname(path);
  const names = (await readdir(folder)).filter((name) => /\.pdf$/i.test(name)).sort();
  const named = names.filter((name) => wanted.some((drawing) => drawing.name === name));
  for (const name of [...named, ...names.filter((other) => !named.includes(other))]) {
    if (wanted.every((drawing) => found.has(drawing.sha256))) break;
    const bytes = await readBytes(join(folder, name)).catch(() => null);
    if (bytes) found.set(await sha256(bytes), bytes);
  }
  const missing = wanted.filter((drawing) => !found.has(drawing.sha256));
  if (missing.length > 0) {
    throw new Refusal(
      missing.map(({ name, sha256: hash }) => ({
        code: "cli.drawing-missing",
        where: path,
        params: { name, sha256: hash },
      })),
    );
  }
  return found;
}

/** The value of a result; refused with its problems where it has none. */
export function accept<T>(result: Result<T>): T {
  if (!result.ok) throw new Refusal(result.problems);
  return result.value;
}

/** What other programs did to the marks of the issued PDF that the job came in, in words. */
export const changeWords = ({ changes = [] }: LoadedJob): string[] => changes.map(({ told }) => problemText(told));
