import { Label, Radio, RadioGroup, Text } from "react-aria-components";
import type { Choice } from "./ChoiceRow.tsx";

interface PickRowProps<T extends string> {
  readonly label: string;
  readonly value: T | null;
  readonly options: readonly Choice<T>[];
  readonly onChange: (id: T) => void;
  readonly note?: string | undefined;
}

/** One of two to four, all of them in sight. */
export function PickRow<T extends string>({ label, value, options, onChange, note }: PickRowProps<T>) {
  return (
    <RadioGroup className="row picks" value={value ?? ""} onChange={(id) => onChange(id as T)}>
      <Label>{label}</Label>
      <div className="pick-list">
        {options.map((option) => (
          <Radio key={option.id} value={option.id} className="pick">
            {option.label}
          </Radio>
        ))}
      </div>
      {note !== undefined && <Text slot="description">{note}</Text>}
    </RadioGroup>
  );
}
