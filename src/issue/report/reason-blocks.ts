import type { Reason } from "../../check/finding.ts";
import { FAINT_INK, INK } from "../inks.ts";
import { textWidth } from "../text-width.ts";
import { type Block, type Cell, GUIDE_STEP, row, type Setting } from "./block.ts";
import { inColumns, stacked } from "./columns.ts";
import type { Part } from "./part.ts";

const TEXT: Setting = { size: 7.3, face: "regular", ink: INK };
const SOURCE: Setting = { size: 6.6, face: "condensed", ink: FAINT_INK };
/** Room between the two columns, points. */
const GAP = 18;
/** Most of a line that its value may take. */
const MOST_OF_VALUE = 0.45;
/** Explanations of fewer lines are said again wherever they are needed. */
const WORTH_REFERRING = 3;

/** Explanations given before, each with the number of the finding it was given under. */
export type ToldReasons = Map<string, number>;

/**
 * The explanation as an indented tree in two columns: text on the left of each, values on the right, sources beneath. What stands under a line
 * and was told word for word under an earlier finding is not told again: the line says under which. `number`: of the finding explained.
 */
export function reasonBlocks(reason: Reason, width: number, told: ToldReasons = new Map(), number?: number): Block[] {
  const across = (width - GAP) / 2;
  return [inColumns(treeBlocks(reason, 0, { role: "L" }, { across, told, number }), across + GAP, 2)];
}

interface Tree {
  readonly across: number;
  readonly told: ToldReasons;
  readonly number: number | undefined;
}

function treeBlocks(reason: Reason, depth: number, list: Part, tree: Tree): Block[] {
  const { text, value, source, children } = reason;
  const body: Part = { role: "LBody", within: { role: "LI", within: list } };
  const before = depth === 0 ? undefined : toldUnder(reason, tree);
  const indent = depth * GUIDE_STEP;
  const options = { guides: depth, part: body };
  const beneath = [
    ...(source ? [{ text: source, x: indent, width: tree.across - indent, setting: SOURCE }] : []),
    ...(before === undefined
      ? []
      : [
          {
            text: `Why so: as under ${before}`,
            x: indent + GUIDE_STEP,
            width: tree.across - indent - GUIDE_STEP,
            setting: SOURCE,
            goesTo: before,
          },
        ]),
  ];
  const lines = [...row(lineCells(text, value, indent, tree.across), options)];
  const small = lines.length === 1 ? beneath.flatMap((cell) => row([cell], options)) : [];
  const own = lines.length === 1 ? [stacked([...lines, ...small], { before: 1.2 })] : lines;
  if (before !== undefined) return own;
  const inner: Part = { role: "L", within: body };
  return [...own, ...children.flatMap((child) => treeBlocks(child, depth + 1, inner, tree))];
}

/** A line's words, and its value on the right. */
function lineCells(text: string, value: string | undefined, indent: number, across: number): Cell[] {
  const room = across - indent;
  if (value === undefined) return [{ text, x: indent, width: room, setting: TEXT }];
  const wide = Math.min(textWidth(value, TEXT.size, TEXT.face) + 0.1, room * MOST_OF_VALUE);
  return [
    { text, x: indent, width: room - wide - 6, setting: TEXT },
    { text: value, x: across - wide, width: wide, setting: TEXT, align: "end" },
  ];
}

/** The number of the earlier finding under which all that stands under a line was told; else it is noted as told here. */
function toldUnder({ children }: Reason, { told, number }: Tree): number | undefined {
  if (number === undefined || linesOf(children) < WORTH_REFERRING) return undefined;
  const key = JSON.stringify(children);
  const before = told.get(key);
  if (before === undefined) told.set(key, number);
  return before === number ? undefined : before;
}

const linesOf = (reasons: readonly Reason[]): number =>
  reasons.reduce((sum, { children, source }) => sum + (source ? 2 : 1) + linesOf(children), 0);
