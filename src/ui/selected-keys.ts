import { findingKeyText } from "../check/finding.ts";
import type { Selection } from "../editor/selection.ts";

/** The keys of the marks that a selection stands for. */
export function selectedKeys(selection: Selection): readonly string[] {
  if (selection === null) return [];
  if ("finding" in selection)
    return [`finding:${findingKeyText(selection.finding)}`, `element:${selection.finding.elementId}`];
  if (selection.table === "areas") return [`area:${selection.id}`];
  if (selection.table === "storeyOutlines") return [`storey:${selection.id}`];
  return selection.table === "elements" ? [`element:${selection.id}`] : [];
}
