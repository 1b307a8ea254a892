import { useEffect, useState } from "react";
import type { PageContents } from "../pdf/read/plan-contents.ts";
import { useDesk, useHost, useSession } from "./desk-context.ts";
import { pageContents } from "./page-contents.ts";

/** What a sheet's page offers; undefined while it is being read or its drawing is not open, null where it cannot be read. */
export function usePageContents(sheetId: string | null): PageContents | null | undefined {
  const { host } = useDesk();
  const sheet = useSession((state) => (sheetId === null ? undefined : state.job.sheets[sheetId]));
  const drawing = useHost((state) => (sheet ? state.drawings[sheet.file.sha256] : undefined));
  const handle = drawing?.is === "open" ? drawing.handle : undefined;
  const page = sheet?.page;
  const [read, setRead] = useState<{ handle: number; page: number; contents: PageContents | null }>();
  useEffect(() => {
    if (handle === undefined || page === undefined) return;
    let wanted = true;
    const keep = (contents: PageContents | null) => wanted && setRead({ handle, page, contents });
    pageContents(host.renderer, handle, page).then(keep, () => keep(null));
    return () => {
      wanted = false;
    };
  }, [host, handle, page]);
  return read && read.handle === handle && read.page === page ? read.contents : undefined;
}
