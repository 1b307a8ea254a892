import { runCommandLine } from "../../src/cli/program.ts";

/** What a command line printed and answered. */
export interface Ran {
  readonly status: number;
  readonly out: string;
  readonly error: string;
}

/** Runs a command line in this process. */
export async function runCommand(...args: string[]): Promise<Ran> {
  let out = "";
  let error = "";
  const status = await runCommandLine(args, {
    out: (text) => {
      out += text;
    },
    error: (text) => {
      error += text;
    },
  });
  return { status, out, error };
}
