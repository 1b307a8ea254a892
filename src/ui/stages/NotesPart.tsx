import { noteAbout } from "../../issue/kinds/note.ts";
import { shownText } from "../../issue/shown-text.ts";
import { sheetTitle } from "../../issue/words.ts";
import { ActButton } from "../ActButton.tsx";
import { byLabel } from "../by-label.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { MirrorList } from "../MirrorList.tsx";
import { useGoTo } from "../use-go-to.ts";

/** The reviewer's own notes, whichever sheet they are on: each opens its card, another one is written on the sheet. */
export function NotesPart() {
  const { session } = useDesk();
  const goTo = useGoTo();
  const job = useSession((state) => state.job);
  const selection = useSession((state) => state.selection);
  return (
    <section className="block">
      <h3>Notes</h3>
      <div className="acts">
        <ActButton id="place-note" />
      </div>
      <MirrorList
        label="Notes"
        empty="No note yet. A note is words of your own on the sheet, with a leader to what they are about."
        selected={selection && "table" in selection && selection.table === "notes" ? selection.id : null}
        onSelect={(id) => {
          session.select({ table: "notes", id });
          goTo({ table: "notes", id });
        }}
        items={byLabel(job.notes).map(([id, note]) => {
          const words = shownText(note.text);
          const about = noteAbout(job, note);
          const where = `${about ? `About ${about}, on` : "On"} ${sheetTitle(job, note.sheet)}`;
          return { id, name: note.label, end: about, more: words, said: `${note.label}, ${words}. ${where}` };
        })}
      />
    </section>
  );
}
