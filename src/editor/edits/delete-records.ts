import { type Edit, editOf } from "../../job/edit.ts";
import { tagsOf, withoutNamed } from "../../job/elements/element.ts";
import type { Id } from "../../job/fields.ts";
import type { Job, TableName } from "../../job/schema.ts";
import { outlinesOf } from "../../job/storey-outline.ts";
import { fail, ok, type Problem, type Result } from "../../units/problem.ts";

/** A record that can be deleted. */
export interface Doomed {
  readonly table: Exclude<TableName, "settings">;
  readonly id: Id;
}

/**
 * Deletes records with everything that cannot be without them, as one edit: a sheet takes its viewports along, a viewport its areas and
 * elements; viewports registered on it stand alone again, entries keep what else is recorded of them, and areas follow from the outlines of
 * storeys that are left, nothing is left to look at of what is gone, and notes about it stay, about nothing. Problems: `edit.no-such-record`; `edit.storey-in-use` while elevations
 * are counted from a storey, since none of them may lose its datum in silence.
 */
export function deleteRecords(job: Job, doomed: readonly Doomed[]): Result<Edit> {
  const missing = doomed.find(({ table, id }) => !Object.hasOwn(job[table], id));
  if (missing) return fail("edit.no-such-record", `${missing.table}/${missing.id}`, { id: missing.id });
  const gone = (table: Doomed["table"]) => new Set(doomed.filter((one) => one.table === table).map(({ id }) => id));
  const sheets = gone("sheets");
  const viewports = new Set([...gone("viewports"), ...idsWhere(job.viewports, ({ sheet }) => sheets.has(sheet))]);
  const areas = new Set([...gone("areas"), ...idsWhere(job.areas, ({ viewport }) => viewports.has(viewport))]);
  const elements = new Set([...gone("elements"), ...idsWhere(job.elements, ({ viewport }) => viewports.has(viewport))]);
  const outlines = new Set([
    ...gone("storeyOutlines"),
    ...idsWhere(job.storeyOutlines, ({ viewport }) => viewports.has(viewport)),
  ]);
  const storeys = gone("storeys");
  const inUse = [...storeys].flatMap((id): Problem[] => {
    const count =
      idsWhere(job.areas, ({ elevation: { datum } }) => datum.from === "storey" && datum.storey === id).filter(
        (area) => !areas.has(area),
      ).length +
      idsWhere(job.elements, (element) =>
        tagsOf(element).some(({ tag }) => tag?.datum.from === "storey" && tag.datum.storey === id),
      ).filter((element) => !elements.has(element)).length;
    return count === 0
      ? []
      : [{ code: "edit.storey-in-use", where: `storeys/${id}`, params: { storey: job.storeys[id]!.name, count } }];
  });
  if (inUse.length > 0) return { ok: false, problems: inUse };

  const deleted = (table: Doomed["table"], ids: Iterable<Id>) => [...ids].map((id) => ({ table, id, after: null }));
  const loosened = Object.entries(job.viewports).flatMap(([id, viewport]) => {
    if (viewports.has(id)) return [];
    const registration =
      viewport.registration && viewports.has(viewport.registration.to) ? null : viewport.registration;
    const storey = viewport.storey !== null && storeys.has(viewport.storey) ? null : viewport.storey;
    if (registration === viewport.registration && storey === viewport.storey) return [];
    return [{ table: "viewports" as const, id, after: { ...viewport, registration, storey } }];
  });
  const unnamed = Object.entries(job.elements).flatMap(([id, element]) => {
    const after = elements.has(id) ? element : withoutNamed(element, elements);
    return after === element ? [] : [{ table: "elements" as const, id, after }];
  });
  const left = Object.entries(job.areas).flatMap(([id, area]) => {
    const { classification } = area;
    if (areas.has(id) || !outlinesOf(classification).some((one) => outlines.has(one))) return [];
    const named = outlinesOf(classification).filter((one) => !outlines.has(one));
    return [
      { table: "areas" as const, id, after: { ...area, classification: { ...classification, outlines: named } } },
    ];
  });
  const notes = new Set([...gone("notes"), ...idsWhere(job.notes, ({ sheet }) => sheets.has(sheet))]);
  const vanished = { elements, areas, storeyOutlines: outlines };
  const looked = Object.entries(job.sheets).flatMap(([id, { toLookAt, ...sheet }]) => {
    const rest = toLookAt?.filter((one) => !vanished[one.table].has(one.id));
    if (sheets.has(id) || rest === undefined || rest.length === toLookAt?.length) return [];
    return [{ table: "sheets" as const, id, after: rest.length > 0 ? { ...sheet, toLookAt: rest } : sheet }];
  });
  const aboutNothing = Object.entries(job.notes).flatMap(([id, { about, ...note }]) =>
    notes.has(id) || !about || !vanished[about.table].has(about.id)
      ? []
      : [{ table: "notes" as const, id, after: note }],
  );
  return ok(
    editOf(job, nameOf(job, doomed), [
      ...looked,
      ...aboutNothing,
      ...unnamed,
      ...left,
      ...deleted("elements", elements),
      ...deleted("areas", areas),
      ...deleted("storeyOutlines", outlines),
      ...deleted("notes", notes),
      ...loosened,
      ...deleted("viewports", viewports),
      ...deleted("sheets", sheets),
      ...deleted("storeys", storeys),
    ]),
  );
}

/** Takes a sheet out of the job, with everything that lies on it. */
export const removeSheet = (job: Job, id: Id): Result<Edit> => deleteRecords(job, [{ table: "sheets", id }]);

const idsWhere = <T>(table: Readonly<Record<Id, T>>, test: (record: T) => boolean): Id[] =>
  Object.entries(table).flatMap(([id, record]) => (test(record) ? [id] : []));

function nameOf(job: Job, doomed: readonly Doomed[]): string {
  const [one] = doomed;
  if (!one || doomed.length > 1) return `Delete ${doomed.length} things`;
  const record = job[one.table][one.id]!;
  return `Delete ${"label" in record ? record.label : "title" in record ? record.title : record.name}`;
}
