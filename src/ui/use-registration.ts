import { useMemo } from "react";
import type { Id } from "../job/fields.ts";
import { type Registration, sheetToBuilding } from "../job/registration.ts";
import { useSession } from "./desk-context.ts";

/** How a viewport lies in the building, or undefined while that is not known. */
export function useRegistration(viewport: Id | null): Registration | undefined {
  const sheets = useSession((state) => state.job.sheets);
  const viewports = useSession((state) => state.job.viewports);
  const job = useSession((state) => state.job);
  // biome-ignore lint/correctness/useExhaustiveDependencies: only sheets and viewports bear on it, not the whole job
  return useMemo(() => {
    if (viewport === null) return undefined;
    const found = sheetToBuilding(job, viewport);
    return found.ok ? found.value : undefined;
  }, [sheets, viewports, viewport]);
}
