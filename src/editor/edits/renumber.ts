import { type Edit, editOf } from "../../job/edit.ts";
import { inLabelOrder } from "../../job/label-order.ts";
import { LABELLED_TABLES, numbered } from "../../job/labels.ts";
import type { Job } from "../../job/schema.ts";
import { ok, type Result } from "../../units/problem.ts";
import { outlineOf, sheetOfRecord } from "../handles.ts";
import { asDisplayed } from "../parse-position.ts";
import type { Picked } from "../selection.ts";
import { sheetsInOrder } from "../sheet-order.ts";
import { withoutIdle } from "./change.ts";

/** In what order labels are counted: sheet by sheet and there in rows from the top, each from the left; or as the things were selected. */
export type LabelOrder = "place" | "selection";

/** A thing with the label it has and the one it would get. */
interface Relabelled extends Picked {
  readonly from: string;
  readonly to: string;
}

/** Things whose tops lie within so much of each other, as the page is displayed, are in one row: an inch on paper without a user unit of its own. */
const ROW = 72;

/**
 * The labels things would get if each letter were counted from 1: those of things left out are passed over, and a label of a form of its own
 * stays what it is. In the order they are counted; those that keep their label included.
 */
export function relabelled(job: Job, things: readonly Picked[], order: LabelOrder): readonly Relabelled[] {
  const counted = (order === "place" ? byPlace(job, things) : things).filter(({ table, id }) =>
    numbered(job[table][id]?.label ?? ""),
  );
  const own = new Set(counted.map(({ table, id }) => `${table}/${id}`));
  const taken = new Set<string>();
  for (const table of LABELLED_TABLES)
    for (const id in job[table]) if (!own.has(`${table}/${id}`)) taken.add(job[table][id]!.label);
  const last = new Map<string, number>();
  return counted.map(({ table, id }) => {
    const from = job[table][id]!.label;
    const { letter } = numbered(from)!;
    let number = (last.get(letter) ?? 0) + 1;
    while (taken.has(`${letter}-${number}`)) number++;
    last.set(letter, number);
    return { table, id, from, to: `${letter}-${number}` };
  });
}

/** Gives things their labels anew, as one edit; the next label of each letter follows the largest that is then in use. Findings go by id and stay with their things. */
export function renumber(job: Job, things: readonly Picked[], order: LabelOrder): Result<Edit> {
  const list = relabelled(job, things, order);
  const changed = list.filter(({ from, to }) => from !== to);
  const given: Record<string, number> = { ...job.settings.job.labelsGiven };
  for (const { from } of changed) delete given[numbered(from)!.letter];
  const to = new Map(list.map((one) => [`${one.table}/${one.id}`, one.to]));
  for (const table of LABELLED_TABLES)
    for (const id in job[table]) {
      const label = numbered(to.get(`${table}/${id}`) ?? job[table][id]!.label);
      if (label && changed.some(({ from }) => numbered(from)!.letter === label.letter))
        given[label.letter] = Math.max(given[label.letter] ?? 0, label.number);
    }
  const settings = { ...job.settings.job, labelsGiven: given };
  return ok(
    withoutIdle(
      editOf(job, `Renumber ${changed.length} ${changed.length === 1 ? "label" : "labels"}`, [
        ...changed.map(({ table, id, to: label }) => ({ table, id, after: { ...job[table][id]!, label } })),
        ...(changed.length > 0 ? [{ table: "settings" as const, id: "job", after: settings }] : []),
      ]),
    ),
  );
}

function byPlace(job: Job, things: readonly Picked[]): Picked[] {
  const sheets = new Map(sheetsInOrder(job).map((id, index) => [id, index]));
  const placed = things.flatMap((one) => {
    const record = job[one.table][one.id];
    const sheet = record && sheetOfRecord(job, record);
    if (!record || sheet === undefined) return [];
    const { min, max } = outlineOf(one.table, record);
    const back = ((360 - (job.sheets[sheet]?.rotate ?? 0)) % 360) as 0 | 90 | 180 | 270;
    const [a, b] = [asDisplayed(min, back), asDisplayed(max, back)];
    const [left, top] = [Math.min(a[0], b[0]), Math.max(a[1], b[1])];
    return [{ one, sheet: sheets.get(sheet) ?? 0, row: Math.floor(-top / ROW), left, label: record.label }];
  });
  return placed
    .toSorted((a, b) => a.sheet - b.sheet || a.row - b.row || a.left - b.left || inLabelOrder(a.label, b.label))
    .map(({ one }) => one);
}
