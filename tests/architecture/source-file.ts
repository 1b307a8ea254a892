import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, normalize } from "node:path";
import { parseSync } from "vite";

/** A node of the syntax tree, as far as the tests here look into it. */
export type Node = { readonly type: string; readonly start: number; readonly end: number } & Record<string, unknown>;

/** One source file: its text, what it imports (types too) and its syntax tree. Paths are from the root, with forward slashes. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
  readonly body: readonly Node[];
  readonly comments: readonly {
    readonly type: string;
    readonly value: string;
    readonly start: number;
    readonly end: number;
  }[];
  /** Specifiers as written: static, dynamic, re-exported, and those inside types. */
  readonly imports: readonly string[];
}

/** Every TypeScript file under `folder`. */
export function readSources(folder: string): SourceFile[] {
  return readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) return readSources(path);
    return /\.tsx?$/.test(entry.name) ? [parseSource(path, readFileSync(path, "utf8"))] : [];
  });
}

/** The file's syntax tree and imports. Throws when it is not TypeScript. */
export function parseSource(path: string, text: string): SourceFile {
  const { program, comments, errors } = parseSync(path, text, { lang: path.endsWith("x") ? "tsx" : "ts" });
  if (errors.length > 0) throw new SyntaxError(`${path}: ${errors[0]?.message}`);
  const body = program.body as unknown as Node[];
  const imports: string[] = [];
  for (const statement of body) {
    visit(statement, (node) => {
      const source = node.source as { value?: unknown } | null | undefined;
      if (
        /^(Import|Export\w*)(Declaration|Expression)|^TSImportType$/.test(node.type) &&
        typeof source?.value === "string"
      )
        imports.push(source.value);
    });
  }
  return { path, text, body, comments, imports };
}

/** Calls `see` with every node of the tree, from the outside in, with the node around it. */
export function visit(node: Node, see: (node: Node, parent: Node | null, key: string) => void): void {
  const walk = (current: Node, parent: Node | null, key: string): void => {
    see(current, parent, key);
    for (const [name, value] of Object.entries(current)) {
      for (const child of Array.isArray(value) ? value : [value]) if (isNode(child)) walk(child, current, name);
    }
  };
  walk(node, null, "");
}

const isNode = (value: unknown): value is Node =>
  typeof value === "object" && value !== null && typeof (value as { type?: unknown }).type === "string";

/** The path of the source file that a relative import names, or null for a package, a style sheet or another file. */
export function importedPath(from: string, specifier: string): string | null {
  if (!specifier.startsWith(".")) return null;
  const path = normalize(join(dirname(from), specifier.replace(/\?.*$/, ""))).replaceAll("\\", "/");
  return /\.tsx?$/.test(path) || !/\.\w+$/.test(path) ? path : null;
}

/** The folder under `src` that a path belongs to, `src/app/main.tsx` to `app`; null outside `src` or directly in it. */
export const folderOf = (path: string): string | null => /^src\/([^/]+)\//.exec(path)?.[1] ?? null;

/** The line a place in the text lies on, counted from 1. */
export const lineOf = (text: string, at: number): number => text.slice(0, at).split("\n").length;
