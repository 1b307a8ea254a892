import { useMemo } from "react";
import { useStore } from "zustand";
import type { ScreenMark } from "../canvas/screen-mark.ts";
import { type AreaRoom, type HungWiring, hangingRoom, hungWiring } from "../check/hanging-room.ts";
import { roomMapMarks } from "../issue/room-map-marks.ts";
import type { Job } from "../job/schema.ts";
import { useDesk, useSession } from "./desk-context.ts";
import { usePageContents } from "./use-page-contents.ts";

const NONE: readonly never[] = [];

/** The sizes that a room map may be chosen for. */
export function useHungWiring(): readonly HungWiring[] {
  const job = useSession((state) => state.job);
  const { elements } = job;
  const { settings } = job;
  // biome-ignore lint/correctness/useExhaustiveDependencies: sizes come from the elements and the units of the job
  return useMemo(() => hungWiring(job), [elements, settings]);
}

/** The room map of a sheet while it is shown, drawn again when a deck changes. */
export function useRoomMap(sheetId: string | null): readonly ScreenMark[] {
  const { view } = useDesk();
  const choice = useStore(view.store, (state) => state.roomMap);
  const job = useSession((state) => state.job);
  const rooms = useRooms(job, choice !== null);
  const words = usePageContents(sheetId)?.texts ?? NONE;
  const { sheets, viewports, settings } = job;
  // biome-ignore lint/correctness/useExhaustiveDependencies: where the map is drawn comes from the sheets, their viewports and the units
  return useMemo(
    () => (sheetId === null || choice === null ? NONE : roomMapMarks(job, rooms, sheetId, choice, words)),
    [sheets, viewports, settings, rooms, sheetId, choice, words],
  );
}

/** The room under every deck of a job while somebody wants to see it; worked out again when anything but an element moves. */
function useRooms(job: Job, wanted: boolean): readonly AreaRoom[] {
  const { elements } = job;
  // biome-ignore lint/correctness/useExhaustiveDependencies: sizes come from the elements and the units of the job
  const sizes = useMemo(() => (wanted ? hungWiring(job) : NONE), [wanted, elements, job.settings]);
  const key = sizes.map(({ label, outside }) => `${label} ${outside}`).join();
  const { settings, sheets, storeys, viewports, areas, storeyOutlines } = job;
  // biome-ignore lint/correctness/useExhaustiveDependencies: of the elements only their sizes count
  return useMemo(
    () => (wanted ? hangingRoom(job, sizes) : NONE),
    [wanted, key, settings, sheets, storeys, viewports, areas, storeyOutlines],
  );
}
