import { Button } from "react-aria-components";
import { lookedAt } from "../../editor/edits/replace-sheet.ts";
import type { Id } from "../../job/fields.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { lookWords } from "./issue-words.ts";
import { keyOf } from "./things-on-sheet.ts";

/** On the card of an element: that the new issue of its sheet shows something else there, until somebody has looked. */
export function LookNote({ id }: { readonly id: Id }) {
  const { session, view } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const sheet = job.viewports[job.elements[id]?.viewport ?? ""]?.sheet;
  const look = job.sheets[sheet ?? ""]?.toLookAt?.find((one) => one.table === "elements" && one.id === id);
  if (sheet === undefined || !look) return null;
  return (
    <div className="notice">
      <p>{lookWords(job, sheet, look, system).join(" ")} What is found below is of what was traced.</p>
      <div className="look-buttons">
        <Button
          className="button small"
          onPress={() => view.store.setState({ issues: { is: "compare", sheet, begin: keyOf(look) } })}
        >
          Old and new
        </Button>
        <Button
          className="button small"
          onPress={() => session.attempt(lookedAt(session.getState().job, sheet, "elements", id))}
        >
          Looked at
        </Button>
      </div>
    </div>
  );
}
