import { formatLength } from "../../units/format-length.ts";
import { type Length, toInches, type UnitSystem } from "../../units/length.ts";
import { parseLength } from "../../units/parse-length.ts";
import { allProblemWords } from "../problem-words.ts";
import { TextRow } from "./TextRow.tsx";

interface LengthRowProps {
  readonly label: string;
  readonly value: Length | null;
  readonly system: UnitSystem;
  readonly onCommit: (length: Length | null) => void;
  /** What an empty field means ("takes the table's 1 1/2""); without it the field may not be emptied. */
  readonly empty?: string | undefined;
  readonly note?: string | undefined;
  readonly autoFocus?: boolean;
}

/** The length as it is shown in a field: in the unit it was given in, feet with inches as the trade writes them. */
export function shownLength(length: Length, system: UnitSystem): string {
  if (length.unit === "mm" || length.unit === "m") return `${length.value} ${length.unit}`;
  return formatLength(toInches(length), length.unit === "in" || length.unit === "ft" ? "imperial" : system);
}

/** One labelled length, read as people write it and kept with its unit. A number alone is taken as inches, or mm in a metric job. */
export function LengthRow({ label, value, system, onCommit, empty, note, autoFocus }: LengthRowProps) {
  return (
    <TextRow
      label={label}
      value={value ? shownLength(value, system) : ""}
      placeholder={empty ?? ""}
      note={note}
      autoFocus={autoFocus ?? false}
      onCommit={(text) => {
        if (text.trim() === "" && empty !== undefined) {
          onCommit(null);
          return { ok: true };
        }
        const read = parseLength(text, system === "metric" ? "mm" : "in");
        if (!read.ok) return { ok: false, words: allProblemWords(read.problems) };
        onCommit(read.value);
        return { ok: true };
      }}
    />
  );
}
