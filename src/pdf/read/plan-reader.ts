import { joinText, runOf } from "./join-text.ts";
import { geometryOf, type OpenPlan } from "./open-plan.ts";
import type { PageContents } from "./plan-contents.ts";

/** Reads one page. Rejects with the signal's reason when that is aborted. */
export async function readPage(plan: OpenPlan, page: number, signal?: AbortSignal): Promise<PageContents> {
  signal?.throwIfAborted();
  const proxy = await plan.document.getPage(page);
  const pieces = [];
  const reader = proxy.streamTextContent().getReader();
  try {
    for (;;) {
      signal?.throwIfAborted();
      const { done, value } = await reader.read();
      if (done) break;
      for (const item of value.items) if ("str" in item) pieces.push(runOf(item));
    }
  } finally {
    if (signal?.aborted) await reader.cancel(signal.reason).catch(() => undefined);
  }
  return { geometry: geometryOf(proxy), texts: joinText(pieces) };
}
