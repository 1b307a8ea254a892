import { moveVertex } from "../../editor/edits/vertices.ts";
import { outlineOf, type ShapedTable } from "../../editor/handles.ts";
import type { Point2 } from "../../geometry/point.ts";
import { applyTo, invert } from "../../geometry/similarity.ts";
import type { Id } from "../../job/fields.ts";
import { formatLength } from "../../units/format-length.ts";
import { toInches, type UnitSystem } from "../../units/length.ts";
import { parseLength } from "../../units/parse-length.ts";
import { inches } from "../../units/quantity.ts";
import { useSession, useSystem } from "../desk-context.ts";
import { type Reading, TextRow } from "../fields/TextRow.tsx";
import { allProblemWords } from "../problem-words.ts";
import { useAttempt } from "../use-attempt.ts";
import { useRegistration } from "../use-registration.ts";

interface PositionProps {
  readonly table: ShapedTable;
  readonly id: Id;
  /** Counted from 0 through all vertices of the record; 0 is the place of a thing that has but one. */
  readonly vertex: number;
}

/** Positions in the building are shown to this fraction of an inch, or to a millimetre; what is not typed over stays as exact as it is. */
const NEAREST: Readonly<Record<UnitSystem, number>> = { imperial: 1 / 16, metric: 1 };

/**
 * Where a vertex lies, to be typed: right and up from the origin of the building where the plan has a scale, else from the corner of
 * the sheet, in its own units of 1/72 in.
 */
export function PositionRows({ table, id, vertex }: PositionProps) {
  const system = useSystem();
  const attempt = useAttempt();
  const record = useSession((state) => state.job[table][id]);
  const registration = useRegistration(record && "viewport" in record ? record.viewport : null);
  const at = record && outlineOf(table, record).vertices[vertex];
  if (!at) return null;
  const place = registration ? applyTo(registration.sim, at) : at;
  const show = (n: number) =>
    registration ? formatLength(inches(n), system, { nearest: NEAREST[system] }) : `${Math.round(n * 100) / 100}`;
  const row = (axis: 0 | 1, label: string) => (
    <TextRow
      label={label}
      value={show(place[axis])}
      onCommit={(text): Reading => {
        const read = registration ? readLength(text, system) : readUnits(text);
        if (!read.ok) return read;
        const next = place.with(axis, read.value) as unknown as Point2;
        const to = registration ? applyTo(invert(registration.sim), next) : next;
        return attempt((job) => moveVertex(job, table, id, vertex, to));
      }}
    />
  );
  return (
    <div className="pair">
      {row(0, "Position, right")}
      {row(1, "Position, up")}
    </div>
  );
}

type Read = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly words: string };

function readLength(text: string, system: UnitSystem): Read {
  const length = parseLength(text, system === "metric" ? "mm" : "in");
  return length.ok
    ? { ok: true, value: toInches(length.value) }
    : { ok: false, words: allProblemWords(length.problems) };
}

function readUnits(text: string): Read {
  const value = Number(text.trim());
  return text.trim() !== "" && Number.isFinite(value)
    ? { ok: true, value }
    : { ok: false, words: `"${text}" is not a place on the sheet. Write a number, such as 540.` };
}
