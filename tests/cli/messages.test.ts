import { describe, expect, test } from "vitest";
import { problemText } from "../../src/cli/messages.ts";
import { problemWords } from "../../src/ui/problem-words.ts";
import type { Problem } from "../../src/units/problem.ts";
import { type Node, parseSource, readSources, type SourceFile, visit } from "../architecture/source-file.ts";

/** Codes of problems that a file makes: `fail("a.b")`, `refuse("a.b")`, `{ code: "a.b" }`. */
function codesIn(file: SourceFile): string[] {
  const codes: string[] = [];
  const take = (node: Node | undefined): void => {
    if (node?.type === "ConditionalExpression") {
      take(node.consequent as Node);
      take(node.alternate as Node);
    } else if (node?.type === "Literal" && /^[a-z-]+\.[a-z-]+$/.test(String(node.value)))
      codes.push(String(node.value));
  };
  for (const statement of file.body) {
    visit(statement, (node) => {
      const callee = node.callee as Node | undefined;
      if (node.type === "CallExpression" && /^(fail|refuse)$/.test(String(callee?.name)))
        take((node.arguments as Node[])[0]);
      if (node.type === "Property" && (node.key as Node).name === "code") take(node.value as Node);
    });
  }
  return codes;
}

describe("problems", () => {
  // What only a screen can meet is worded for the screen.
  const folders = ["units", "trade", "rules", "job", "check", "pdf", "issue", "store", "cli"];
  const made = folders
    .flatMap((folder) => readSources(`src/${folder}`))
    .flatMap((file) => codesIn(file).map((code) => [code, file.path] as const));

  test("are found in the code", () => {
    expect(codesIn(parseSource("x.ts", 'fail("a.b", ""); ({ code: x ? "c.d" : "e.f" })'))).toEqual([
      "a.b",
      "c.d",
      "e.f",
    ]);
    expect(made.length).toBeGreaterThan(50);
  });

  const params = new Proxy({}, { get: () => "?" });
  const without = (words: (problem: Problem) => string, of: typeof made): string[] =>
    of
      .filter(([code]) => words({ code, where: "", params }).startsWith(code))
      .map(([code, path]) => `${code} of ${path}`);

  test("all have words on the command line", () => {
    expect(without(problemText, made)).toEqual([]);
  });

  test("all that a screen can meet have words there", () => {
    // Rule sets are checked when the program is built, not when it runs.
    const met = made.filter(([, path]) => !/^src\/(cli|rules)\//.test(path));
    expect(without(problemWords, met)).toEqual([]);
  });
});
