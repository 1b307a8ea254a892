import { type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job, Sheet, Viewport } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { changeRecord } from "./change.ts";
import { soundPoints } from "./sound.ts";

/** A viewport that holds a whole page, with nothing known of it yet. */
const wholePage = (sheet: Id, name: string): Viewport => ({
  sheet,
  name,
  region: null,
  storey: null,
  scale: { stated: null, measured: null, use: null },
  registration: null,
});

/** Takes sheets into the job, each with one viewport for its whole page, named as the sheet. */
export function addSheets(
  job: Job,
  sheets: readonly { readonly id: Id; readonly viewportId: Id; readonly sheet: Sheet }[],
): Edit {
  const [first] = sheets;
  const name = sheets.length === 1 && first ? `Add the sheet ${first.sheet.title}` : `Add ${sheets.length} sheets`;
  return editOf(
    job,
    name,
    sheets.flatMap(({ id, viewportId, sheet }) => [
      { table: "sheets" as const, id, after: sheet },
      { table: "viewports" as const, id: viewportId, after: wholePage(id, sheet.title) },
    ]),
  );
}

/** Gives a sheet another title. Problems: `edit.empty-name`, `edit.no-such-record`. */
export function setSheetTitle(job: Job, id: Id, title: string): Result<Edit> {
  if (title.trim() === "") return fail("edit.empty-name", `sheets/${id}/title`);
  return changeRecord(
    job,
    "sheets",
    id,
    (sheet) => `Call the sheet ${sheet.title} ${title.trim()}`,
    () => ({ title: title.trim() }),
  );
}

/** Adds a viewport for a part of a sheet (region in sheet space: x0, y0, x1, y1). Problems: `edit.no-such-record`, `edit.empty-region`, `edit.empty-name`. */
export function addViewport(
  job: Job,
  id: Id,
  { sheet, name, region }: { readonly sheet: Id; readonly name: string; readonly region: Viewport["region"] },
): Result<Edit> {
  if (!job.sheets[sheet]) return fail("edit.no-such-record", `sheets/${sheet}`, { id: sheet });
  if (name.trim() === "") return fail("edit.empty-name", `viewports/${id}/name`);
  const checked = soundRegion(`viewports/${id}/region`, region);
  if (!checked.ok) return checked;
  const after: Viewport = { ...wholePage(sheet, name.trim()), region: checked.value };
  return ok(editOf(job, `Add the viewport ${name.trim()}`, [{ table: "viewports", id, after }]));
}

/** Changes the name, the region or the storey of a viewport. Problems: `edit.no-such-record`, `edit.empty-region`, `edit.empty-name`. */
export function setViewport(
  job: Job,
  id: Id,
  patch: Partial<Pick<Viewport, "name" | "region" | "storey">>,
): Result<Edit> {
  if (patch.name !== undefined && patch.name.trim() === "") return fail("edit.empty-name", `viewports/${id}/name`);
  if (patch.storey != null && !job.storeys[patch.storey])
    return fail("edit.no-such-record", `storeys/${patch.storey}`, { id: patch.storey });
  const region = patch.region === undefined ? undefined : soundRegion(`viewports/${id}/region`, patch.region);
  if (region && !region.ok) return region;
  return changeRecord(
    job,
    "viewports",
    id,
    (viewport) => `Change the viewport ${viewport.name}`,
    () => ({
      ...patch,
      ...(patch.name === undefined ? {} : { name: patch.name.trim() }),
      ...(region === undefined ? {} : { region: region.value }),
    }),
  );
}

/** The region with its lower left corner first; refuses one without area. */
function soundRegion(where: string, region: Viewport["region"]): Result<Viewport["region"]> {
  if (region === null) return ok(null);
  const [x0, y0, x1, y1] = region;
  const finite = soundPoints(where, [
    [x0, y0],
    [x1, y1],
  ]);
  if (!finite.ok) return finite;
  if (x0 === x1 || y0 === y1) return fail("edit.empty-region", where);
  return ok([Math.min(x0, x1), Math.min(y0, y1), Math.max(x0, x1), Math.max(y0, y1)]);
}
