import { Button } from "react-aria-components";
import { lookedAt } from "../../editor/edits/replace-sheet.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { useGoTo } from "../use-go-to.ts";
import { counted } from "../words.ts";
import { lookWords } from "./issue-words.ts";
import { keyOf } from "./things-on-sheet.ts";

/** The sheet shown: a new issue of it, the one before, and what the new one left to look at. */
export function IssuePart() {
  const { session, view } = useDesk();
  const system = useSystem();
  const goTo = useGoTo();
  const id = useSession((state) => state.sheet);
  const job = useSession((state) => state.job);
  const sheet = id === null ? undefined : job.sheets[id];
  if (id === null || !sheet) return null;
  const looks = (sheet.toLookAt ?? []).filter((look) => job[look.table][look.id] !== undefined);
  const compare = (begin?: string) => view.store.setState({ issues: { is: "compare", sheet: id, begin } });
  return (
    <section className="block" aria-label={`Issues of ${sheet.title}`}>
      <h3>
        This sheet's issues <small>{sheet.title}</small>
      </h3>
      <div className="acts">
        <Button className="button small" onPress={() => view.store.setState({ issues: { is: "lay", sheet: id } })}>
          New issue of this sheet <kbd>Alt R</kbd>
        </Button>
        {sheet.earlier && (
          <Button className="button small" onPress={() => compare()}>
            Compare with the issue before <kbd>Alt U</kbd>
          </Button>
        )}
      </div>
      {looks.length > 0 && (
        <>
          <p className="quiet">
            {counted(looks.length, "mark")} to look at: the new issue shows something else there. Decisions recorded for{" "}
            {looks.length === 1 ? "it" : "them"} stand until you change them.
          </p>
          <ul className="looks">
            {looks.map((look) => {
              const label = job[look.table][look.id]!.label;
              return (
                <li key={keyOf(look)}>
                  <strong>{label}</strong>
                  <span>{lookWords(job, id, look, system).join(" ")}</span>
                  <span className="look-buttons">
                    <Button
                      className="button small"
                      aria-label={`Show ${label}`}
                      onPress={() => {
                        session.select({ table: look.table, id: look.id });
                        goTo({ table: look.table, id: look.id });
                      }}
                    >
                      Show it
                    </Button>
                    <Button
                      className="button small"
                      aria-label={`Old and new at ${label}`}
                      onPress={() => compare(keyOf(look))}
                    >
                      Old and new
                    </Button>
                    <Button
                      className="button small"
                      aria-label={`Looked at ${label}`}
                      onPress={() => session.attempt(lookedAt(session.getState().job, id, look.table, look.id))}
                    >
                      Looked at
                    </Button>
                  </span>
                </li>
              );
            })}
          </ul>
        </>
      )}
    </section>
  );
}
