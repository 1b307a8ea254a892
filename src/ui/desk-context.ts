import { createContext, useContext, useMemo } from "react";
import { useStore } from "zustand";
import type { Session, SessionState } from "../editor/session.ts";
import type { UnitSystem } from "../units/length.ts";
import type { Host, HostState } from "./host.ts";
import type { View } from "./view.ts";

/** What every part of the desk works with. */
export interface Desk {
  readonly session: Session;
  readonly host: Host;
  readonly view: View;
}

/** Provided once, by the root of the program. */
export const DeskContext = createContext<Desk | null>(null);

/** The desk; throws outside of one. */
export function useDesk(): Desk {
  const desk = useContext(DeskContext);
  if (!desk) throw new Error("used outside a desk");
  return desk;
}

/** A part of the session's state; drawn again when that part is replaced. */
export function useSession<T>(select: (state: SessionState) => T): T {
  return useStore(useDesk().session, select);
}

/** A part of what the application knows. */
export function useHost<T>(select: (state: HostState) => T): T {
  return useStore(useDesk().host.state, select);
}

/** The units the job is written in. */
export const useSystem = (): UnitSystem => useSession((state) => state.job.settings.job.system);

/** Something derived from a part of the session, computed again only when that part is replaced. */
export function useDerived<P, T>(select: (state: SessionState) => P, derive: (part: P) => T): T {
  const part = useSession(select);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `derive` is a pure function written in place
  return useMemo(() => derive(part), [part]);
}
