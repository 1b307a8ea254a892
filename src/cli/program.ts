import { Command, CommanderError, InvalidArgumentError, Option } from "commander";
import packageJson from "../../package.json";
import { BRIEF_LANGUAGES } from "../issue/brief/brief-languages.ts";
import type { HandedOn } from "../issue/handed-on.ts";
import { type BriefCommandOptions, briefCommand } from "./commands/brief.ts";
import { type CheckOptions, checkCommand } from "./commands/check.ts";
import { type HandOnOptions, handOnCommand } from "./commands/hand-on.ts";
import { type IssueCommandOptions, issueCommand } from "./commands/issue.ts";
import { type ReadCommandOptions, readCommand } from "./commands/read.ts";
import { type ReadAgainstOptions, readAgainstCommand } from "./commands/read-against.ts";
import { schemaCommand } from "./commands/schema.ts";
import { type TablesFormat, tablesCommand } from "./commands/tables.ts";
import { problemText } from "./messages.ts";
import type { Outcome } from "./outcome.ts";
import { Refusal, refuse } from "./refusal.ts";

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

/** What a command is told whose date is still as it was typed. */
type Dated<Options extends { readonly now: Date }> = Omit<Options, "now"> & { date?: string };
/** The form asked for of something handed on. */
type FormOf<Is extends HandedOn["is"]> = { format: Extract<HandedOn, { is: Is }>["form"] };
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
    .option("--password <word>", "opens a protected issued PDF")
    .addOption(formatOption("text", "json", "csv"))
    .action((job: string, options: CheckOptions) => settle(checkCommand(job, options)));

  program
    .command("issue")
    .description("writes the annotated sheets with the report, and prints the path of each file")
    .argument("<job>", "a job (.json) with its drawings beside it, a saved job file (.underside), or an issued PDF")
    .requiredOption("-o, --output <file>", "where the annotated sheet goes; several get their drawings' names after it")
    .option("--rules <id>", "check against this rule set instead of the job's own")
    .option(
      "--sheet <title>",
      "mark this sheet only, by its title or its id in the job; may be given again for further sheets",
      (title: string, before: readonly string[] = []) => [...before, title],
    )
    .addOption(
      new Option(
        "--copy <kind>",
        "of a signed drawing an unsigned copy, of a damaged one a repaired copy; every marked sheet says so",
      ).choices(["unsigned", "repaired"]),
    )
    .option("--flatten", "draw the marks into the pages instead of adding annotations")
    .addOption(
      new Option("--report <where>", "behind the sheet's own pages, as a file of its own, or none")
        .choices(["with", "separate", "none"])
        .default("with"),
    )
    .option("--author <name>", "who issues it", "")
    .option("--date <date>", "the date of issue (default: now, or SOURCE_DATE_EPOCH where that is set)")
    .option("--password <word>", "opens a protected drawing")
    .action((job: string, { date, ...options }: Dated<IssueCommandOptions>) =>
      settle(issueCommand(job, { ...options, now: dateOfIssue(date) })),
    );

  program
    .command("brief")
    .description("writes the crew's brief: how high each size may hang under each deck area")
    .argument("<job>", "a job (.json), a saved job file (.underside), or an issued PDF that carries its job")
    .requiredOption("-o, --output <file>", "where the brief goes")
    .option("--rules <id>", "by this rule set instead of the job's own")
    .addOption(
      new Option("--language <code>", "the language it is written in: English or Spanish")
        .choices(Object.keys(BRIEF_LANGUAGES))
        .default("en"),
    )
    .option("--author <name>", "who issues it", "")
    .option("--date <date>", "the date of issue (default: now, or SOURCE_DATE_EPOCH where that is set)")
    .option("--password <word>", "opens a protected issued PDF")
    .action((job: string, { date, ...options }: Dated<BriefCommandOptions>) =>
      settle(briefCommand(job, { ...options, now: dateOfIssue(date) })),
    );

  program
    .command("comments")
    .description("the review comments: what is cited, where, what is remarked and what is asked")
    .argument("<job>", "a job (.json), a saved job file (.underside), or an issued PDF that carries its job")
    .option("-o, --output <file>", "where they go (default: standard output; a workbook and a letter need a file)")
    .option("--rules <id>", "by this rule set instead of the job's own")
    .option("--author <name>", "whose comments they are", "")
    .option("--date <date>", "the date of the letter (default: now, or SOURCE_DATE_EPOCH where that is set)")
    .option("--password <word>", "opens a protected issued PDF")
    .addOption(formatOption("text", "csv", "xlsx", "pdf"))
    .action((job: string, { format, date, ...options }: FormOf<"comments"> & Dated<HandOnOptions>) =>
      settle(handOnCommand(job, { is: "comments", form: format }, { ...options, now: dateOfIssue(date) })),
    );

  program
    .command("schedule")
    .description("the wiring or the deck areas as a table, with tags, clearances and verdicts")
    .argument("<job>", "a job (.json), a saved job file (.underside), or an issued PDF that carries its job")
    .option("-o, --output <file>", "where it goes (default: standard output; a workbook needs a file)")
    .addOption(
      new Option("--of <what>", "which table; a workbook holds both").choices(["wiring", "decks"]).default("wiring"),
    )
    .option("--rules <id>", "by this rule set instead of the job's own")
    .option("--password <word>", "opens a protected issued PDF")
    .addOption(formatOption("csv", "xlsx"))
    .action(
      (job: string, { format, of, ...options }: FormOf<"schedule"> & { of: "wiring" | "decks" } & HandOnOptions) =>
        settle(handOnCommand(job, { is: "schedule", form: format, of }, { ...options, author: "", now: new Date() })),
    );

  program
    .command("read")
    .description("what a drawing offers: pages, sizes, layers, scale notes, elevations and slopes found")
    .argument("<plan>", "a drawing (.pdf)")
    .option("--texts", "as json: every line of text with its place, too")
    .option(
      "--against <old>",
      "as json: how one page lies on a page of this drawing, the issue before, and what changed",
    )
    .option("--page <number>", "with --against: the page of the new issue", pageNumber)
    .option("--old-page <number>", "with --against: the page of the issue before", pageNumber)
    .option("--password <word>", "opens a protected drawing")
    .addOption(formatOption("text", "json"))
    .action((plan: string, { against, ...options }: ReadCommandOptions & Partial<ReadAgainstOptions>) =>
      settle(against === undefined ? readCommand(plan, options) : readAgainstCommand(plan, { ...options, against })),
    );

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

/** A page as it is typed, counted from 1. */
function pageNumber(text: string): number {
  if (!/^[1-9]\d{0,5}$/.test(text)) throw new InvalidArgumentError("Give the number of a page, counted from 1.");
  return Number(text);
}

function formatOption(first: string, ...others: readonly string[]): Option {
  return new Option("--format <format>", "how the result is written").choices([first, ...others]).default(first);
}

/** The date asked for; else the moment that SOURCE_DATE_EPOCH names, for files that can be made again; else now. */
function dateOfIssue(asked: string | undefined): Date {
  const { SOURCE_DATE_EPOCH: epoch } = process.env;
  if (asked === undefined) return epoch ? new Date(Number(epoch) * 1000) : new Date();
  const date = new Date(asked);
  if (!/^\d{4}-\d\d-\d\d/.test(asked) || Number.isNaN(date.getTime())) refuse("cli.bad-date", "", { text: asked });
  return date;
}
