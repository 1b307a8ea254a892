import { apply, type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import { inLabelOrder } from "../../job/label-order.ts";
import type { Job, Sheet, Viewport } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { type Placed, placedOn } from "../near.ts";
import { viewportAt } from "../viewport-at.ts";
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

/** A name for the next part of a sheet that no viewport of it has: "Part 2 of A-131". */
export function nextPartName(job: Job, sheet: Id): string {
  const taken = new Set(partsOf(job, sheet).map(([, { name }]) => name));
  for (let n = 1; ; n++) {
    const name = `Part ${n} of ${job.sheets[sheet]?.title ?? sheet}`;
    if (!taken.has(name)) return name;
  }
}

/** The viewports of a sheet that hold a part of it, by name. */
export const partsOf = (job: Job, sheet: Id): readonly [Id, Viewport][] =>
  Object.entries(job.viewports)
    .filter(([, viewport]) => viewport.sheet === sheet && viewport.region !== null)
    .toSorted(([a, one], [b, other]) => inLabelOrder(one.name, other.name) || (a < b ? -1 : 1));

/**
 * Adds a viewport for a part of a sheet (region in sheet space: x0, y0, x1, y1). What has been traced on the sheet already, its first
 * point in the region, belongs to the new viewport from then on: it must not keep the scale of the plan beside it. Problems: `edit.no-such-record`, `edit.empty-region`, `edit.empty-name`.
 */
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
  const added: Job = { ...job, viewports: { ...job.viewports, [id]: after } };
  const taken =
    after.region === null ? [] : placedOn(job, sheet).filter((thing) => viewportOf(added, sheet, thing) === id);
  return ok(
    editOf(job, `Add the viewport ${name.trim()}`, [
      { table: "viewports", id, after },
      ...taken.map((thing) => ({ table: thing.table, id: thing.id, after: { ...thing.record, viewport: id } })),
    ]),
  );
}

/**
 * Changes the name, the region or the storey of a viewport. What has been traced where another viewport now is belongs to that one from then
 * on. Problems: `edit.no-such-record`, `edit.empty-region`, `edit.empty-name`.
 */
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
  const edit = changeRecord(
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
  const sheet = job.viewports[id]?.sheet;
  return edit.ok && region && sheet !== undefined ? ok(withThings(job, sheet, edit.value)) : edit;
}

/** An edit of a sheet's viewports with what it means for the things traced there: those in their own place follow the viewport of that place. */
function withThings(job: Job, sheet: Id, edit: Edit): Edit {
  const after = apply(job, edit);
  const moved = placedOn(job, sheet).flatMap((thing) => {
    const now = viewportOf(after, sheet, thing);
    const was = viewportOf(job, sheet, thing);
    return "viewport" in thing.record && was === thing.record.viewport && now !== null && now !== was
      ? [{ table: thing.table, id: thing.id, after: { ...thing.record, viewport: now } }]
      : [];
  });
  return editOf(job, edit.name, [...edit.changes, ...moved]);
}

/** The viewport that holds the first point of a thing; null for what belongs to its sheet alone. */
function viewportOf(job: Job, sheet: Id, { record, outline }: Placed): Id | null {
  const [first] = outline.vertices;
  return first && "viewport" in record ? viewportAt(job, sheet, first, record.viewport) : null;
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
