import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join, normalize } from "node:path";
import { describe, expect, test } from "vitest";
import { ruleSets } from "../src/rules/rule-sets.ts";
import { allTables } from "../src/trade/all-tables.ts";
import { findSource } from "../src/trade/sources.ts";
import { readSources } from "./architecture/source-file.ts";
import { runCommand } from "./cli/run-command.ts";
import { anchorsOf, type Document, examplesOf, glossaryWords, linksOf, readDocuments } from "./docs/document.ts";

const documents = readDocuments();
const find = (path: string): Document => documents.find((document) => document.path === path)!;
const made = (path: string, text: string): Document => ({ path, text });

describe("documents", () => {
  test("link to what is there", () => {
    expect(documents.flatMap((document) => brokenLinks(document))).toEqual([]);
  });

  test("the test above sees a missing file and a missing heading", () => {
    expect(
      brokenLinks(made("docs/x.md", "[a](nowhere.md) [b](../README.md#no-such-heading) [c](#here)\n\n# Here")),
    ).toEqual(["docs/x.md: nowhere.md", "docs/x.md: ../README.md#no-such-heading"]);
  });

  test("name npm scripts that exist", () => {
    const { scripts } = JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> };
    const named = documents.flatMap(({ path, text }) =>
      [...text.matchAll(/npm run (?:-s )?([a-z-]+)/g)].map((match) => [path, match[1]!] as const),
    );
    expect(named.length).toBeGreaterThan(0);
    expect(named.filter(([, script]) => !(script in scripts))).toEqual([]);
  });

  test("name source files and folders that exist", () => {
    const named = documents.flatMap(({ path, text }) =>
      [...text.matchAll(/`((?:src|tests|samples|docs)\/[\w./-]+)`/g)].map((match) => [path, match[1]!] as const),
    );
    expect(named.filter(([, file]) => !existsSync(file))).toEqual([]);
  });
});

describe("examples in documents answer as promised", () => {
  const examples = documents.flatMap(examplesOf);

  test("there are some", () => {
    expect(examples.length).toBeGreaterThan(3);
  });

  test.each(examples.map((example) => [example.where, example] as const))("%s", async (_, { args, status }) => {
    const folder = mkdtempSync(join(tmpdir(), "underside-docs-"));
    try {
      // What an example writes goes to a folder of its own.
      const placed = args.map((arg, i) => (args[i - 1] === "-o" ? join(folder, arg) : arg));
      const ran = await runCommand(...placed);
      expect(ran.status, ran.error).toBe(status);
      for (const [i, arg] of placed.entries())
        if (placed[i - 1] === "-o" && status < 2) expect(existsSync(arg)).toBe(true);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });
});

describe("the glossary", () => {
  const words = glossaryWords(find("docs/glossary.md"));

  test("has each word once", () => {
    expect(words.length).toBeGreaterThan(20);
    const seen = words.map(({ word }) => word.toLowerCase());
    expect(seen.filter((word, i) => seen.indexOf(word) !== i)).toEqual([]);
  });

  test("uses names that the code has", () => {
    const code = readSources("src")
      .map(({ text }) => text)
      .join("\n");
    const strange = words.flatMap(({ word, names }) =>
      names
        .filter((name) => !new RegExp(`(?<![\\w-])${name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")}(?![\\w-])`).test(code))
        .map((name) => `${word}: ${name}`),
    );
    expect(strange).toEqual([]);
  });
});

describe("values from outside carry a source", () => {
  test.each(allTables().map((table) => [table.name, table] as const))("in the table %s", (_, { columns, rows }) => {
    for (const row of rows) {
      expect(row).toHaveLength(columns.length);
      for (const { value, unit, source } of row) {
        // The names rows go by have neither unit nor source.
        if (value !== undefined && (typeof value === "number" || unit !== ""))
          expect(findSource(source ?? "")).toBeDefined();
      }
    }
  });

  test.each(ruleSets.map((set) => [set.id, set] as const))("in the rule set %s", (_, set) => {
    const { provenance, exceptions, examples, entry, concealment } = set;
    for (const field of ["section", "elements", "decks", "clearance", "measured"] as const)
      expect(findSource(provenance[field]), field).toBeDefined();
    if (concealment) expect(findSource(provenance.concealment)).toBeDefined();
    for (const { id, source } of exceptions) expect(findSource(source), id).toBeDefined();
    for (const { id, source } of entry?.protections ?? []) expect(findSource(source), id).toBeDefined();
    expect(examples.length).toBeGreaterThan(0);
    for (const { says, source } of examples) expect(findSource(source), says).toBeDefined();
  });
});

function brokenLinks(document: Document): string[] {
  return linksOf(document)
    .filter((link) => !/^(https?|mailto):/.test(link))
    .filter((link) => {
      const [file = "", anchor] = link.split("#");
      const path = file === "" ? document.path : normalize(join(dirname(document.path), file)).replaceAll("\\", "/");
      if (!existsSync(path)) return file !== "";
      if (anchor === undefined) return false;
      const target = file === "" ? document : documents.find((other) => other.path === path);
      return !(target && anchorsOf(target).has(anchor));
    })
    .map((link) => `${document.path}: ${link}`);
}
