import { hangingRoom } from "../../check/hanging-room.ts";
import type { BriefLanguage } from "../../issue/brief/brief-languages.ts";
import { briefPdf } from "../../issue/brief/brief-pdf.ts";
import { isSameFile, writeFiles } from "../files.ts";
import { loadFonts } from "../fonts.ts";
import { accept, loadJob } from "../load-job.ts";
import type { Outcome } from "../outcome.ts";
import { refuse } from "../refusal.ts";
import { underRules } from "./check.ts";

/** What `brief` may be told. */
export interface BriefCommandOptions {
  /** Where the brief goes. */
  readonly output: string;
  readonly rules?: string;
  readonly author: string;
  readonly language: BriefLanguage;
  readonly password?: string;
  /** The date that is written into it. */
  readonly now: Date;
}

/** `brief JOB -o OUT.pdf`: writes the crew's brief and prints its path. Status 1 when nothing can be told of some deck area. */
export async function briefCommand(path: string, options: BriefCommandOptions): Promise<Outcome> {
  const { output, author, now, language } = options;
  const job = underRules((await loadJob(path, options.password)).job, options.rules);
  if (await isSameFile(output, path)) refuse("cli.same-file", output);
  await writeFiles(new Map([[output, accept(await briefPdf(job, loadFonts(), { author, now }, language))]]));
  const areas = hangingRoom(job);
  const isTold = areas.length > 0 && areas.every(({ is }) => is !== "not-known" && is !== "not-settled");
  return { out: `${output}\n`, status: isTold ? 0 : 1 };
}
