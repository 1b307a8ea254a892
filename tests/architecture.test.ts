import { describe, expect, test } from "vitest";
import { elementSchema } from "../src/job/elements/element.ts";
import { freeNames } from "./architecture/free-names.ts";
import {
  folderOf,
  importedPath,
  lineOf,
  type Node,
  parseSource,
  readSources,
  type SourceFile,
  visit,
} from "./architecture/source-file.ts";

/** What each folder may import besides itself. Type-only imports count: who knows a type depends on it. */
const below: Readonly<Record<string, readonly string[]>> = (() => {
  const check = ["units", "geometry", "trade", "rules", "job", "check"];
  const issue = [...check, "pdf", "issue"];
  const canvas = [...issue, "editor", "canvas"];
  return {
    units: [],
    geometry: ["units"],
    trade: ["units"],
    rules: ["units", "trade"],
    job: ["units", "geometry", "trade", "rules"],
    check: ["units", "geometry", "trade", "rules", "job"],
    pdf: ["units", "geometry"],
    issue,
    store: ["units", "job"],
    editor: check,
    canvas,
    ui: [...canvas, "store", "ui"],
    app: [...canvas, "store", "ui", "app"],
    cli: [...issue, "store", "editor", "cli"],
  };
})();
const inBrowser = ["canvas", "ui", "app"];
const inNode = ["cli"];

/** Packages that only these folders may name, by the start of the package's name. */
const fencedPackages: Readonly<Record<string, readonly string[]>> = {
  react: inBrowser,
  zustand: ["editor", "canvas", "ui", "app"],
  "idb-keyval": ["app"],
  comlink: ["canvas", "app"],
  commander: ["cli"],
  "node:": inNode,
};

/** Globals that belong to a browser or to Node; the core is handed what it needs of them. */
const browserGlobals = new Set(
  "window document navigator location history localStorage sessionStorage indexedDB self alert requestAnimationFrame setTimeout setInterval fetch Worker postMessage Image HTMLElement HTMLCanvasElement OffscreenCanvas Path2D FileReader performance".split(
    " ",
  ),
);
const nodeGlobals = new Set(["process", "Buffer", "require", "__dirname", "__filename", "setImmediate", "global"]);

const sources = readSources("src");
const core = sources.filter(({ path }) => ![...inBrowser, ...inNode].includes(folderOf(path) ?? ""));
const isImport =
  (from: SourceFile) =>
  (path: string | null): path is string =>
    path !== null && path !== from.path;

/** Fails with all the lines at once, one below the other. */
function expectNone(found: readonly string[]): void {
  expect(found.join("\n")).toBe("");
}

describe("folders", () => {
  test("are all in the table", () => {
    const strange = sources.filter(({ path }) => !(folderOf(path) !== null && folderOf(path)! in below));
    expectNone(strange.map(({ path }) => path));
  });

  test("import only what lies below them", () => {
    expectNone(sources.flatMap(misdirected));
  });

  test("the test above sees a type-only import, a type in place and a dynamic import that go up", () => {
    const lines = [
      'import type { Job } from "../job/schema.ts";',
      'let job: import("../job/schema.ts").Job;',
      'import("../job/schema.ts");',
      'export { apply } from "../job/edit.ts";',
    ];
    for (const line of lines) expect(misdirected(parseSource("src/units/length.ts", line)), line).toHaveLength(1);
    expect(misdirected(parseSource("src/job/edit.ts", 'import type { Job } from "./schema.ts";'))).toEqual([]);
  });

  test("name packages only where they belong", () => {
    expectNone(sources.flatMap(misplacedPackages));
    expect(misplacedPackages(parseSource("src/job/x.ts", 'import type { FC } from "react";'))).toHaveLength(1);
    expect(misplacedPackages(parseSource("src/app/x.ts", 'import "node:fs";'))).toHaveLength(1);
  });

  test("have no import cycles", () => {
    expectNone(cycles(sources));
    const loop = [
      parseSource("src/job/a.ts", 'import type { B } from "./b.ts";'),
      parseSource("src/job/b.ts", 'import type { A } from "./a.ts";'),
    ];
    expect(cycles(loop)).toHaveLength(1);
  });
});

describe("kinds of element answer for themselves", () => {
  test("shared code never tests the name of a kind", () => {
    const shared = sources.filter(({ path }) => !/\/(kinds|elements|cards)\//.test(path));
    expectNone(shared.flatMap(kindTests));
  });

  test("the test above sees a comparison and a switch", () => {
    const source = (code: string) => parseSource("src/check/x.ts", code);
    expect(kindTests(source('if (element.kind === "run") f();'))).toHaveLength(1);
    expect(kindTests(source('switch (e.kind) { case "box": f(); }'))).toHaveLength(1);
    expectNone(kindTests(source('if (source.kind === "published") f();')));
  });
});

describe("the core", () => {
  test("uses nothing of the browser or of Node, no clock and no chance", () => {
    expectNone(core.flatMap(surroundings));
  });

  test("the test above sees what it forbids, and only that", () => {
    const forbidden = [
      "Date.now()",
      "new Date()",
      "Date()",
      "Math.random()",
      "document.title",
      "process.env.HOME",
      "f(window)",
    ];
    for (const code of forbidden) expect(surroundings(parseSource("src/job/x.ts", code)), code).toHaveLength(1);
    const fine = [
      "new Date(1980, 0, 1)",
      "Math.abs(1)",
      "const document = open(); document.save()",
      "({ document }: Plan) => document.pages",
      "plan.document.pages",
      "let x: Document",
    ];
    for (const code of fine) expectNone(surroundings(parseSource("src/job/x.ts", code)));
  });
});

describe("files", () => {
  test("say the whole name of what they import, and are imported by it", () => {
    const bare = sources.flatMap((file) =>
      file.imports
        .filter((name) => name.startsWith(".") && !/\.\w+(\?\w+)?$/.test(name))
        .map((name) => `${file.path}: ${name}`),
    );
    expectNone(bare);
  });

  test("have names that say something, and are no lists of other files' exports", () => {
    const vague = sources.filter(({ path }) => /\/(index|utils?|helpers?|common|misc)\.tsx?$/.test(path));
    expectNone(vague.map(({ path }) => path));
    const barrels = sources.filter(
      ({ body }) => body.length > 0 && body.every((node) => /^Export(All|Named)/.test(node.type) && node.source),
    );
    expectNone(barrels.map(({ path }) => path));
  });

  test("longer than 500 lines give the reason in their first comment", () => {
    const long = sources.filter(({ text }) => text.split("\n").length > 501);
    const silent = long.filter(({ comments, body }) => {
      const first = comments[0];
      return !(
        first &&
        first.start <= (body[0]?.start ?? 0) &&
        /\b(long|one file|in one place)\b[^.]*\bbecause\b/i.test(first.value)
      );
    });
    expectNone(silent.map(({ path, text }) => `${path}: ${text.split("\n").length} lines`));
  });

  test("document everything they export", () => {
    expectNone(sources.flatMap(undocumented));
  });

  test("the test above sees a missing comment, and lets a type share the comment of the line above it", () => {
    expect(undocumented(parseSource("src/job/x.ts", "/** A. */\nexport const a = 1;\n\nexport const b = 2;"))).toEqual([
      "src/job/x.ts:4 b",
    ]);
    expectNone(undocumented(parseSource("src/job/x.ts", "/** A. */\nexport const a = 1;\nexport type A = typeof a;")));
    expectNone(undocumented(parseSource("src/job/x.ts", 'export { a } from "./a.ts";')));
  });
});

function misdirected(file: SourceFile): string[] {
  const from = folderOf(file.path) ?? "";
  return file.imports.flatMap((specifier) => {
    const path = importedPath(file.path, specifier);
    if (path === null) return [];
    const to = folderOf(path);
    const isAllowed = to !== null && (to === from || (below[from] ?? []).includes(to));
    return isAllowed
      ? []
      : [`${file.path} imports ${specifier}: ${from} may not know ${to ?? "what lies outside src"}`];
  });
}

function misplacedPackages(file: SourceFile): string[] {
  const folder = folderOf(file.path) ?? "";
  return file.imports.flatMap((specifier) =>
    Object.entries(fencedPackages)
      .filter(([start, allowed]) => specifier.startsWith(start) && !allowed.includes(folder))
      .map(() => `${file.path} imports ${specifier}`),
  );
}

const elementKinds = new Set(elementSchema.options.map((option) => option.shape.kind.value as string));

/** Places where `.kind` of something is compared with the name of a kind of element. */
function kindTests(file: SourceFile): string[] {
  const found: string[] = [];
  const isKind = (node: Node): boolean => node.type === "MemberExpression" && (node.property as Node).name === "kind";
  const isName = (node: Node | null): boolean => node?.type === "Literal" && elementKinds.has(String(node.value));
  for (const statement of file.body) {
    visit(statement, (node) => {
      const [left, right] = [node.left as Node, node.right as Node];
      const isCompared =
        node.type === "BinaryExpression" && ((isKind(left) && isName(right)) || (isKind(right) && isName(left)));
      const isSwitched =
        node.type === "SwitchStatement" &&
        isKind(node.discriminant as Node) &&
        (node.cases as Node[]).some((each) => isName(each.test as Node | null));
      if (isCompared || isSwitched) found.push(`${file.path}:${lineOf(file.text, node.start)}`);
    });
  }
  return found;
}

function cycles(files: readonly SourceFile[]): string[] {
  const found: string[] = [];
  const done = new Set<string>();
  const imports = new Map(
    files.map((file) => [file.path, file.imports.map((name) => importedPath(file.path, name)).filter(isImport(file))]),
  );
  const follow = (path: string, trail: readonly string[]): void => {
    if (trail.includes(path)) {
      found.push([...trail.slice(trail.indexOf(path)), path].join(" -> "));
      return;
    }
    if (done.has(path)) return;
    for (const next of imports.get(path) ?? []) follow(next, [...trail, path]);
    done.add(path);
  };
  for (const path of imports.keys()) follow(path, []);
  return found;
}

function surroundings(file: SourceFile): string[] {
  return freeNames(file)
    .filter(({ name, member, isBareCall }) => {
      if (name === "Date") return member === "now" || isBareCall;
      if (name === "Math") return member === "random";
      return browserGlobals.has(name) || nodeGlobals.has(name);
    })
    .map(({ name, member, at }) => `${file.path}:${lineOf(file.text, at)} ${member ? `${name}.${member}` : name}`);
}

function undocumented(file: SourceFile): string[] {
  const hasComment = (statement: Node, before: Node | undefined): boolean => {
    const comment = file.comments.findLast(({ end }) => end <= statement.start);
    const isDoc = comment?.type === "Block" && comment.value.startsWith("*");
    return isDoc && comment.start >= (before?.end ?? 0) && file.text.slice(comment.end, statement.start).trim() === "";
  };
  const documented = new Set<Node>();
  file.body.forEach((statement, i) => {
    const before = file.body[i - 1];
    if (hasComment(statement, before)) documented.add(statement);
    // What stands on the very next line belongs to what was just explained: a list and the type of its members.
    else if (before && documented.has(before) && /^\n$/.test(file.text.slice(before.end, statement.start)))
      documented.add(statement);
  });
  return file.body
    .filter((node) => /^Export(Named|Default)/.test(node.type) && node.declaration && !documented.has(node))
    .map((node) => `${file.path}:${lineOf(file.text, node.start)} ${namesOf(node.declaration as Node)}`);
}

function namesOf(declaration: Node): string {
  const nodes = declaration.id ? [declaration] : ((declaration.declarations ?? []) as Node[]);
  return nodes.map(({ id }) => (id as Node).name ?? "pattern").join(", ") || "default";
}
