import { type Node, type SourceFile, visit } from "./source-file.ts";

/** A use of a name that the file does not declare: a global. `member` is what is read from it, if anything. */
export interface FreeName {
  readonly name: string;
  readonly member: string | null;
  /** Called, or constructed, with no arguments at all. */
  readonly isBareCall: boolean;
  readonly at: number;
}

/** Every global that the file's code uses; names inside types are not uses. Anything declared somewhere in the file counts as declared. */
export function freeNames(file: SourceFile): FreeName[] {
  const declared = new Set<string>();
  const uses: FreeName[] = [];
  for (const statement of file.body) {
    visit(statement, (node, parent, key) => {
      if (node.type !== "Identifier") return;
      const name = node.name as string;
      if (isDeclaration(node, parent, key)) declared.add(name);
      else if (isUse(parent, key)) uses.push(freeName(node, parent, key));
    });
  }
  for (const statement of file.body) for (const name of patternNames(statement)) declared.add(name);
  return uses.filter(({ name }) => !declared.has(name));
}

function freeName(node: Node, parent: Node | null, key: string): FreeName {
  const name = node.name as string;
  const isObject = parent?.type === "MemberExpression" && key === "object" && parent.computed !== true;
  const member = isObject ? ((parent.property as Node).name as string) : null;
  const isCallee = (parent?.type === "NewExpression" || parent?.type === "CallExpression") && key === "callee";
  const isBareCall = isCallee && (parent.arguments as unknown[]).length === 0;
  return { name, member, isBareCall, at: node.start };
}

function isDeclaration(node: Node, parent: Node | null, key: string): boolean {
  if (!parent) return false;
  if (/^Import(Default|Namespace)?Specifier$/.test(parent.type)) return key === "local";
  if (/^(Function|Class)(Declaration|Expression)$/.test(parent.type)) return key === "id" || key === "params";
  if (parent.type === "ArrowFunctionExpression") return key === "params";
  return parent.type === "VariableDeclarator" && key === "id" && node.type === "Identifier";
}

/** Names bound by patterns: destructuring, parameters with defaults, rest, catch. */
function patternNames(statement: Node): string[] {
  const names: string[] = [];
  const bind = (pattern: Node): void => {
    if (pattern.type === "Identifier") names.push(pattern.name as string);
    else if (pattern.type === "ObjectPattern") for (const property of pattern.properties as Node[]) bind(property);
    else if (pattern.type === "Property") bind(pattern.value as Node);
    else if (pattern.type === "ArrayPattern")
      for (const element of pattern.elements as (Node | null)[]) {
        if (element) bind(element);
      }
    else if (pattern.type === "AssignmentPattern") bind(pattern.left as Node);
    else if (pattern.type === "RestElement") bind(pattern.argument as Node);
    else if (pattern.type === "TSParameterProperty") bind(pattern.parameter as Node);
  };
  visit(statement, (node) => {
    if (node.type === "VariableDeclarator") bind(node.id as Node);
    if (node.type === "CatchClause" && node.param) bind(node.param as Node);
    if (/^(Function|ArrowFunction)/.test(node.type)) for (const param of (node.params ?? []) as Node[]) bind(param);
  });
  return names;
}

function isUse(parent: Node | null, key: string): boolean {
  if (!parent || parent.type.startsWith("TS"))
    return parent?.type === "TSNonNullExpression" || parent?.type === "TSAsExpression";
  if (parent.type === "MemberExpression") return key === "object" || parent.computed === true;
  if (parent.type === "Property" || /(Method|Property)Definition$/.test(parent.type)) return key === "value";
  if (/Specifier$/.test(parent.type) || parent.type === "LabeledStatement") return false;
  return parent.type !== "JSXAttribute";
}
