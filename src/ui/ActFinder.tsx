import { useMemo, useState } from "react";
import { Autocomplete, Input, Label, ListBox, ListBoxItem, SearchField, useFilter } from "react-aria-components";
import { useStore } from "zustand";
import { ACTS } from "../editor/acts.ts";
import { useDesk, useSession } from "./desk-context.ts";
import { FinderDialog } from "./FinderDialog.tsx";
import { hostActs } from "./host-acts.ts";
import { keyWords } from "./key-words.ts";
import { showFinding, showSaid } from "./sheet-keys.ts";
import { stageWords } from "./words.ts";

/** Every act with its key, to be found by typing. */
export function ActFinder() {
  const { session, host, view } = useDesk();
  const open = useStore(view.store, (state) => state.finder);
  const close = () => view.store.setState({ finder: false });
  return (
    <FinderDialog
      label="Acts"
      title="Acts and their keys"
      open={open}
      onOpenChange={(on) => view.store.setState({ finder: on })}
    >
      <Acts
        onChoose={(id) => {
          close();
          const own = hostActs(host, session, view).find((one) => one.id === id);
          if (own) return own.run();
          const { selection: before, said } = session.getState();
          ACTS.find((one) => one.id === id)?.run(session);
          if (!showSaid(session, view, said)) showFinding(session, view, before);
          requestAnimationFrame(() => view.focusSheet());
        }}
      />
    </FinderDialog>
  );
}

function Acts({ onChoose }: { onChoose: (id: string) => void }) {
  const { session, host, view } = useDesk();
  const state = useSession((present) => present);
  const [text, setText] = useState("");
  const { contains } = useFilter({ sensitivity: "base" });
  const items = useMemo(
    () => [
      ...ACTS.map((one) => ({
        id: one.id,
        name: one.name,
        key: one.key,
        where: one.stage ? stageWords[one.stage].name : "",
        enabled: one.enabled(state),
      })),
      ...hostActs(host, session, view).map(({ id, name, key }) => ({ id, name, key, where: "", enabled: true })),
    ],
    [state, host, session, view],
  );
  return (
    <Autocomplete filter={contains} inputValue={text} onInputChange={setText}>
      <SearchField className="row finder-search" autoFocus>
        <Label>Find an act</Label>
        <Input placeholder="Trace, scale, issue…" />
      </SearchField>
      <ListBox
        className="list"
        aria-label="Acts"
        items={items}
        disabledKeys={items.filter((item) => !item.enabled).map((item) => item.id)}
        onAction={(key) => onChoose(String(key))}
        renderEmptyState={() => <p className="quiet">No act of that name.</p>}
      >
        {(item) => (
          <ListBoxItem id={item.id} textValue={`${item.name} ${item.where}`}>
            <span />
            <span className="item-name">{item.name}</span>
            <span className="item-end">
              {item.where} {item.key !== undefined && <kbd>{keyWords(item.key)}</kbd>}
            </span>
          </ListBoxItem>
        )}
      </ListBox>
    </Autocomplete>
  );
}
