import { Button } from "react-aria-components";
import type { Settings } from "../../job/schema.ts";
import { conditionChoices } from "../../rules/condition-choices.ts";
import type { FactName, FactTest, Lifted } from "../../rules/rule-set.ts";
import { racewayKinds } from "../../trade/raceways.ts";
import { bothWays } from "../both-ways.ts";
import { useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { TickRow } from "../fields/TickRow.tsx";

type AddedException = Extract<NonNullable<Settings["amendments"]>[number], { kind: "added-exception" }>;

interface AddedExceptionRowsProps {
  readonly amendment: AddedException;
  readonly onChange: (next: AddedException) => void;
}

/** An exception added locally: what it is called, where it is written, what it lifts, and every condition it has. */
export function AddedExceptionRows({ amendment, onChange }: AddedExceptionRowsProps) {
  const { needs } = amendment;
  const free = conditionChoices.filter(({ fact }) => needs.every((need) => need.fact !== fact));
  const change = (part: Partial<AddedException>) => onChange({ ...amendment, ...part });
  return (
    <>
      <TextRow
        label="Added exception"
        value={amendment.label}
        onCommit={(text) => {
          if (text.trim() === "")
            return { ok: false, words: "An exception has to be called something: findings name it." };
          change({ label: text.trim() });
          return undefined;
        }}
      />
      <TextRow
        label="Section or ordinance"
        value={amendment.section}
        placeholder="Not recorded"
        onCommit={(text) => void change({ section: text.trim() })}
      />
      <PickRow<LiftChoice>
        label="It lifts"
        value={liftChoice(amendment.lifts)}
        options={LIFTS}
        onChange={(id) => change({ lifts: LIFTED[id] })}
      />
      {needs.map((need, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a condition is known by its place
        <fieldset className="layers" key={index}>
          <legend>{CONDITION_WORDS[need.fact]}</legend>
          <ConditionRow need={need} onChange={(next) => change({ needs: needs.with(index, next) })} />
          {needs.length > 1 && (
            <Button
              className="button bare small"
              aria-label={`Remove the condition: ${CONDITION_WORDS[need.fact]}`}
              onPress={() => change({ needs: needs.toSpliced(index, 1) })}
            >
              Remove this condition
            </Button>
          )}
        </fieldset>
      ))}
      {free.length > 0 && (
        <ChoiceRow<FactName>
          label="Another condition"
          value={null}
          placeholder="Choose: all of them have to hold"
          options={free.map(({ fact }) => ({ id: fact, label: CONDITION_WORDS[fact] }))}
          onChange={(fact) => change({ needs: [...needs, ...free.filter((choice) => choice.fact === fact)] })}
        />
      )}
    </>
  );
}

interface ConditionRowProps {
  readonly need: FactTest;
  readonly onChange: (next: FactTest) => void;
}

/** What one condition asks for: types of wiring, yes or no, or a least length. */
function ConditionRow({ need, onChange }: ConditionRowProps) {
  const system = useSystem();
  const { test } = need;
  if ("is" in test)
    return (
      <PickRow<"yes" | "no">
        label="Has to be"
        value={test.is ? "yes" : "no"}
        options={YES_NO}
        onChange={(id) => onChange({ ...need, test: { is: id === "yes" } })}
      />
    );
  if ("atLeast" in test)
    return (
      <LengthRow
        label="At least"
        value={test.atLeast[system]}
        system={system}
        onCommit={(length) => length && onChange({ ...need, test: { atLeast: bothWays(length) } })}
      />
    );
  const { oneOf } = test;
  return (
    <div className="ticks">
      {racewayKinds.map(({ id, short }) => (
        <TickRow
          key={id}
          label={short}
          isSelected={oneOf.includes(id)}
          onChange={(on) => {
            const next = on ? [...oneOf, id] : oneOf.filter((each) => each !== id);
            // A condition that no wiring meets would be no condition to record.
            if (next.length > 0) onChange({ ...need, test: { oneOf: next } });
          }}
        />
      ))}
    </div>
  );
}

/** An exception to begin with: the first condition there is to choose, and nothing said of where it comes from. */
export const startOfException = () => ({
  kind: "added-exception" as const,
  label: "Exception added locally",
  section: "",
  lifts: LIFTED.clearance,
  needs: conditionChoices.slice(0, 1),
});

const CONDITION_WORDS: Readonly<Record<FactName, string>> = {
  "element.class": "What the element is",
  "wiring.kind": "Type of wiring",
  "wiring.steelFittings": "Fittings and boxes listed, of steel or malleable iron",
  "deck.concreteCover": "Concrete on the deck",
  "element.inConcrete": "Cast in concrete",
  "element.concreteThickness": "Thickness of the concrete it is cast in",
  "element.accessible": "Box or conduit body accessible",
};

const YES_NO = [
  { id: "yes", label: "Yes" },
  { id: "no", label: "No" },
] as const;

type LiftChoice = Lifted | "both";
const LIFTS = [
  { id: "clearance", label: "The clearance" },
  { id: "concealment", label: "The ban on concealment" },
  { id: "both", label: "Both" },
] as const;
const LIFTED: Readonly<Record<LiftChoice, readonly Lifted[]>> = {
  clearance: ["clearance"],
  concealment: ["concealment"],
  both: ["clearance", "concealment"],
};
const liftChoice = (lifts: readonly Lifted[]): LiftChoice =>
  lifts.includes("clearance") ? (lifts.includes("concealment") ? "both" : "clearance") : "concealment";
