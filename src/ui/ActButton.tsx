import { Button } from "react-aria-components";
import { act } from "../editor/acts.ts";
import { useDesk, useSession } from "./desk-context.ts";
import { keyWords } from "./key-words.ts";

interface ActButtonProps {
  /** Id of an act of the editor. */
  readonly id: string;
  /** The one a person most likely wants next. */
  readonly main?: boolean;
}

/** An act of the session as a button, with its key. Taking a tool in hand moves the focus to the sheet, where the tool works. */
export function ActButton({ id, main = false }: ActButtonProps) {
  const { session, view } = useDesk();
  const found = act(id);
  const enabled = useSession((state) => found.enabled(state));
  return (
    <Button
      className={`button${main ? " main" : ""}`}
      isDisabled={!enabled}
      onPress={() => {
        found.run(session);
        if (session.getState().tool.tool !== "edit") view.focusSheet();
      }}
    >
      {found.name}
      {found.key !== undefined && <kbd>{keyWords(found.key)}</kbd>}
    </Button>
  );
}
