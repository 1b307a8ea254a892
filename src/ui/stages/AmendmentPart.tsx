import { Button } from "react-aria-components";
import type { Settings } from "../../job/schema.ts";
import { findRuleSet } from "../../rules/rule-sets.ts";
import { bothWays } from "../both-ways.ts";
import { useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { useChange } from "../use-change.ts";
import { AddedExceptionRows, startOfException } from "./AddedExceptionRows.tsx";

type Amendment = NonNullable<Settings["amendments"]>[number];

/** Local amendments to the edition, each with what it rests on and by whose decision. */
export function AmendmentPart() {
  const system = useSystem();
  const settings = useSession((state) => state.job.settings.job);
  const change = useChange("settings", "job");
  const set = findRuleSet(settings.edition);
  const amendments = settings.amendments ?? [];
  const keep = (next: readonly Amendment[]) => {
    const { amendments: _before, ...rest } = settings;
    change("Change the local amendments", () => (next.length === 0 ? rest : { ...rest, amendments: [...next] }));
  };
  const replace = (index: number, next: Amendment) => keep(amendments.with(index, next));
  const needed = (text: string) =>
    text.trim() === ""
      ? { ok: false as const, words: "An amendment has to say this: the report cites it." }
      : undefined;
  return (
    <fieldset className="layers">
      <legend>Local amendments</legend>
      {amendments.map((amendment, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: an amendment is known by its place
        <div className="amendment" key={index}>
          {amendment.kind === "larger-clearance" ? (
            <LengthRow
              label="Larger clearance"
              value={amendment.clearance[system]}
              system={system}
              onCommit={(length) => length && replace(index, { ...amendment, clearance: bothWays(length) })}
            />
          ) : amendment.kind === "added-exception" ? (
            <AddedExceptionRows amendment={amendment} onChange={(next) => replace(index, next)} />
          ) : (
            <ChoiceRow
              label="Struck exception"
              value={amendment.exception}
              options={(set?.exceptions ?? []).map(({ id, label }) => ({ id, label }))}
              onChange={(exception) => replace(index, { ...amendment, exception })}
            />
          )}
          <TextRow
            label="It rests on"
            value={amendment.reason}
            placeholder="Not recorded: the ordinance, the letter"
            onCommit={(text) => needed(text) ?? void replace(index, { ...amendment, reason: text.trim() })}
          />
          <TextRow
            label="By whose decision"
            value={amendment.authority}
            placeholder="Not recorded"
            onCommit={(text) => needed(text) ?? void replace(index, { ...amendment, authority: text.trim() })}
          />
          <Button className="button bare small" onPress={() => keep(amendments.toSpliced(index, 1))}>
            Remove this amendment
          </Button>
        </div>
      ))}
      <div className="acts">
        <Button
          className="button small"
          isDisabled={!set}
          onPress={() => set && keep([...amendments, { kind: "larger-clearance", clearance: set.clearance, ...OPEN }])}
        >
          Larger clearance
        </Button>
        <Button
          className="button small"
          isDisabled={!set?.exceptions[0]}
          onPress={() => {
            const exception = set?.exceptions[0]?.id;
            if (exception !== undefined) keep([...amendments, { kind: "struck-exception", exception, ...OPEN }]);
          }}
        >
          Strike an exception
        </Button>
        <Button
          className="button small"
          isDisabled={!set}
          onPress={() => keep([...amendments, { ...startOfException(), ...OPEN }])}
        >
          Add an exception
        </Button>
      </div>
    </fieldset>
  );
}

/** Nothing recorded yet; the check asks for both. */
const OPEN = { reason: "", authority: "" } as const;
