import { setSettings } from "../../editor/edits/settings.ts";
import { findRuleSet, ruleSets } from "../../rules/rule-sets.ts";
import { useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { useAttempt } from "../use-attempt.ts";
import { systemChoices, toleranceWords } from "../words.ts";
import { AmendmentPart } from "./AmendmentPart.tsx";

/** The job's name, its units, the edition that applies and by whose decision, and how far readings may be off. */
export function EditionPart() {
  const attempt = useAttempt();
  const system = useSystem();
  const settings = useSession((state) => state.job.settings.job);
  const set = findRuleSet(settings.edition);
  return (
    <section className="block">
      <h3>Job</h3>
      <div className="rows">
        <TextRow label="Name" value={settings.name} onCommit={(name) => attempt((job) => setSettings(job, { name }))} />
        <ChoiceRow
          label="Rule edition"
          value={set ? settings.edition : null}
          placeholder={settings.edition === "" ? "Not chosen" : `"${settings.edition}" is not known here`}
          options={ruleSets.map((one) => ({
            id: one.id,
            label: `${one.code}, ${one.edition} edition`,
            note: one.section,
          }))}
          onChange={(edition) => attempt((job) => setSettings(job, { edition }))}
        />
        <TextRow
          label="By whose decision"
          value={settings.editionBy}
          placeholder="Not recorded"
          note="Adoption is local and lags behind the newest edition."
          onCommit={(editionBy) => attempt((job) => setSettings(job, { editionBy }))}
        />
        <AmendmentPart />
        <PickRow
          label="Units"
          value={settings.system}
          options={systemChoices}
          onChange={(next) => attempt((job) => setSettings(job, { system: next }))}
        />
        <fieldset className="layers">
          <legend>Readings may be off by, each way</legend>
          <div className="triple">
            {(["tags", "decks", "plan"] as const).map((key) => (
              <LengthRow
                key={key}
                label={toleranceWords[key]}
                value={settings.tolerances[key]}
                system={system}
                onCommit={(length) =>
                  length &&
                  attempt((job) => setSettings(job, { tolerances: { ...settings.tolerances, [key]: length } }))
                }
              />
            ))}
          </div>
        </fieldset>
      </div>
    </section>
  );
}
