import { useEffect, useState } from "react";
import { useStore } from "zustand";
import type { Id } from "../job/fields.ts";
import type { PageSurvey } from "../pdf/read/page-survey.ts";
import { useDesk, useHost, useSession } from "./desk-context.ts";

/** What is on the page of a sheet, looked over once its lines have been read; undefined until then, null where it cannot be told. */
export function usePageSurvey(sheetId: Id): PageSurvey | null | undefined {
  const { host, view } = useDesk();
  const sheet = useSession((state) => state.job.sheets[sheetId]);
  const isOpen = useHost((state) => sheet !== undefined && state.drawings[sheet.file.sha256]?.is === "open");
  const waiting = useStore(view.store, ({ lines }) => lines?.sheet !== sheetId || lines.is === "reading");
  const [found, setFound] = useState<{ readonly sheet: Id; readonly survey: PageSurvey | null }>();
  const sha256 = sheet?.file.sha256;
  const page = sheet?.page;
  useEffect(() => {
    if (waiting || !isOpen || sha256 === undefined || page === undefined) return;
    let wanted = true;
    const keep = (survey: PageSurvey | null) => wanted && setFound({ sheet: sheetId, survey });
    host.pageSurvey(sha256, page).then(keep, () => keep(null));
    return () => {
      wanted = false;
    };
  }, [host, sheetId, sha256, page, isOpen, waiting]);
  return found?.sheet === sheetId ? found.survey : undefined;
}
