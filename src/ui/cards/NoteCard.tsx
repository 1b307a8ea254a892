import { Button } from "react-aria-components";
import { deleteRecords } from "../../editor/edits/delete-records.ts";
import { setNoteAbout, setNotePlace, setNoteText } from "../../editor/edits/notes.ts";
import { rename } from "../../editor/edits/rename.ts";
import { placeForWords } from "../../editor/words-room.ts";
import { noteAbout } from "../../issue/kinds/note.ts";
import { shownText } from "../../issue/shown-text.ts";
import type { Id } from "../../job/fields.ts";
import type { Note } from "../../job/note.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { TextRow } from "../fields/TextRow.tsx";
import { WordsRow } from "../fields/WordsRow.tsx";
import { useAttempt } from "../use-attempt.ts";
import { useGoTo } from "../use-go-to.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";

/** The card of a note: its words, what it is about, where its leader shows to and its words stand. */
export function NoteCard({ id, note }: { readonly id: Id; readonly note: Note }) {
  const { session, view } = useDesk();
  const job = useSession((state) => state.job);
  const attempt = useAttempt();
  const goTo = useGoTo();
  const about = noteAbout(job, note);
  const hidden = shownText(note.text) !== note.text.replaceAll("\t", "  ");
  return (
    <CardFrame kind="Note" name={note.label}>
      <CardPart title="Words">
        <div className="rows">
          <WordsRow
            label="What it says"
            value={note.text}
            onCommit={(text) => attempt((present) => setNoteText(present, id, text))}
            note={
              hidden
                ? `It holds characters that cannot be seen; on the sheet it reads: ${shownText(note.text)}`
                : "Ctrl+Enter keeps it; Enter begins a new line."
            }
          />
          <TextRow
            label="About"
            value={about}
            placeholder="Nothing but the place it shows to"
            note="The label of an element, a deck area or a storey above."
            onCommit={(label) => attempt((present) => setNoteAbout(present, id, label))}
          />
          <TextRow
            label="Label on the sheet"
            value={note.label}
            onCommit={(label) => attempt((present) => rename(present, "notes", id, label))}
          />
        </div>
      </CardPart>
      <CardPart title="Leader">
        <p className="quiet">
          Drag either end of the leader, or the words. By keys: . and , choose an end, A moves it.
        </p>
        <div className="acts">
          <Button
            className="button small"
            onPress={() => {
              const { room } = session.getState();
              const find = room?.sheet === note.sheet ? room.find : null;
              // Its own words are in its way where they stand; found anew they may come to stand there again.
              const place = placeForWords(job, note.sheet, note.at, note.text, find);
              attempt((present) => setNotePlace(present, id, place));
              view.focusSheet();
            }}
          >
            Find room for the words anew
          </Button>
          {note.about && (
            <Button
              className="button small"
              onPress={() => {
                const { about: of } = note;
                if (!of) return;
                session.select(of);
                goTo(of);
              }}
            >
              Show {about}
            </Button>
          )}
        </div>
      </CardPart>
      <Button
        className="button bare"
        onPress={() => {
          session.select(null);
          attempt((present) => deleteRecords(present, [{ table: "notes", id }]));
        }}
      >
        Delete {note.label}
      </Button>
    </CardFrame>
  );
}
