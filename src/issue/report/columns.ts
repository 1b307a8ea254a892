import type { Block } from "./block.ts";

/** Blocks one under the other as one that is not broken. */
export const stacked = (blocks: readonly Block[], options: { before?: number; keep?: boolean } = {}): Block => ({
  height: heightOf(blocks),
  before: options.before ?? 0,
  keep: options.keep ?? false,
  draw: (x, top) => draw(blocks, x, top),
});

/** Two blocks side by side as one that is not broken; the second lies so far from the left. */
export const beside = (first: Block, second: Block, at: number): Block => ({
  height: Math.max(first.height, second.height),
  before: first.before,
  keep: first.keep,
  draw: (x, top) => [...first.draw(x, top), ...second.draw(x + at, top)],
});

/** A break that leaves less than this on a page is not worth it, points. */
const LEAST = 40;

/** Not fewer blocks than this go to the next page, nor stay behind, unless they are tall. */
const LEFT_OVER = 6;

/** Blocks set in two columns, read down the left one and then the right; they may go on over pages. `step` is from column to column. */
export function inColumns(blocks: readonly Block[], step: number, before = 0): Block {
  const height = balanced(blocks);
  const columns = fill(blocks, height);
  return {
    height,
    before,
    keep: false,
    draw: (x, top) => columns.flatMap((column, i) => draw(column, x + i * step, top)),
    split: (room) => {
      if (room < LEAST) return undefined;
      const [left, right] = fill(blocks, room);
      const most = left.length + right.length;
      const fewer = Math.min(most, blocks.length - LEFT_OVER);
      const fitting = fewer >= LEFT_OVER ? fewer : most;
      if (left.length === 0 || fitting >= blocks.length) return undefined;
      return [inColumns(blocks.slice(0, fitting), step, before), inColumns(blocks.slice(fitting), step)];
    },
  };
}

/** The least height in which two columns hold all the blocks. */
function balanced(blocks: readonly Block[]): number {
  const heights = blocks.map((_, i) => heightOf(blocks.slice(0, i + 1)));
  const candidates = blocks.map((_, i) => Math.max(heights[i]!, heightOf(blocks.slice(i + 1))));
  return Math.min(...candidates);
}

const heightOf = (column: readonly Block[]): number =>
  column.reduce((sum, { height, before }, i) => sum + height + (i > 0 ? before : 0), 0);

/** As many blocks as fit in two columns of a height, in order. */
function fill(blocks: readonly Block[], height: number): readonly [Block[], Block[]] {
  const columns: [Block[], Block[]] = [[], []];
  let at = 0;
  let used = 0;
  for (const block of blocks) {
    // A hair more, for sums that differ in their last digit.
    let next = used + (used > 0 ? block.before : 0) + block.height;
    if (next > height + 1e-6) {
      at++;
      next = block.height;
      if (at > 1 || next > height + 1e-6) break;
    }
    (columns[at] as Block[]).push(block);
    used = next;
  }
  return columns;
}

function draw(column: readonly Block[], x: number, top: number) {
  let y = top;
  return column.flatMap((block, i) => {
    y -= i > 0 ? block.before : 0;
    const pieces = block.draw(x, y);
    y -= block.height;
    return pieces;
  });
}
