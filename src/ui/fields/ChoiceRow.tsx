import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue, Text } from "react-aria-components";

/** One thing to choose: its id, its words, and a second line where they need one. */
export interface Choice<T extends string> {
  readonly id: T;
  readonly label: string;
  readonly note?: string | undefined;
}

interface ChoiceRowProps<T extends string> {
  readonly label: string;
  readonly value: T | null;
  readonly options: readonly Choice<T>[];
  readonly onChange: (id: T) => void;
  /** Shown while nothing is chosen. */
  readonly placeholder?: string;
  readonly note?: string | undefined;
}

/** One of a list that may be long, chosen from a list that opens. */
export function ChoiceRow<T extends string>({ label, value, options, onChange, placeholder, note }: ChoiceRowProps<T>) {
  return (
    <Select
      className="row"
      value={value}
      onChange={(key) => key !== null && onChange(key as T)}
      placeholder={placeholder ?? "Choose"}
    >
      <Label>{label}</Label>
      <Button className="choice">
        <SelectValue />
        <svg aria-hidden="true" viewBox="0 0 10 6" width="10" height="6">
          <path d="M1 1l4 4 4-4" fill="none" stroke="currentColor" strokeWidth="1.5" strokeLinecap="round" />
        </svg>
      </Button>
      {note !== undefined && <Text slot="description">{note}</Text>}
      <Popover className="popover">
        <ListBox className="choices" items={options}>
          {(option) => (
            <ListBoxItem id={option.id} textValue={option.label}>
              <Text slot="label">{option.label}</Text>
              {option.note !== undefined && (
                <Text slot="description" className="second-line">
                  {option.note}
                </Text>
              )}
            </ListBoxItem>
          )}
        </ListBox>
      </Popover>
    </Select>
  );
}
