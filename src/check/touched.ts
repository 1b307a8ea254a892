import { type Element, namedBy } from "../job/elements/element.ts";
import type { Job } from "../job/schema.ts";

/**
 * Ids of the elements whose findings may differ between two jobs that differ in elements only: those that changed,
 * everything placed at one point on a viewport where a run changed, since the runs traced up to a box speak for it, and what
 * names one that changed.
 */
export function elementsTouchedBy(before: Job, after: Job): ReadonlySet<string> {
  if (before.elements === after.elements) return new Set();
  const touched = new Set<string>();
  const viewports = new Set<string>();
  const note = (element: Element | undefined): void => {
    if (element && "vertices" in element) viewports.add(element.viewport);
  };
  for (const [id, element] of Object.entries(after.elements)) {
    const old = before.elements[id];
    if (old === element) continue;
    touched.add(id);
    note(element);
    note(old);
  }
  for (const [id, element] of Object.entries(before.elements)) if (!Object.hasOwn(after.elements, id)) note(element);
  const changed = new Set(touched);
  for (const [id, element] of Object.entries(after.elements))
    if (
      !("vertices" in element) &&
      (viewports.has(element.viewport) || namedBy(element).some((n) => changed.has(n.id)))
    )
      touched.add(id);
  return touched;
}
