import { Command, CommanderError, Option } from "commander";
import packageJson from "../../package.json";
import { type CheckOptions, checkCommand } from "./commands/check.ts";
import { schemaCommand } from "./commands/schema.ts";
import { type TablesFormat, tablesCommand } from "./commands/tables.ts";
import { problemText } from "./messages.ts";
import type { Outcome } from "./outcome.ts";
import { Refusal } from "./refusal.ts";

/** Where the words of a command go. */
export interface Terminal {
  out(text: string): void;
  error(text: string): void;
}

/**
 * Runs one command line (without the program's own name) and resolves to the exit status: 0 nothing needs attention, 1 something
 * does, 2 unusable input or usage. A bug is thrown on.
 */
export async function runCommandLine(args: readonly string[], terminal: Terminal): Promise<0 | 1 | 2> {
  let outcome: Outcome | undefined;
  const settle = async (result: Outcome | Promise<Outcome>): Promise<void> => {
    outcome = await result;
  };
  try {
    await programOf(settle, terminal).parseAsync([...args], { from: "user" });
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (!(error instanceof Refusal)) throw error;
    for (const problem of error.problems) terminal.error(`${problemText(problem)}\n`);
    return 2;
  }
  for (const message of outcome?.messages ?? []) terminal.error(`${message}\n`);
  terminal.out(outcome?.out ?? "");
  return outcome?.status ?? 0;
}

type Settle = (result: Outcome | Promise<Outcome>) => Promise<void>;

function programOf(settle: Settle, terminal: Terminal): Command {
  const program = new Command("underside")
    .description(packageJson.description)
    .version(packageJson.version)
    .exitOverride()
    .configureOutput({ writeOut: terminal.out, writeErr: terminal.error })
    .addHelpText(
      "after",
      [
        "",
        "Exit status: 0 every element is clear or not governed; 1 at least one is not; 2 unusable input or usage,",
        "and then nothing is written. Messages go to standard error, results to standard output.",
        "",
        "Advice from a drawing is not an inspection. Verify on site and against the adopted code with its local",
        "amendments; the authority having jurisdiction decides.",
      ].join("\n"),
    );

  program
    .command("check")
    .description("checks a job: the distance of its wiring to the roof deck, with reasons and remedies")
    .argument("<job>", "a job (.json), a saved job file (.underside), or an issued PDF that carries its job")
    .option("--rules <id>", "check against this rule set instead of the job's own")
    .option("--compare <id>", "say which verdicts differ under this rule set")
    .option("--reasons", "as text: every finding with its reasons, down to the values read")
    .addOption(formatOption("text", "json", "csv"))
    .action((job: string, options: CheckOptions) => settle(checkCommand(job, options)));

  program
    .command("tables")
    .description("the trade tables and rule sets, with the source of every value")
    .argument("[name]", "one table or rule set: raceways, boxes, us-2023…")
    .addOption(formatOption("text", "json"))
    .action((name: string | undefined, { format }: { format: TablesFormat }) => settle(tablesCommand(name, format)));

  program
    .command("schema")
    .description("the JSON Schema of a job")
    .action(() => settle(schemaCommand()));

  return program;
}

function formatOption(first: string, ...others: readonly string[]): Option {
  return new Option("--format <format>", "how the result is written").choices([first, ...others]).default(first);
}
