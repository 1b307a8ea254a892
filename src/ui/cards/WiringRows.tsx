import type { Run, TableOrOwn, Wiring } from "../../job/elements/run.ts";
import { findBendRadius } from "../../trade/bends.ts";
import { findFittingReach } from "../../trade/fittings.ts";
import { findRacewayKind, findRacewaySize } from "../../trade/raceways.ts";
import { formatLength } from "../../units/format-length.ts";
import type { Inches } from "../../units/quantity.ts";
import { useSystem } from "../desk-context.ts";
import { type Choice, ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { allRacewayChoices, sizeChoices } from "../trade-choices.ts";

/** What is recorded of a raceway: a run, or one of a rack. */
export type RacewayRecord = Pick<Run, "wiring" | "couplings" | "bends" | "droop">;

interface WiringRowsProps<R extends RacewayRecord> {
  readonly label: string;
  readonly raceway: R;
  readonly onChange: (name: string, raceway: R) => void;
}

/** Type, size and outside of a raceway, and what it has besides its tube. */
export function WiringRows<R extends RacewayRecord>({ label, raceway, onChange }: WiringRowsProps<R>) {
  const system = useSystem();
  const { type, tradeSize, outsideDiameter, section } = raceway.wiring;
  const kind = findRacewayKind(type);
  const row = findRacewaySize(type, tradeSize);
  const isRectangular = section !== undefined || row?.width !== undefined;
  const wire = (name: string, { section: own, ...wiring }: Partial<Wiring>, keep = false) => {
    const { section: before, ...now } = raceway.wiring;
    const sized = own ?? (keep ? before : undefined);
    onChange(name, { ...raceway, wiring: { ...now, ...wiring, ...(sized ? { section: sized } : {}) } });
  };
  const fallback = {
    width: { value: row?.width?.value ?? 4, unit: "in" },
    height: { value: row?.outside.value ?? 4, unit: "in" },
  } as const;
  const side = (which: "width" | "height", name: string) => {
    const table = which === "width" ? row?.width?.value : row?.outside.value;
    return (
      <LengthRow
        label={name}
        value={section?.[which] ?? null}
        system={system}
        empty={table === undefined ? "Not in the table" : `${formatLength(table, system)} by the table`}
        onCommit={(length) =>
          wire(
            `Change the section of ${label}`,
            length === null ? {} : { section: { ...(section ?? fallback), [which]: length } },
          )
        }
      />
    );
  };
  return (
    <>
      <div className="pair">
        <ChoiceRow
          label="Type"
          value={type}
          options={allRacewayChoices}
          onChange={(next) => {
            const sizes = findRacewayKind(next)?.sizes ?? [];
            const size = sizes.some((one) => one.size === tradeSize) ? tradeSize : (sizes[0]?.size ?? "");
            wire(`Change the type of ${label}`, { type: next, tradeSize: size, outsideDiameter: null });
          }}
        />
        <ChoiceRow
          label={kind?.elementClass === "cable" ? "Size" : "Trade size"}
          value={tradeSize}
          options={sizeChoices(type)}
          onChange={(next) => wire(`Change the size of ${label}`, { tradeSize: next, outsideDiameter: null })}
        />
      </div>
      {isRectangular ? (
        <div className="pair">
          {side("width", "Outside width")}
          {side("height", "Outside height")}
        </div>
      ) : (
        <LengthRow
          label="Outside diameter"
          value={outsideDiameter}
          system={system}
          empty={row ? `${formatLength(row.outside.value, system)} by the table` : "Not in the table"}
          note={kind?.variesByMaker ? "Differs by maker: give the one used." : undefined}
          onCommit={(length) => wire(`Change the diameter of ${label}`, { outsideDiameter: length }, true)}
        />
      )}
      <TableOrOwnRows
        label="Couplings and connectors"
        own="Outside diameter of the couplings"
        value={raceway.couplings}
        table={findFittingReach(type, tradeSize)?.outside.value}
        onChange={(couplings) => {
          const { couplings: _, ...rest } = raceway;
          onChange(`Record the couplings of ${label}`, { ...rest, ...(couplings ? { couplings } : {}) } as R);
        }}
      />
      {!isRectangular && (
        <TableOrOwnRows
          label="Bends at its vertices"
          own="Radius of the bends, to the centre line"
          value={raceway.bends}
          table={findBendRadius(tradeSize)?.radius.value}
          onChange={(bends) => {
            const { bends: _, ...rest } = raceway;
            onChange(`Record the bends of ${label}`, { ...rest, ...(bends ? { bends } : {}) } as R);
          }}
        />
      )}
      {(kind?.flexible || raceway.droop) && (
        <LengthRow
          label="Droop between supports"
          value={raceway.droop ?? null}
          system={system}
          empty="Not recorded"
          note="Never counted: it is highest at its supports."
          onCommit={(droop) => {
            const { droop: _, ...rest } = raceway;
            onChange(`Record the droop of ${label}`, { ...rest, ...(droop ? { droop } : {}) } as R);
          }}
        />
      )}
    </>
  );
}

interface TableOrOwnProps {
  readonly label: string;
  readonly own: string;
  readonly value: TableOrOwn | undefined;
  /** What the table says; undefined where it says nothing. */
  readonly table: Inches | undefined;
  readonly onChange: (value: TableOrOwn | undefined) => void;
}

/** A size that is not recorded, the table's, or one of its own. */
function TableOrOwnRows({ label, own, value, table, onChange }: TableOrOwnProps) {
  const system = useSystem();
  const options: Choice<"none" | TableOrOwn["is"]>[] = [
    { id: "none", label: "Not counted" },
    {
      id: "table",
      label: "By the table",
      note: table === undefined ? "The table has none for this size" : formatLength(table, system),
    },
    { id: "own", label: "With a size of their own" },
  ];
  return (
    <>
      <ChoiceRow
        label={label}
        value={value?.is ?? "none"}
        options={options}
        onChange={(is) => {
          const started = { value: table ?? 1, unit: "in" } as const;
          onChange(is === "none" ? undefined : is === "table" ? { is } : { is, length: started });
        }}
      />
      {value?.is === "own" && (
        <LengthRow
          label={own}
          value={value.length}
          system={system}
          onCommit={(length) => length && onChange({ is: "own", length })}
        />
      )}
    </>
  );
}
