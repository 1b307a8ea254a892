import { Button } from "react-aria-components";
import type { Tag } from "../../job/fields.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { tagBasisChoices } from "../words.ts";
import { ChoiceRow } from "./ChoiceRow.tsx";
import { LengthRow } from "./LengthRow.tsx";
import { PickRow } from "./PickRow.tsx";

interface TagFieldsProps {
  readonly tag: Tag | null;
  readonly onChange: (tag: Tag | null) => void;
  /** The storey that AFF counts from unless the person says otherwise. */
  readonly storey: string | null;
}

/** The parts of an elevation tag: how high, to which surface, counted from what, and how far it may be off. */
export function TagFields({ tag, onChange, storey }: TagFieldsProps) {
  const system = useSystem();
  const datums = useTagDatums();
  const { session } = useDesk();
  const fresh = (): Tag => ({
    length: { value: 0, unit: system === "metric" ? "mm" : "in" },
    datum: startDatum(storey ?? Object.keys(session.getState().job.storeys)[0] ?? null),
    basis: "bottom",
    plusMinus: null,
  });
  return (
    <div className="rows">
      <LengthRow
        label="Elevation"
        value={tag?.length ?? null}
        system={system}
        empty="Not recorded"
        onCommit={(length) => onChange(length === null ? null : { ...(tag ?? fresh()), length })}
      />
      {tag && (
        <>
          <PickRow
            label="Given to"
            value={tag.basis}
            options={tagBasisChoices}
            onChange={(basis) => onChange({ ...tag, basis })}
          />
          <ChoiceRow
            label="Counted from"
            value={datumKey(tag.datum)}
            options={datums}
            onChange={(key) => onChange({ ...tag, datum: datumOf(key) })}
          />
          <LengthRow
            label="May be off, each way"
            value={tag.plusMinus}
            system={system}
            empty="The job's tolerance"
            onCommit={(plusMinus) => onChange({ ...tag, plusMinus })}
          />
          <Button className="button bare small" onPress={() => onChange(null)}>
            Remove the tag
          </Button>
        </>
      )}
    </div>
  );
}

const startDatum = (storey: string | null): Tag["datum"] =>
  storey === null ? { from: "project" } : { from: "storey", storey };

/** A datum as the key of a choice. */
export const datumKey = (datum: Tag["datum"]): string =>
  datum.from === "storey" ? `storey:${datum.storey}` : datum.from;
/** The datum of such a key. */
export const datumOf = (key: string): Tag["datum"] =>
  key.startsWith("storey:")
    ? { from: "storey", storey: key.slice(7) }
    : key === "below-deck"
      ? { from: "below-deck" }
      : { from: "project" };

/** What a tag of wiring may be counted from in this job. */
function useTagDatums() {
  return [...useDatums(), { id: "below-deck", label: "The deck above, downwards" }];
}

/** What an elevation may be counted from in this job. */
export function useDatums() {
  const storeys = useSession((state) => state.job.storeys);
  return [
    ...Object.entries(storeys).map(([id, { name }]) => ({ id: `storey:${id}`, label: `Finished floor of ${name}` })),
    { id: "project", label: "Project datum" },
  ];
}
