import { useStore } from "zustand";
import { useDesk, useSession } from "./desk-context.ts";
import { SectionHere } from "./SectionHere.tsx";
import { usePointedRun, usePointedStation } from "./use-pointed-station.ts";
import { useSelectedRun } from "./use-selected-run.ts";

/** The section through any run that the pointer or the crosshair is on, while sections are wanted; that of the selected one stands at its profile. */
export function SectionPointed() {
  const { view } = useDesk();
  const wanted = useStore(view.store, (state) => state.sections);
  const selected = useSelectedRun();
  const id = usePointedRun(wanted);
  const job = useSession((state) => state.job);
  const station = usePointedStation(id);
  if (id === undefined || id === selected || station === undefined) return null;
  return (
    <div className="section-pointed">
      <SectionHere job={job} id={id} station={station} />
    </div>
  );
}
