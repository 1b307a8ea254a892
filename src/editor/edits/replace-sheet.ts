import type { Point2 } from "../../geometry/point.ts";
import { mapBy, type Similarity } from "../../geometry/similarity.ts";
import { type Edit, editOf } from "../../job/edit.ts";
import type { Id } from "../../job/fields.ts";
import type { Job, RecordOf, Sheet, TableName, Viewport } from "../../job/schema.ts";
import type { EarlierIssue, ToLookAt } from "../../job/sheet-issue.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { handlesOf, type ShapedTable } from "../handles.ts";
import { placedOn } from "../near.ts";

/** A new issue of a sheet and how it lies on the one there is. */
export interface NewIssue {
  readonly page: Pick<Sheet, "file" | "page" | "view" | "rotate" | "userUnit">;
  /** From the sheet space there is to that of the new issue. */
  readonly sim: Similarity;
  readonly by: EarlierIssue["laid"]["by"];
  /** Root mean square of what the alignment leaves, 1/72 in. of the new paper. */
  readonly residualPt: number;
  /** What there is to look at. */
  readonly toLookAt: readonly ToLookAt[];
}

/**
 * Replaces a sheet by a new issue of it. Everything in its sheet space is put where it lies on the new one: parts and their scales, shared points on
 * both sides of a registration, areas, storeys above and elements. A stated scale follows where the new issue is printed at another size, so that the building stays as it was. The issue there was is kept by its file and page. What was still to look at
 * from an earlier replacement stays to look at. Problems: `edit.no-such-record`, `edit.not-finite`, `edit.same-page`.
 */
export function replaceSheet(job: Job, id: Id, { page, sim, by, residualPt, toLookAt }: NewIssue): Result<Edit> {
  const sheet = job.sheets[id];
  if (!sheet) return fail("edit.no-such-record", `sheets/${id}`, { id });
  if (page.file.sha256 === sheet.file.sha256 && page.page === sheet.page)
    return fail("edit.same-page", `sheets/${id}`, { sheet: sheet.title });
  if (!(sim.scale > 0) || ![sim.scale, sim.angle, sim.dx, sim.dy].every(Number.isFinite))
    return fail("edit.not-finite", `sheets/${id}`);
  const map = mapBy(sim);
  const turnDeg = (sim.angle * 180) / Math.PI;
  const { file, page: number, view, rotate, userUnit, earlier = [], toLookAt: left = [], ...rest } = sheet;
  const laid = { by, scale: sim.scale, turnDeg, shift: [sim.dx, sim.dy] as [number, number], residualPt };
  const looks = merged(left, toLookAt);
  const after: Sheet = {
    ...rest,
    ...page,
    earlier: [...earlier, { file, page: number, view, rotate, userUnit, laid }],
    ...(looks.length > 0 ? { toLookAt: looks } : {}),
  };
  /** Paper of the new issue for paper of the old one. */
  const enlarged = (sim.scale * page.userUnit) / userUnit;
  const viewports = Object.entries(job.viewports).flatMap(([viewport, record]) => {
    const changed = movedViewport(job, record, id, map, enlarged);
    return changed === record ? [] : [{ table: "viewports" as const, id: viewport, after: changed }];
  });
  const things = placedOn(job, id).map((thing) => ({
    table: thing.table as TableName,
    id: thing.id,
    after: movedThing(thing.table, thing.record, map, turnDeg),
  }));
  return ok(
    editOf(job, `Replace ${sheet.title} by its new issue`, [{ table: "sheets", id, after }, ...viewports, ...things]),
  );
}

/** Takes something off the list of what a sheet's new issue left to look at. Problem: `edit.no-such-record`. */
export function lookedAt(job: Job, sheetId: Id, table: ToLookAt["table"], id: Id): Result<Edit> {
  const sheet = job.sheets[sheetId];
  const entry = sheet?.toLookAt?.some((one) => one.table === table && one.id === id);
  if (!sheet || !entry) return fail("edit.no-such-record", `${table}/${id}`, { id });
  const { toLookAt, ...rest } = sheet;
  const left = toLookAt!.filter((one) => one.table !== table || one.id !== id);
  const after: Sheet = left.length > 0 ? { ...rest, toLookAt: left } : rest;
  const label = (job[table][id] as { readonly label: string } | undefined)?.label ?? id;
  return ok(editOf(job, `Looked at ${label} on ${sheet.title}`, [{ table: "sheets", id: sheetId, after }]));
}

/** What was to look at before, and what is now: one entry for each thing, the later one where both have one. */
function merged(before: readonly ToLookAt[], now: readonly ToLookAt[]): ToLookAt[] {
  const key = ({ table, id }: ToLookAt) => `${table}/${id}`;
  return [...new Map([...before, ...now].map((one) => [key(one), one])).values()];
}

/** A viewport with what of it lies on the sheet moved; the same object where nothing does. */
function movedViewport(
  job: Job,
  viewport: Viewport,
  sheet: Id,
  map: (at: Point2) => Point2,
  enlarged: number,
): Viewport {
  const here = viewport.sheet === sheet;
  const link = viewport.registration;
  const there = link !== null && job.viewports[link.to]?.sheet === sheet;
  if (!here && !there) return viewport;
  const registration =
    link &&
    ({
      ...link,
      pairs: link.pairs.map((pair) => ({
        ...pair,
        here: here ? map(pair.here) : pair.here,
        there: there ? map(pair.there) : pair.there,
      })),
    } satisfies Viewport["registration"]);
  if (!here) return { ...viewport, registration };
  const { stated, measured, use } = viewport.scale;
  return {
    ...viewport,
    registration,
    region: viewport.region && movedRegion(viewport.region, map),
    ...(viewport.grid && {
      grid: viewport.grid.map(({ label, line: [a, b] }) => ({ label, line: [map(a), map(b)] as const })),
    }),
    scale: {
      use,
      stated: stated && resized(stated, enlarged),
      measured: measured && { ...measured, a: map(measured.a), b: map(measured.b) },
    },
  };
}

/** The rectangle round the corners; after quarter turns it is the rectangle itself. */
function movedRegion(
  [x0, y0, x1, y1]: NonNullable<Viewport["region"]>,
  map: (at: Point2) => Point2,
): Viewport["region"] {
  const corners = [map([x0, y0]), map([x1, y0]), map([x1, y1]), map([x0, y1])];
  const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
  return [Math.min(...xs), Math.min(...ys), Math.max(...xs), Math.max(...ys)];
}

/** Paper sizes this alike are one: what is left is the inaccuracy of the alignment. */
const SAME_SIZE = 1e-9;
const PRINTED_AT = /, printed at [\d.]+ %$/;

/** A stated scale on paper of another size: what is written on it does not hold there any more. */
function resized(
  { text, ratio }: NonNullable<Viewport["scale"]["stated"]>,
  enlarged: number,
): NonNullable<Viewport["scale"]["stated"]> {
  if (Math.abs(enlarged - 1) < SAME_SIZE) return { text, ratio };
  const before = Number(PRINTED_AT.exec(text)?.[0].replace(/[^\d.]/g, "") ?? 100);
  const percent = Number((before * enlarged).toPrecision(5));
  const plain = text.replace(PRINTED_AT, "");
  return { text: percent === 100 ? plain : `${plain}, printed at ${percent} %`, ratio: ratio / enlarged };
}

function movedThing<T extends ShapedTable>(
  table: T,
  record: RecordOf<T>,
  map: (at: Point2) => Point2,
  turnDeg: number,
): RecordOf<T> {
  const handles = handlesOf(table, record);
  const moved = handles.rebuilt(
    record,
    handles.strands(record).map(({ knots }) => knots.map((knot) => ({ ...knot, at: map(knot.at) }))),
  );
  // What is turned on the sheet turns with it.
  return "rotationDeg" in moved && turnDeg !== 0
    ? { ...moved, rotationDeg: within360(moved.rotationDeg + turnDeg) }
    : moved;
}

const within360 = (degrees: number): number => ((degrees % 360) + 360) % 360;
