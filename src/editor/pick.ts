import { VERDICTS } from "../check/finding.ts";
import type { Point2 } from "../geometry/point.ts";
import { outlineOf, sheetOfRecord } from "./handles.ts";
import { enclosing, nearestSegment, nearestVertex, placedOn } from "./near.ts";
import type { Selection } from "./selection.ts";
import type { ToolContext } from "./tool.ts";

/**
 * What a click at `at` selects: a vertex of what is selected already, else what the mark under the pointer stands for (null: nothing),
 * else, where no mark was looked for, the nearest element in reach, the nearest note, the nearest edge of an area or of a storey's outline, the smallest of them around.
 */
export function pickAt(context: ToolContext, at: Point2, mark: string | null | undefined): Selection {
  const { job, selection, sheet, reach } = context;
  if (sheet === null) return null;
  if (selection && "table" in selection && selection.table !== "viewports") {
    const { table, id } = selection;
    const record = job[table][id];
    if (record && sheetOfRecord(job, record) === sheet) {
      const outline = outlineOf(table, record);
      const near = nearestVertex([{ table, id, record, outline }], at, reach);
      if (near) return outline.vertices.length === 1 ? { table, id } : { table, id, vertex: near.vertex };
    }
  }
  if (mark !== undefined) return mark === null ? null : selectionOfMark(mark, context);
  const things = placedOn(job, sheet);
  for (const table of ["elements", "notes", "areas", "storeyOutlines"] as const) {
    const of = (thing: { readonly table: string }) => thing.table === table;
    const near = [nearestVertex(things, at, reach, of), nearestSegment(things, at, reach, of)]
      .filter((one) => one !== undefined)
      .toSorted((a, b) => a.distance - b.distance)[0];
    if (near) return { table, id: near.thing.id };
  }
  const around = enclosing(things, at);
  return around ? { table: around.table, id: around.id } : null;
}

/** The thing a mark stands for: `area:ID`, `storey:ID`, `note:ID`, `element:ID`, `finding:ELEMENT-ID:VERDICT`, or that with `:ABOUT`; null when it is not in the job. */
export function selectionOfMark(key: string, { job }: Pick<ToolContext, "job">): Selection {
  const [layer, id = "", rest, about] = key.split(":");
  if (layer === "area") return id in job.areas ? { table: "areas", id } : null;
  if (layer === "storey") return id in job.storeyOutlines ? { table: "storeyOutlines", id } : null;
  if (layer === "note") return id in job.notes ? { table: "notes", id } : null;
  if (!(id in job.elements)) return null;
  if (layer === "element") return { table: "elements", id };
  const verdict = VERDICTS.find((one) => one === rest);
  return layer === "finding" && verdict
    ? { finding: { elementId: id, verdict, ...(about === undefined ? {} : { about }) } }
    : null;
}
