import type { EntryProtectionRecord } from "../../job/elements/entry.ts";
import { findRuleSet } from "../../rules/rule-sets.ts";
import { useSession } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { CardPart } from "./CardFrame.tsx";

interface EntryProtectionPartProps {
  readonly protection: EntryProtectionRecord;
  readonly onChange: (protection: EntryProtectionRecord) => void;
}

/** How the conductors are protected from the edge of the entry, by the ways the edition names. */
export function EntryProtectionPart({ protection, onChange }: EntryProtectionPartProps) {
  const edition = useSession((state) => state.job.settings.job.edition);
  const rule = findRuleSet(edition)?.entry;
  const methods = rule?.protections ?? [];
  const method = protection.is === "method" ? methods.find(({ id }) => id === protection.method) : undefined;
  return (
    <CardPart title="Protection">
      <div className="rows">
        <ChoiceRow
          label="By"
          value={protection.is === "method" ? `method:${protection.method}` : protection.is}
          options={[
            { id: "not-recorded", label: "Not recorded" },
            { id: "none", label: "None" },
            ...methods.map(({ id, label }) => ({ id: `method:${id}`, label })),
          ]}
          onChange={(key) =>
            onChange(
              key === "none" || key === "not-recorded"
                ? { is: key }
                : { is: "method", method: key.slice("method:".length), ratingC: null },
            )
          }
        />
        {protection.is === "method" && (method === undefined || method.temperatureRated) && (
          <TextRow
            label="Its temperature rating, °C"
            value={protection.ratingC === null ? "" : `${protection.ratingC}`}
            placeholder="Not recorded"
            onCommit={(text) => {
              const bare = text.replace(/[°\s]*c?$/i, "").trim();
              const ratingC = bare === "" ? null : Number(bare);
              if (ratingC !== null && !(ratingC > 0 && Number.isFinite(ratingC)))
                return { ok: false, words: `"${text}" is not a temperature. Write degrees Celsius, such as 105.` };
              onChange({ ...protection, ratingC });
              return { ok: true };
            }}
          />
        )}
        {rule?.notes.map((note) => (
          <p className="quiet" key={note}>
            {note}
          </p>
        ))}
      </div>
    </CardPart>
  );
}
