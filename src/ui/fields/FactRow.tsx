import { factAnswers } from "../words.ts";
import { PickRow } from "./PickRow.tsx";

type Answer = "yes" | "no" | "not-recorded";
const answerOf = (value: boolean | null): Answer => (value === null ? "not-recorded" : value ? "yes" : "no");
const factOf: Record<Answer, boolean | null> = { yes: true, no: false, "not-recorded": null };

interface FactRowProps {
  readonly label: string;
  readonly value: boolean | null;
  readonly onChange: (value: boolean | null) => void;
}

/** A fact that is known to be so, known not to be so, or not recorded: the third is an answer too. */
export function FactRow({ label, value, onChange }: FactRowProps) {
  return (
    <PickRow<Answer>
      label={label}
      value={answerOf(value)}
      options={factAnswers}
      onChange={(id) => onChange(factOf[id])}
    />
  );
}
