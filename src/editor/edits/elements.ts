import { type Edit, editOf } from "../../job/edit.ts";
import type { Box } from "../../job/elements/box.ts";
import { type Element, namedBy, tagsOf } from "../../job/elements/element.ts";
import type { Entry } from "../../job/elements/entry.ts";
import type { Fitting } from "../../job/elements/fitting.ts";
import type { Run } from "../../job/elements/run.ts";
import { type ElementFacts, type Id, NO_FACTS, type Tag } from "../../job/fields.ts";
import { nextLabel } from "../../job/labels.ts";
import type { Job } from "../../job/schema.ts";
import { fail, ok, type Result } from "../../units/problem.ts";
import { changeRecord } from "./change.ts";
import { allSound, soundElevation, soundPoints, soundSize, soundThickness } from "./sound.ts";

/** Adds a run by its vertices in sheet space. Problems: `run.too-few-vertices`, `run.no-length`, `edit.not-finite`, `edit.no-such-record`. */
export function addRun(
  job: Job,
  id: Id,
  { viewport, wiring, vertices }: Pick<Run, "viewport" | "wiring" | "vertices">,
): Result<Edit> {
  const where = `elements/${id}`;
  const sound = allSound(soundVertices(where, vertices), soundSize(`${where}/wiring`, wiring.outsideDiameter));
  if (!sound.ok) return sound;
  const label = nextLabel(job, "run");
  return added(job, id, `Trace ${label}`, { kind: "run", label, viewport, wiring, vertices, facts: NO_FACTS });
}

/** Adds a box at its centre in sheet space. Problems: `edit.not-finite`, `edit.no-such-record`. */
export function addBox(
  job: Job,
  id: Id,
  box: Pick<Box, "viewport" | "at" | "item" | "cover"> & Partial<Pick<Box, "size" | "rotationDeg" | "tag">>,
): Result<Edit> {
  const sound = soundPoints(`elements/${id}/at`, [box.at]);
  if (!sound.ok) return sound;
  const label = nextLabel(job, "box");
  const { viewport, at, item, cover, size = null, rotationDeg = 0, tag = null } = box;
  const after: Box = { kind: "box", label, viewport, at, item, size, cover, rotationDeg, tag, facts: NO_FACTS };
  return added(job, id, `Place ${label}`, after);
}

/** Adds a fitting at its centre in sheet space. Problems: `edit.not-finite`, `edit.no-such-record`. */
export function addFitting(
  job: Job,
  id: Id,
  fitting: Pick<Fitting, "viewport" | "at" | "item" | "tradeSize"> &
    Partial<Pick<Fitting, "size" | "rotationDeg" | "tag">>,
): Result<Edit> {
  const sound = soundPoints(`elements/${id}/at`, [fitting.at]);
  if (!sound.ok) return sound;
  const label = nextLabel(job, "fitting");
  const { viewport, at, item, tradeSize, size = null, rotationDeg = 0, tag = null } = fitting;
  const after: Fitting = {
    kind: "fitting",
    label,
    viewport,
    at,
    item,
    tradeSize,
    size,
    rotationDeg,
    tag,
    facts: NO_FACTS,
  };
  return added(job, id, `Place ${label}`, after);
}

/** Adds a conductor entry at the end of a raceway, sheet space; what is left out is not recorded. Problems: `edit.not-finite`, `edit.no-such-record`. */
export function addEntry(
  job: Job,
  id: Id,
  entry: Pick<Entry, "viewport" | "at"> & Partial<Omit<Entry, "kind" | "label">>,
): Result<Edit> {
  const sound = soundPoints(`elements/${id}/at`, [entry.at]);
  if (!sound.ok) return sound;
  const label = nextLabel(job, "entry");
  const after: Entry = {
    kind: "entry",
    label,
    run: null,
    enclosure: { is: "not-recorded" },
    conductor: null,
    insulation: null,
    protection: { is: "not-recorded" },
    fastened: null,
    beforePulling: null,
    ...entry,
  };
  return added(job, id, `Place ${label}`, after);
}

/** Adds an element as it is. Problem: `edit.no-such-record` where its viewport, a storey its tags are counted from or an element it names is not there. */
export function added(job: Job, id: Id, name: string, after: Element): Result<Edit> {
  const storeys = tagsOf(after).flatMap(({ tag }) => (tag?.datum.from === "storey" ? [tag.datum.storey] : []));
  const named = [
    { table: "viewports" as const, id: after.viewport },
    ...storeys.map((storey) => ({ table: "storeys" as const, id: storey })),
    ...namedBy(after).map((one) => ({ table: "elements" as const, id: one.id })),
  ];
  const unknown = named.find((one) => !Object.hasOwn(job[one.table], one.id));
  if (unknown) return fail("edit.no-such-record", `${unknown.table}/${unknown.id}`, { id: unknown.id });
  return ok(editOf(job, name, [{ table: "elements", id, after }]));
}

/** Whether vertices make a line at all. Problems: `run.too-few-vertices`, `run.no-length`, `edit.not-finite`. */
export function soundVertices(where: string, vertices: Run["vertices"]): Result<null> {
  if (vertices.length < 2) return fail("run.too-few-vertices", where, { count: vertices.length });
  const [first, ...rest] = vertices;
  // Two vertices at one place are a vertical drop where their tags differ; a run that goes nowhere at all is a slip.
  const nowhere = rest.every(
    ({ at, tag }) => at[0] === first!.at[0] && at[1] === first!.at[1] && (tag === null || first!.tag === null),
  );
  if (nowhere) return fail("run.no-length", where);
  return soundPoints(
    where,
    vertices.map(({ at }) => at),
  );
}

/** Changes the raceway or cable of a run. Problems: `edit.not-positive`, `edit.not-a` (the element has no wiring of its own). */
export function setWiring(job: Job, id: Id, wiring: Partial<Run["wiring"]>): Result<Edit> {
  const where = `elements/${id}/wiring`;
  const element = job.elements[id];
  if (element && !("wiring" in element)) return fail("edit.not-a", where, { label: element.label });
  const sound = soundSize(where, wiring.outsideDiameter ?? null);
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "elements",
    id,
    ({ label }) => `Change the wiring of ${label}`,
    (record) => ({ wiring: { ...(record as Run).wiring, ...wiring } }),
  );
}

/** What can be changed of a thing placed at a point; a field the element does not have is refused. */
export type ItemPatch = Partial<
  Pick<Box, "item" | "cover" | "rotationDeg"> & Pick<Fitting, "tradeSize"> & { size: Box["size"] | Fitting["size"] }
>;

/** Changes what a box or fitting is, its own size, its cover or its turn. Problems: `edit.not-a`, `edit.not-positive`, `edit.not-finite`. */
export function setItem(job: Job, id: Id, patch: ItemPatch): Result<Edit> {
  const where = `elements/${id}`;
  const element = job.elements[id];
  if (element && !Object.keys(patch).every((key) => Object.hasOwn(element, key)))
    return fail("edit.not-a", where, { label: element.label });
  if (patch.rotationDeg !== undefined && !Number.isFinite(patch.rotationDeg)) return fail("edit.not-finite", where);
  const sound = allSound(...Object.values(patch.size ?? {}).map((length) => soundSize(`${where}/size`, length)));
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "elements",
    id,
    ({ label }) => `Change ${label}`,
    () => patch as object,
  );
}

/** Records facts of an element; null takes a fact back to "not recorded". Problems: `edit.not-finite`, `edit.negative`, `edit.not-a` (its kind has other facts). */
export function setFacts(job: Job, id: Id, facts: Partial<ElementFacts>): Result<Edit> {
  const element = job.elements[id];
  if (element && !("facts" in element)) return fail("edit.not-a", `elements/${id}/facts`, { label: element.label });
  const sound = soundThickness(`elements/${id}/facts/concreteThickness`, facts.concreteThickness ?? null);
  if (!sound.ok) return sound;
  return changeRecord(
    job,
    "elements",
    id,
    ({ label }) => `Record facts of ${label}`,
    (record) => ("facts" in record ? { facts: { ...record.facts, ...facts } } : {}),
  );
}

/**
 * Sets the elevation tag of an element: of one vertex (counted from 0), or of all of them; of a thing placed at a point, its one tag.
 * Null removes it. Problems: `edit.no-such-vertex`, `edit.no-such-record`, `edit.not-finite`, `edit.negative`.
 */
export function setTag(job: Job, id: Id, vertex: number | "all", tag: Tag | null): Result<Edit> {
  const where = `elements/${id}`;
  const element = job.elements[id];
  if (element && tagsOf(element).length === 0) return fail("edit.not-a", where, { label: element.label });
  if (tag?.datum.from === "storey" && !job.storeys[tag.datum.storey])
    return fail("edit.no-such-record", `storeys/${tag.datum.storey}`, { id: tag.datum.storey });
  const sound = allSound(soundElevation(where, tag?.length ?? null), soundThickness(where, tag?.plusMinus ?? null));
  if (!sound.ok) return sound;
  if (element && vertex !== "all" && (vertex < 0 || vertex >= ("vertices" in element ? element.vertices.length : 1)))
    return fail("edit.no-such-vertex", where, { label: element.label, vertex });
  return changeRecord(
    job,
    "elements",
    id,
    ({ label }) => (tag === null ? `Remove an elevation tag of ${label}` : `Set an elevation tag of ${label}`),
    (record) =>
      "vertices" in record
        ? { vertices: record.vertices.map((one, i) => (vertex === "all" || i === vertex ? { ...one, tag } : one)) }
        : { tag },
  );
}
