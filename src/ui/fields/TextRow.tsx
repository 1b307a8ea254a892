import { useEffect, useRef, useState } from "react";
import { FieldError, Input, Label, Text, TextField } from "react-aria-components";

/** What a typed text came to: a value to keep, or words that say what is wrong and what to do. */
export type Reading = { readonly ok: true } | { readonly ok: false; readonly words: string };

interface TextRowProps {
  readonly label: string;
  readonly value: string;
  /** Called when the person leaves the field or presses Enter, with the text as typed. Refused text stays in the field. */
  readonly onCommit: (text: string) => Reading | undefined;
  readonly placeholder?: string;
  /** A line under the field: what the value is read as, or where it comes from. */
  readonly note?: string | undefined;
  readonly type?: "text" | "password";
  readonly autoFocus?: boolean;
  readonly isDisabled?: boolean;
}

/** One labelled line of text that is kept on Enter or on leaving it; Escape puts back what was kept. */
export function TextRow({ label, value, onCommit, placeholder, note, type, autoFocus, isDisabled }: TextRowProps) {
  const [text, setText] = useState(value);
  const [wrong, setWrong] = useState<string>();
  const kept = useRef(value);
  useEffect(() => {
    kept.current = value;
    setText(value);
    setWrong(undefined);
  }, [value]);
  const commit = () => {
    if (text === kept.current) return setWrong(undefined);
    const reading = onCommit(text);
    if (reading && !reading.ok) return setWrong(reading.words);
    setWrong(undefined);
    kept.current = text;
  };
  return (
    <TextField
      className="row"
      value={text}
      onChange={setText}
      onBlur={commit}
      isInvalid={wrong !== undefined}
      isDisabled={isDisabled ?? false}
      type={type ?? "text"}
      autoFocus={autoFocus ?? false}
      onKeyDown={(event) => {
        if (event.key === "Enter") commit();
        else if (event.key === "Escape" && text !== kept.current) {
          setText(kept.current);
          setWrong(undefined);
        } else event.continuePropagation();
      }}
    >
      <Label>{label}</Label>
      <Input placeholder={placeholder ?? ""} spellCheck={false} autoComplete="off" />
      {note !== undefined && wrong === undefined && <Text slot="description">{note}</Text>}
      <FieldError>{wrong}</FieldError>
    </TextField>
  );
}
