import { useMemo } from "react";
import { sheetLine, stationNear } from "../check/sheet-line.ts";
import { nearestSegment, placedOn } from "../editor/near.ts";
import type { SessionState } from "../editor/session.ts";
import type { Id } from "../job/fields.ts";
import { useSession } from "./desk-context.ts";

/** How near to a run the pointer or the crosshair is on it, pixels. */
const REACH = 8;

/** The place on the shown sheet that the pointer or the crosshair is on while nothing is being drawn or moved. */
const pointed = ({ aim, busy, tool, sheet }: SessionState) =>
  aim === null || busy || tool.tool !== "edit" ? undefined : { at: aim.at, sheet };

/** The station of what a profile shows that the pointer or the crosshair is on, on the sheet; undefined while it is elsewhere. */
export function usePointedStation(id: Id | undefined, member?: string): number | undefined {
  const job = useSession((state) => state.job);
  const line = useMemo(() => (id === undefined ? undefined : sheetLine(job, id, member)), [job, id, member]);
  return useSession((state) => {
    const place = pointed(state);
    return place && line?.sheet === place.sheet ? stationNear(line, place.at, REACH * state.pixel) : undefined;
  });
}

/** The run that the pointer or the crosshair is on, while sections are wanted there. */
export function usePointedRun(wanted: boolean): Id | undefined {
  return useSession((state) => {
    const place = wanted ? pointed(state) : undefined;
    if (!place || place.sheet === null) return undefined;
    const isRun = ({ record }: { record: object }) => "vertices" in record && "kind" in record;
    return nearestSegment(placedOn(state.job, place.sheet), place.at, REACH * state.pixel, isRun)?.thing.id;
  });
}
