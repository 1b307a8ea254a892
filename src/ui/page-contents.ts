import type { PageRenderer } from "../canvas/page-renderer.ts";
import type { PageContents } from "../pdf/read/plan-contents.ts";

const read = new WeakMap<PageRenderer, Map<string, Promise<PageContents>>>();

/** What a page of an opened drawing offers, read once: its words are asked for by scale notes, marks and issuing alike. */
export function pageContents(renderer: PageRenderer, handle: number, page: number): Promise<PageContents> {
  const known = read.get(renderer) ?? new Map<string, Promise<PageContents>>();
  read.set(renderer, known);
  const key = `${handle}/${page}`;
  const old = known.get(key);
  if (old) return old;
  const fresh = renderer.readPlan(handle, page);
  known.set(key, fresh);
  // What failed may be tried again.
  fresh.catch(() => known.delete(key));
  return fresh;
}
