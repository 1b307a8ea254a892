import type { Length } from "../../units/length.ts";
import { useSystem } from "../desk-context.ts";
import { LengthRow } from "../fields/LengthRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";

/** The turn of a box or fitting about the vertical, in degrees counter-clockwise. */
export function TurnRow({ value, onCommit }: { readonly value: number; readonly onCommit: (degrees: number) => void }) {
  return (
    <TextRow
      label="Turned by"
      value={`${value}°`}
      onCommit={(text) => {
        const degrees = Number(text.replace("°", "").trim());
        if (text.trim() === "" || !Number.isFinite(degrees))
          return { ok: false, words: `"${text}" is not an angle. Write degrees, such as 45.` };
        onCommit(degrees);
        return { ok: true };
      }}
    />
  );
}

interface SizeRowsProps<K extends string> {
  readonly names: Readonly<Record<K, string>>;
  readonly size: Readonly<Record<K, Length>> | null;
  /** What the table says, shown where no own size is given. */
  readonly table: Readonly<Record<K, string>> | undefined;
  readonly fallback: Readonly<Record<K, Length>>;
  readonly onChange: (size: Record<K, Length> | null) => void;
}

/** Three lengths of an element's own, or the table's. Emptying one goes back to the table's. */
export function SizeRows<K extends string>({ names, size, table, fallback, onChange }: SizeRowsProps<K>) {
  const system = useSystem();
  return (
    <div className="triple">
      {(Object.keys(names) as K[]).map((key) => (
        <LengthRow
          key={key}
          label={names[key]}
          value={size?.[key] ?? null}
          system={system}
          empty={table?.[key] ?? "Needed"}
          onCommit={(length) => onChange(length === null ? null : { ...(size ?? fallback), [key]: length })}
        />
      ))}
    </div>
  );
}
