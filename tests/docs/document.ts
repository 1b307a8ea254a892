import { readdirSync, readFileSync } from "node:fs";

/** One Markdown document of the project. Path from the root. */
export interface Document {
  readonly path: string;
  readonly text: string;
}

/** Every Markdown document: those at the root and those in docs. */
export function readDocuments(): Document[] {
  const paths = [
    ...readdirSync(".").filter((name) => name.endsWith(".md")),
    ...readdirSync("docs", { recursive: true, encoding: "utf8" })
      .filter((name) => name.endsWith(".md"))
      .map((name) => `docs/${name.replaceAll("\\", "/")}`),
  ];
  return paths.sort().map((path) => ({ path, text: readFileSync(path, "utf8") }));
}

/** The text without its code: fenced blocks and code in a line, which hold no links. */
export const withoutCode = (text: string): string => text.replace(/^```[\s\S]*?^```/gm, "").replace(/`[^`\n]*`/g, "");

/** Targets of links and pictures, as written. */
export function linksOf({ text }: Document): string[] {
  return [...withoutCode(text).matchAll(/!?\[[^\]]*\]\(([^)\s]+)[^)]*\)/g)].map((match) => match[1]!);
}

/** The anchors a document offers: its headings in lower case, punctuation dropped, spaces as hyphens. */
export function anchorsOf({ text }: Document): Set<string> {
  const headings = [...text.replace(/^```[\s\S]*?^```/gm, "").matchAll(/^#{1,6}\s+(.+)$/gm)];
  return new Set(
    headings.map((match) =>
      match[1]!
        .trim()
        .toLowerCase()
        .replace(/[^\p{L}\p{N}\s_-]/gu, "")
        .replace(/\s/g, "-"),
    ),
  );
}

/** A command that a document shows and promises an exit status for. */
export interface Example {
  readonly where: string;
  readonly args: readonly string[];
  readonly status: number;
}

/**
 * The examples of a document: in ```sh blocks that follow a comment `<!-- runs: STATUS -->`, every line
 * `npm run -s underside -- COMMAND …` answers STATUS. Other lines in such a block are an error.
 */
export function examplesOf({ path, text }: Document): Example[] {
  return [...text.matchAll(/<!-- runs: (\d) -->\n```sh\n([\s\S]*?)^```/gm)].flatMap((match) =>
    match[2]!
      .trim()
      .split("\n")
      .map((line) => {
        const command = /^npm run -s underside -- (.+)$/.exec(line)?.[1];
        if (command === undefined) throw new Error(`${path}: not a command that can be run: ${line}`);
        const args = [...command.matchAll(/"([^"]*)"|(\S+)/g)].map((part) => part[1] ?? part[2]!);
        return { where: `${path}: ${line}`, args, status: Number(match[1]) };
      }),
  );
}

/** A row of the glossary: the word, and the names it has in the code. */
export interface GlossaryWord {
  readonly word: string;
  readonly names: readonly string[];
}

/** The rows of the glossary's tables: `| word | what it is | `names` in the code |`. */
export function glossaryWords({ text }: Document): GlossaryWord[] {
  const rows = [...text.matchAll(/^\|(.+)\|$/gm)].map((match) =>
    match[1]!.split(/(?<!\\)\|/).map((cell) => cell.trim()),
  );
  return rows
    .filter((cells) => cells[0] !== "word" && !/^-+$/.test(cells[0]!))
    .map((cells) => ({ word: cells[0]!, names: [...(cells[2] ?? "").matchAll(/`([^`]+)`/g)].map((name) => name[1]!) }));
}
