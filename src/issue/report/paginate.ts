import type { PictureItem } from "../../geometry/picture.ts";
import type { Block } from "./block.ts";

/** The part of a page that holds blocks, points of paper. */
export interface PageBox {
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
}

/**
 * Sets blocks on pages from the top. A chain of blocks kept with the next one moves to a new page as a whole, unless it is
 * taller than a page: then it breaks where it must. Throws when one block is taller than a page, which no content may be.
 */
export function paginate(blocks: readonly Block[], { left, top, bottom }: PageBox): PictureItem[][] {
  const room = top - bottom;
  const pages: PictureItem[][] = [[]];
  let y = top;
  const start = () => {
    pages.push([]);
    y = top;
  };
  for (let i = 0; i < blocks.length; ) {
    const chain: Block[] = [];
    for (;;) {
      const block = blocks[i] as Block;
      if (block.height > room) throw new Error(`a block of ${block.height} pt on a page with room for ${room} pt`);
      chain.push(block);
      i++;
      if (!block.keep || i >= blocks.length) break;
    }
    const height = chain.reduce((sum, block, k) => sum + block.height + (k > 0 ? block.before : 0), 0);
    const gap = y < top ? (chain[0] as Block).before : 0;
    if (height <= room && y - gap - height < bottom && y < top) start();
    for (const block of chain) {
      const before = y < top ? block.before : 0;
      if (y - before - block.height < bottom) start();
      y -= y < top ? block.before : 0;
      (pages[pages.length - 1] as PictureItem[]).push(...block.draw(left, y));
      y -= block.height;
    }
  }
  return pages;
}
