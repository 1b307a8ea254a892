import type { PictureItem } from "../../geometry/picture.ts";
import type { Block, Piece } from "./block.ts";

/** The part of a page that holds blocks, points of paper. */
interface PageBox {
  readonly left: number;
  readonly top: number;
  readonly bottom: number;
}

/** What of a page's items belongs together: those from `from` up to, not with, `to`. */
export interface Stretch extends Pick<Piece, "part" | "clip"> {
  readonly from: number;
  readonly to: number;
}

/** A page as it is filled: what is drawn, and what of it is a part of what. */
export interface SetPage {
  readonly items: PictureItem[];
  readonly stretches: Stretch[];
}

/**
 * Sets blocks on pages from the top. A chain of blocks kept with the next one moves to a new page as a whole, unless it is
 * taller than a page, or ends in a block that can be split: then it breaks where it must. Throws when a block that cannot be split is taller than a
 * page, which no content may be.
 */
export function paginate(blocks: readonly Block[], { left, top, bottom }: PageBox): SetPage[] {
  const room = top - bottom;
  const pages: SetPage[] = [{ items: [], stretches: [] }];
  let y = top;
  const start = () => {
    pages.push({ items: [], stretches: [] });
    y = top;
  };
  const place = (block: Block) => {
    y -= y < top ? block.before : 0;
    const page = pages.at(-1)!;
    for (const { picture, ...own } of block.draw(left, y)) {
      const from = page.items.length;
      page.items.push(...picture);
      page.stretches.push({ ...own, from, to: page.items.length });
    }
    y -= block.height;
  };
  for (let i = 0; i < blocks.length; ) {
    const chain: Block[] = [];
    for (;;) {
      const block = blocks[i] as Block;
      if (block.height > room && !block.split)
        throw new Error(`a block of ${block.height} pt on a page with room for ${room} pt`);
      chain.push(block);
      i++;
      if (!block.keep || i >= blocks.length) break;
    }
    const height = chain.reduce((sum, block, k) => sum + block.height + (k > 0 ? block.before : 0), 0);
    const gap = y < top ? (chain[0] as Block).before : 0;
    const last = chain.at(-1)!;
    const rest = y - gap - (height - last.height) - bottom;
    if (height <= room && rest < last.height && y < top && !last.split?.(rest)) start();
    for (let block of chain) {
      for (;;) {
        const left = y - (y < top ? block.before : 0) - bottom;
        if (block.height <= left) break;
        const halves = block.split?.(left);
        if (halves) place(halves[0]);
        else if (y === top) throw new Error(`a block that cannot be set on a page with room for ${room} pt`);
        start();
        if (halves) block = halves[1];
      }
      place(block);
    }
  }
  return pages;
}
