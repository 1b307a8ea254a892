import { checkJob } from "../../check/check-job.ts";
import { type HandedOn, handedOn } from "../../issue/handed-on.ts";
import { isSameFile, writeFiles } from "../files.ts";
import { loadFonts } from "../fonts.ts";
import { accept, loadJob } from "../load-job.ts";
import type { Outcome } from "../outcome.ts";
import { refuse } from "../refusal.ts";
import { statusOf, underRules } from "./check.ts";

/** What `comments` and `schedule` may be told. */
export interface HandOnOptions {
  /** The file it goes into; left out, standard output. */
  readonly output?: string;
  readonly rules?: string;
  readonly author: string;
  readonly password?: string;
  /** The date that is written into it. */
  readonly now: Date;
}

/**
 * `comments JOB`, `schedule JOB`: writes what is wanted, to standard output or into the file named, whose path is then printed. Status 1
 * when any finding needs attention. Refused: what is no text without a file to go to, and a file that is the job itself.
 */
export async function handOnCommand(path: string, wanted: HandedOn, options: HandOnOptions): Promise<Outcome> {
  const { output, author, now } = options;
  if (output === undefined && (wanted.form === "xlsx" || wanted.form === "pdf")) refuse("cli.needs-output");
  const job = underRules((await loadJob(path, options.password)).job, options.rules);
  if (output !== undefined && (await isSameFile(output, path))) refuse("cli.same-file", output);
  const result = checkJob(job);
  const content = accept(await handedOn(job, result, wanted, { author, now }, loadFonts));
  const status = statusOf(result);
  if (output === undefined) return { out: content as string, status };
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  await writeFiles(new Map([[output, bytes]]));
  return { out: `${output}\n`, status };
}
