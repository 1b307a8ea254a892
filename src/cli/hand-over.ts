import { isSameFile, writeFiles } from "./files.ts";
import type { Outcome } from "./outcome.ts";
import { refuse } from "./refusal.ts";

/** Where what a command makes goes: into a file, or to standard output where none is named. */
export interface Written {
  readonly output?: string;
}

/**
 * Hands over what was made of the job at `path`: text to standard output, or whatever it is into the file named, whose path is then
 * printed. Refused: bytes without a file to go to, and a file that is the job itself.
 */
export async function handOver(
  content: string | Uint8Array,
  path: string,
  { output }: Written,
  status: Outcome["status"],
): Promise<Outcome> {
  if (output === undefined) return typeof content === "string" ? { out: content, status } : refuse("cli.needs-output");
  if (await isSameFile(output, path)) refuse("cli.same-file", output);
  const bytes = typeof content === "string" ? new TextEncoder().encode(content) : content;
  await writeFiles(new Map([[output, bytes]]));
  return { out: `${output}\n`, status };
}
