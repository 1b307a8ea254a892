import { type ReactNode, useEffect, useState } from "react";
import { BugBoundary } from "./BugBoundary.tsx";
import { DeskPage } from "./DeskPage.tsx";
import { type Desk, DeskContext, useDesk, useHost, useSession } from "./desk-context.ts";
import { hostActs, runHostKey, runUndoKey } from "./host-acts.ts";
import { keepFocus } from "./keep-focus.ts";
import { later } from "./later.tsx";
import { Start } from "./Start.tsx";

const Questions = later(() => import("./dialogs/Questions.tsx").then((part) => part.Questions));
const LabelFinder = later(() => import("./LabelFinder.tsx").then((part) => part.LabelFinder));
const ActFinder = later(() => import("./ActFinder.tsx").then((part) => part.ActFinder));
const NewIssueDialogs = later(() => import("./new-issue/NewIssueDialogs.tsx").then((part) => part.NewIssueDialogs));

/** The whole program over a desk. */
export function Root({ desk }: { readonly desk: Desk }) {
  const { session, host, view } = desk;
  useEffect(() => {
    const acts = hostActs(host, session, view);
    const opening = acts.filter(({ id }) => id.startsWith("open-"));
    const pressed = (event: KeyboardEvent) => {
      if (event.defaultPrevented) return;
      if (host.state.getState().showing === "start") runHostKey(event, opening);
      else if (!runUndoKey(event, session)) runHostKey(event, acts);
    };
    window.addEventListener("keydown", pressed);
    return () => window.removeEventListener("keydown", pressed);
  }, [host, session, view]);
  useEffect(() => keepFocus(document.body, () => view.focusSheet()), [view]);
  return (
    <DeskContext value={desk}>
      <BugBoundary>
        <DropTarget>
          <Page />
        </DropTarget>
        <Questions />
        <ActFinder />
        <LabelFinder />
        <NewIssueDialogs />
      </BugBoundary>
    </DeskContext>
  );
}

function Page() {
  const showing = useHost((state) => state.showing);
  const name = useSession((state) => state.job.settings.job.name);
  useEffect(() => {
    document.title = showing === "start" ? "Underside" : `${name} — Underside`;
  }, [showing, name]);
  return showing === "start" ? <Start /> : <DeskPage />;
}

/** Files dropped anywhere on the page are taken. */
function DropTarget({ children }: { readonly children: ReactNode }) {
  const [over, setOver] = useState(false);
  const take = useTakeFiles();
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the same files can be chosen with a button
    <div
      className={over ? "drop-area drop" : "drop-area"}
      onDragOver={(event) => {
        if (!event.dataTransfer.types.includes("Files")) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={(event) => !event.currentTarget.contains(event.relatedTarget as Node | null) && setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        take([...event.dataTransfer.files]);
      }}
    >
      {children}
    </div>
  );
}

function useTakeFiles(): (files: readonly File[]) => void {
  const { host } = useDesk();
  return (files) => void host.takeFiles(files);
}
