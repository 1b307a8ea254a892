import { Button, ToggleButton } from "react-aria-components";
import { useStore } from "zustand";
import { Announcer } from "./Announcer.tsx";
import { useDesk, useHost, useSession } from "./desk-context.ts";
import { Foot } from "./Foot.tsx";
import { JobLine } from "./JobLine.tsx";
import { later } from "./later.tsx";
import { PromptBar } from "./PromptBar.tsx";
import { StoppedCheck } from "./stages/StoppedCheck.tsx";
import { useSelectedRun } from "./use-selected-run.ts";
import { WorkBar } from "./WorkBar.tsx";

const SheetHost = later(() => import("./desk-parts.ts").then(({ deskParts }) => deskParts.SheetHost), "with-a-desk");
const Card = later(() => import("./Card.tsx").then((part) => part.Card));
const SectionPointed = later(() => import("./SectionPointed.tsx").then((part) => part.SectionPointed));
const Profile = later(() => import("./Profile.tsx").then((part) => part.Profile));

/** The desk: the sheet, the job line, the card, the profile, the foot. */
export function DeskPage() {
  const { view } = useDesk();
  const selection = useSession((state) => state.selection);
  const sections = useStore(view.store, (state) => state.sections);
  const hasProfile = useSelectedRun() !== undefined;
  const names = ["desk", selection ? "with-card" : "", hasProfile ? "with-profile" : ""];
  return (
    <div className={names.filter(Boolean).join(" ")}>
      <JobLine />
      <main className="sheet-area" aria-label="Sheet">
        <SheetHost />
        <SheetEmpty />
        <PromptBar />
        {sections && <SectionPointed />}
        <div className="sheet-work">
          <WorkBar work="check" label="Checking" />
          <WorkBar work="linework" label="Reading the drawing's lines" />
          <div role="status">
            <StoppedCheck />
          </div>
        </div>
        <div className="sheet-zoom">
          <UndoButtons />
          <GreyButton />
          <Button className="button small" aria-label="Zoom out" onPress={() => view.zoom(0.7)}>
            −
          </Button>
          <Button className="button small" onPress={() => view.fit()}>
            Fit
          </Button>
          <Button className="button small" aria-label="Zoom in" onPress={() => view.zoom(1.4)}>
            +
          </Button>
        </div>
      </main>
      <Profile />
      <Card />
      <Foot />
      <Announcer />
    </div>
  );
}

/** Greys the drawing so that the marks stand out; the issued sheet is not changed by it. */
function GreyButton() {
  const { view } = useDesk();
  const faded = useStore(view.store, (state) => state.faded);
  return (
    <ToggleButton
      className="button small"
      aria-label="Grey the drawing"
      isSelected={faded}
      onChange={(on) => view.store.setState({ faded: on })}
    >
      Grey
    </ToggleButton>
  );
}

/** Takes back and does again; each says what. */
function UndoButtons() {
  const { session } = useDesk();
  const undo = useSession((state) => state.undo.at(-1)?.name);
  const redo = useSession((state) => state.redo.at(-1)?.name);
  const busy = useSession((state) => state.busy);
  return (
    <>
      <Button
        className="button small"
        isDisabled={undo === undefined && !busy}
        aria-label={undo === undefined ? "Undo" : `Undo: ${undo}`}
        onPress={() => session.undo()}
      >
        Undo
      </Button>
      {redo !== undefined && (
        <Button className="button small" aria-label={`Redo: ${redo}`} onPress={() => session.redo()}>
          Redo
        </Button>
      )}
    </>
  );
}

/** Where a sheet would be: what to do while there is none, or while its file is not at hand. */
function SheetEmpty() {
  const { host } = useDesk();
  const sheet = useSession((state) => (state.sheet === null ? undefined : state.job.sheets[state.sheet]));
  const drawing = useHost((state) => (sheet ? state.drawings[sheet.file.sha256] : undefined));
  const busy = useHost((state) => state.busy);
  if (drawing?.is === "open" || drawing?.is === "opening") return null;
  const choose = () => void host.chooseFiles("drawings");
  return (
    <div className="sheet-empty">
      <div className="sheet-empty-words">
        {sheet === undefined ? (
          <>
            <h2>Put a drawing on the desk</h2>
            <p>
              Drop PDF sheets here: a roof framing plan and the ceiling or lighting plans below it. They stay on this
              machine.
            </p>
            <Button className="button main" onPress={choose}>
              {busy ?? "Open drawings"}
            </Button>
          </>
        ) : (
          <>
            <h2>{sheet.title}</h2>
            <p>
              {drawing?.is === "locked"
                ? `${sheet.file.name} is protected by a password.`
                : drawing?.is === "unusable"
                  ? `${sheet.file.name} could not be opened.`
                  : `${sheet.file.name} is not at hand in this browser. Choose the file: it is known by its content, whatever it is called now.`}
            </p>
            <Button className="button main" onPress={choose}>
              Choose the file
            </Button>
          </>
        )}
      </div>
    </div>
  );
}
