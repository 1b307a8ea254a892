import { useEffect, useState } from "react";
import type { FoundViewport } from "../pdf/read/read-viewports.ts";
import { useDesk, useHost } from "./desk-context.ts";

const NONE: readonly FoundViewport[] = [];

/** The viewports of a drawing's file, read once it is open; none where they cannot be read. */
export function useFoundViewports(sha256: string | undefined): readonly FoundViewport[] {
  const { host } = useDesk();
  const open = useHost((state) => sha256 !== undefined && state.drawings[sha256]?.is === "open");
  const [read, setRead] = useState<{ readonly sha256: string; readonly found: readonly FoundViewport[] }>();
  useEffect(() => {
    if (!open || sha256 === undefined) return;
    let wanted = true;
    void host.foundViewports(sha256).then((found) => wanted && setRead({ sha256, found }));
    return () => {
      wanted = false;
    };
  }, [host, open, sha256]);
  return read && read.sha256 === sha256 ? read.found : NONE;
}
