import { useEffect, useRef, useState } from "react";
import { FieldError, Label, Text, TextArea, TextField } from "react-aria-components";
import type { Reading } from "./TextRow.tsx";

interface WordsRowProps {
  readonly label: string;
  readonly value: string;
  /** Called when the person leaves the field or presses Ctrl+Enter, with the text as typed. Refused text stays in the field. */
  readonly onCommit: (text: string) => Reading;
  readonly note?: string;
}

/** Several lines of text, kept on leaving them or on Ctrl+Enter; Enter begins a new line, Escape puts back what was kept. */
export function WordsRow({ label, value, onCommit, note }: WordsRowProps) {
  const [text, setText] = useState(value);
  const [wrong, setWrong] = useState<string>();
  const kept = useRef(value);
  const putBack = (to: string) => {
    setText(to);
    setWrong(undefined);
  };
  useEffect(() => {
    kept.current = value;
    setText(value);
    setWrong(undefined);
  }, [value]);
  const commit = () => {
    const reading: Reading = text === kept.current ? { ok: true } : onCommit(text);
    setWrong(reading.ok ? undefined : reading.words);
    if (reading.ok) kept.current = text;
  };
  return (
    <TextField className="row" value={text} onChange={setText} onBlur={commit} isInvalid={wrong !== undefined}>
      <Label>{label}</Label>
      <TextArea
        rows={Math.min(12, Math.max(3, text.split("\n").length))}
        onKeyDown={(event) => {
          if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) commit();
          else if (event.key === "Escape" && text !== kept.current) {
            event.stopPropagation();
            putBack(kept.current);
          }
        }}
      />
      {note !== undefined && wrong === undefined && <Text slot="description">{note}</Text>}
      <FieldError>{wrong}</FieldError>
    </TextField>
  );
}
