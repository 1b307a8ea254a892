import { type ComponentType, useSyncExternalStore } from "react";
import { reportBug } from "./report-bug.ts";

/** When a part is wanted: as soon as a job is to be put on the desk, or when the first view is there. */
type Wanted = "with-a-desk" | "afterwards";

/** What loads each part that comes later. */
const loads: { readonly wanted: Wanted; readonly begin: () => void }[] = [];
/** Whether the first view is there. */
let isAfterwards = false;

/**
 * A part of the screen that the page begins without: it comes in a file of its own, and nothing is drawn in its place until that is
 * there. From then on it is drawn at once, with what it stands in. One wanted afterwards is not loaded before, though it be on the screen. A file
 * that cannot be had is told as what it is.
 */
export function later<P extends object>(
  load: () => Promise<ComponentType<P>>,
  wanted: Wanted = "afterwards",
): ComponentType<P> {
  let part: ComponentType<P> | undefined;
  let loading = false;
  const waiting = new Set<() => void>();
  const begin = () => {
    if (loading) return;
    loading = true;
    load().then(
      (loaded) => {
        part = loaded;
        for (const tell of waiting) tell();
      },
      (error: unknown) => {
        // Asked for again with the next look at it.
        loading = false;
        reportBug(error);
      },
    );
  };
  loads.push({ wanted, begin });
  const subscribe = (tell: () => void) => {
    waiting.add(tell);
    if (isAfterwards || wanted === "with-a-desk") begin();
    return () => void waiting.delete(tell);
  };
  // biome-ignore lint/correctness/noComponentHookFactories: called once for each part, where its module begins
  return function Later(props: P) {
    const Part = useSyncExternalStore(subscribe, () => part);
    return Part ? <Part {...props} /> : null;
  };
}

/** Loads the parts wanted then, so that none is waited for when it is to be shown. */
export function loadParts(then: Wanted): void {
  isAfterwards ||= then === "afterwards";
  for (const { wanted, begin } of loads) if (wanted === then) begin();
}
