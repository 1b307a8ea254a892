import { useEffect, useRef, useState } from "react";
import { Button, Input, Label, TextField } from "react-aria-components";
import type { AskKind } from "../editor/tool.ts";
import { ASK_WORDS } from "../editor/words.ts";
import { useDesk, useSession } from "./desk-context.ts";
import { allProblemWords, problemWords } from "./problem-words.ts";

/** What the tool in hand wants next, a field for what may be typed, and what was refused. Nothing while no tool is in hand. */
export function PromptBar() {
  const { session, view } = useDesk();
  const prompt = useSession((state) => state.prompt);
  const tool = useSession((state) => state.tool.tool);
  const notice = useSession((state) => state.notice);
  // Dragged by a pointer a thing needs no words; moved by keys it waits for one.
  const moving = useSession(({ tool }) => tool.tool === "edit" && tool.moving?.by === "keys");
  if (tool === "edit" && !moving && !notice) return null;
  const press = (key: string) => () => {
    session.key({ key, shift: false, alt: false, ctrl: false });
    view.focusSheet();
  };
  return (
    <div className="prompt">
      <div>
        <div className="prompt-words">
          {(tool !== "edit" || moving) && <p role="status">{prompt}</p>}
          {notice && (
            <p className="refused" role="alert">
              {problemWords(notice)}
            </p>
          )}
        </div>
        {moving ? (
          <div className="prompt-tools">
            <TypedField />
            <Button className="button small" onPress={press("Enter")}>
              Done
            </Button>
            <Button className="button small" onPress={press("Escape")}>
              Put back
            </Button>
          </div>
        ) : tool !== "edit" ? (
          <div className="prompt-tools">
            <TypedField />
            <Button className="button small" onPress={press("Enter")}>
              Done
            </Button>
            <Button className="button small" onPress={press("Backspace")}>
              Back
            </Button>
            <Button
              className="button small"
              onPress={() => {
                session.start({ tool: "edit" });
                view.focusSheet();
              }}
            >
              Leave
            </Button>
          </div>
        ) : (
          <Button className="button small" onPress={() => session.notify(null)}>
            Close
          </Button>
        )}
      </div>
    </div>
  );
}

/** The label for the field, of all that may be typed but a position, which may be typed nearly always; and an example of the first. */
function typedWords(asks: readonly AskKind[]): { readonly label: string; readonly example: string } {
  const own = asks.filter((ask) => ask !== "position");
  const words = (own.length > 0 ? own : asks).map((ask) => ASK_WORDS[ask]);
  const [first = "", ...others] = words.map(({ label }) => label);
  return {
    label: [first, ...others.map((label) => label.toLowerCase())].join(" or "),
    example: words[0]?.example ?? "",
  };
}

/** What may be typed while a tool is in hand: a distance, an elevation, a tag, a position. */
function TypedField() {
  const { session, view } = useDesk();
  const asks = useSession((state) => state.asks);
  const [text, setText] = useState("");
  const field = useRef<HTMLInputElement>(null);
  useEffect(() => {
    view.focusTyped = () => {
      field.current?.focus();
      return field.current !== null;
    };
    return () => {
      view.focusTyped = () => false;
    };
  }, [view]);
  const lead = asks.find((ask) => ask !== "position") ?? asks[0];
  const needed = lead === "distance" || lead === "slope" || asks.every((ask) => ask === "words");
  useEffect(() => {
    // A dimension, a slope or words can only be typed: the field takes the focus when it is asked for.
    if (needed) field.current?.focus();
  }, [needed]);
  if (lead === undefined) return null;
  const { label, example } = typedWords(asks);
  return (
    <TextField className="typed" value={text} onChange={setText}>
      <Label>{label}</Label>
      <Input
        ref={field}
        placeholder={example}
        spellCheck={false}
        autoComplete="off"
        onKeyDown={(event) => {
          if (event.key === "Escape") {
            session.cancel();
            view.focusSheet();
          }
          if (event.key !== "Enter") return;
          event.preventDefault();
          if (text.trim() === "") {
            session.key({ key: "Enter", shift: false, alt: false, ctrl: false });
            view.focusSheet();
            return;
          }
          const read = session.typed(text);
          if (!read.ok) return view.store.setState({ said: allProblemWords(read.problems) });
          setText("");
          view.focusSheet();
        }}
      />
    </TextField>
  );
}
