import { useMemo, useState } from "react";
import { Autocomplete, Input, Label, ListBox, ListBoxItem, SearchField } from "react-aria-components";
import { useStore } from "zustand";
import { isSameFinding } from "../check/finding.ts";
import { type FoundLabel, findLabel, type Named } from "../editor/find-label.ts";
import type { Session } from "../editor/session.ts";
import type { Job } from "../job/schema.ts";
import { useDesk, useSession } from "./desk-context.ts";
import { FinderDialog } from "./FinderDialog.tsx";
import { useGoTo } from "./use-go-to.ts";
import { whatItIs } from "./what-it-is.ts";
import { findingWords } from "./words.ts";

/** So many are offered at once. */
const MOST = 40;

/** Finds whatever has a label by typing it or a part of it: the sheet it lies on is shown, and it is selected there. */
export function LabelFinder() {
  const { session, view } = useDesk();
  const open = useStore(view.store, (state) => state.labels);
  const goTo = useGoTo();
  return (
    <FinderDialog
      label="Labels"
      title="Find by label"
      open={open}
      onOpenChange={(on) => view.store.setState({ labels: on })}
    >
      <Labels
        onChoose={({ named, label }) => {
          view.store.setState({ labels: false, said: `${label} selected` });
          show(session, goTo, named);
          requestAnimationFrame(() => view.focusSheet());
        }}
      />
    </FinderDialog>
  );
}

function Labels({ onChoose }: { readonly onChoose: (found: FoundLabel) => void }) {
  const job = useSession((state) => state.job);
  const result = useSession((state) => state.result);
  const [text, setText] = useState("");
  const found = useMemo(() => findLabel(job, result, text, MOST), [job, result, text]);
  const kind = ({ named }: FoundLabel): string => {
    if (named.is !== "finding") return kindWords(job, named);
    const finding = result?.findings.find((one) => isSameFinding(one, named.finding));
    return finding ? findingWords(finding) : "Finding";
  };
  return (
    <Autocomplete inputValue={text} onInputChange={setText}>
      <SearchField className="row finder-search" autoFocus>
        <Label>Label, or part of one</Label>
        <Input placeholder="R-14, Hall roof, 3…" />
      </SearchField>
      <ListBox
        className="list"
        aria-label="Found"
        items={found.map((one) => ({ ...one, id: one.key }))}
        onAction={(key) => {
          const one = found.find((each) => each.key === key);
          if (one) onChoose(one);
        }}
        renderEmptyState={() => (
          <p className="quiet">{text.trim() === "" ? "Type a label." : "Nothing goes by that label."}</p>
        )}
      >
        {(item) => (
          <ListBoxItem id={item.key} textValue={item.label}>
            <span />
            <span className="item-name">{item.label}</span>
            <span className="item-end">{kind(item)}</span>
          </ListBoxItem>
        )}
      </ListBox>
    </Autocomplete>
  );
}

/** What something is, as it is told beside its label; a new table is one line here. */
const KINDS: Readonly<Record<Exclude<Named["is"], "finding" | "elements">, string>> = {
  areas: "Deck area",
  storeyOutlines: "Storey above",
  notes: "Note",
  viewports: "Viewport",
  storeys: "Storey",
};

function kindWords(job: Job, named: Exclude<Named, { is: "finding" }>): string {
  if (named.is !== "elements") return KINDS[named.is];
  const element = job.elements[named.id];
  return element ? whatItIs(element) : "";
}

/** Turns to the sheet of what was chosen, selects it and brings it into sight. A storey is shown by the first viewport on it. */
function show(session: Session, goTo: ReturnType<typeof useGoTo>, named: Named): void {
  const { job, result } = session.getState();
  if (named.is === "finding") {
    const finding = result?.findings.find((one) => isSameFinding(one, named.finding));
    session.select({ finding: named.finding });
    if (finding) goTo({ sheet: finding.sheet, at: finding.at });
    return;
  }
  if (named.is === "storeys" || named.is === "viewports") {
    const id =
      named.is === "viewports"
        ? named.id
        : Object.entries(job.viewports).find(([, { storey }]) => storey === named.id)?.[0];
    const viewport = id === undefined ? undefined : job.viewports[id];
    if (id === undefined || !viewport) return;
    session.setSheet(viewport.sheet, id);
    session.select({ table: "viewports", id });
    return;
  }
  goTo({ table: named.is, id: named.id });
  session.select({ table: named.is, id: named.id });
}
