import type { Id } from "../job/fields.ts";
import { useSession } from "./desk-context.ts";

/** The run that is selected, by itself or by a finding about it. */
export function useSelectedRun(): Id | undefined {
  return useSession(({ selection, job }) => {
    if (selection === null) return undefined;
    const id =
      "finding" in selection
        ? selection.finding.elementId
        : "table" in selection && selection.table === "elements"
          ? selection.id
          : "";
    const element = job.elements[id];
    return element && "vertices" in element ? id : undefined;
  });
}
