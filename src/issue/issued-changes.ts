import type { Job } from "../job/schema.ts";
import { type MarkChange, readMarkChanges } from "../pdf/write/mark-changes.ts";
import { ok, type Problem, type Result } from "../units/problem.ts";
import { MARK_NAME } from "./mark-annotations.ts";

/** What a change to an annotation offers to do in the job: nothing is done by itself. */
export type IssuedOffer =
  /** Move the record by so much, sheet space. */
  | { readonly to: "move"; readonly table: ChangedTable; readonly id: string; readonly by: readonly [number, number] }
  | { readonly to: "delete"; readonly table: ChangedTable; readonly id: string }
  /** Keep the answer with the record. */
  | {
      readonly to: "answer";
      readonly table: ChangedTable;
      readonly id: string;
      readonly author: string;
      readonly text: string;
    };

/** The tables whose records our marks are of. */
export type ChangedTable = "areas" | "elements" | "storeyOutlines" | "notes";

/** One thing another program did to our annotations, in words to be shown, and what the job could take of it. */
export interface IssuedChange {
  readonly told: Problem;
  readonly offer: IssuedOffer | undefined;
}

const TABLES: Readonly<Record<string, ChangedTable>> = {
  area: "areas",
  element: "elements",
  finding: "elements",
  storey: "storeyOutlines",
  note: "notes",
};

/** What other programs did to the marks of an issued PDF: moved, deleted, written over or answered. `attachment`: the name its job travels under. */
export function issuedChanges(
  bytes: Uint8Array,
  job: Job,
  attachment: string,
  password?: string,
): Result<IssuedChange[]> {
  const changes = readMarkChanges(bytes, attachment, password);
  return changes.ok ? ok(changes.value.map((change) => changeOf(change, job))) : changes;
}

/** The record a mark is of: `underside:element:ID`, with what follows for a label or a verdict. */
function recordOf(name: string, job: Job) {
  const [kind, rest = ""] = name.slice(MARK_NAME.length).split(/:(.*)/s);
  const table = TABLES[kind ?? ""];
  const id = rest.split(/[:#@]/)[0] ?? "";
  const record = table && (job[table] as Readonly<Record<string, { readonly label: string }>> | undefined)?.[id];
  return table && record
    ? { table, id, label: record.label, isWhole: kind !== "finding" && !/[#@]/.test(rest) }
    : undefined;
}

function changeOf(change: MarkChange, job: Job): IssuedChange {
  const record = recordOf(change.name, job);
  const what = record?.label || change.name;
  const { page } = change;
  switch (change.is) {
    case "moved": {
      const [x, y] = [change.to[0] - change.from[0], change.to[1] - change.from[1]];
      const grown =
        Math.abs(change.to[2] - change.from[2] - x) > 0.5 || Math.abs(change.to[3] - change.from[3] - y) > 0.5;
      return {
        told: { code: grown ? "issue.mark-reshaped" : "issue.mark-moved", where: change.name, params: { what, page } },
        offer: record?.isWhole && !grown ? { to: "move", table: record.table, id: record.id, by: [x, y] } : undefined,
      };
    }
    case "deleted":
      return {
        told: { code: "issue.mark-deleted", where: change.name, params: { what, page } },
        offer: record?.isWhole ? { to: "delete", table: record.table, id: record.id } : undefined,
      };
    case "edited":
      return {
        told: { code: "issue.mark-edited", where: change.name, params: { what, page, text: change.text } },
        offer: undefined,
      };
    case "answered": {
      const { author, state } = change;
      const text = change.text || state;
      const params = { what, page, author: author || "Somebody", text };
      return {
        told: { code: "issue.mark-answered", where: change.name, params },
        offer: record && { to: "answer", table: record.table, id: record.id, author, text },
      };
    }
  }
}
