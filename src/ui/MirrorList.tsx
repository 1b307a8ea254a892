import { type ReactNode, useEffect, useState } from "react";
import { Button, Input, ListBox, ListBoxItem, SearchField } from "react-aria-components";

/** A line of a list that mirrors the sheet. */
export interface MirrorItem {
  readonly id: string;
  readonly name: string;
  /** Before the name: a symbol. */
  readonly mark?: ReactNode;
  /** After the name, at the end of the line. */
  readonly end?: ReactNode;
  /** Under the name. */
  readonly more?: ReactNode | undefined;
  /** What a screen reader says of the line; the name and the second line, unless given. */
  readonly said?: string;
}

interface MirrorListProps {
  readonly label: string;
  readonly items: readonly MirrorItem[];
  readonly selected: string | null;
  readonly onSelect: (id: string) => void;
  /** All that is selected, `selected` being one of them or nothing; left out, one line at most is selected. */
  readonly several?: readonly string[];
  /** Told when the lines that are selected become none or several: with Shift and the arrow keys, Shift or Control and a click, Control and A. */
  readonly onSelectSeveral?: (ids: readonly string[]) => void;
  readonly empty: string;
}

/** So many lines are in the list at once; longer ones are leafed through. */
const SHOWN = 120;

/** What lies on the sheet as a list: every mark can be found and opened without seeing or pointing at it. */
export function MirrorList({ label, items, selected, several, onSelect, onSelectSeveral, empty }: MirrorListProps) {
  const [words, setWords] = useState("");
  const [leaf, setLeaf] = useState(0);
  const sought = words.trim().toLowerCase();
  const found = sought === "" ? items : items.filter(({ name, said }) => (said ?? name).toLowerCase().includes(sought));
  const place = selected === null ? -1 : found.findIndex(({ id }) => id === selected);
  useEffect(() => {
    // What is selected on the sheet is in sight in the list too.
    if (place >= 0) setLeaf(Math.floor(place / SHOWN));
  }, [place]);
  if (items.length === 0) return <p className="quiet">{empty}</p>;
  const from = Math.min(leaf, Math.max(0, Math.ceil(found.length / SHOWN) - 1)) * SHOWN;
  const to = Math.min(from + SHOWN, found.length);
  return (
    <>
      {items.length > SHOWN && (
        <SearchField className="row" value={words} onChange={setWords} aria-label={`Find in ${label}`}>
          <Input placeholder={`Find among ${items.length}`} />
        </SearchField>
      )}
      <Lines
        label={label}
        items={found.slice(from, to)}
        selected={selected}
        several={several ?? NONE}
        onSelect={onSelect}
        {...(onSelectSeveral && { onSelectSeveral })}
      />
      {found.length > SHOWN && (
        <div className="acts">
          <Button className="button small" isDisabled={from === 0} onPress={() => setLeaf(from / SHOWN - 1)}>
            Earlier
          </Button>
          <Button className="button small" isDisabled={to === found.length} onPress={() => setLeaf(from / SHOWN + 1)}>
            More, from {to} of {found.length}
          </Button>
        </div>
      )}
      {found.length === 0 && <p className="quiet">None of that name.</p>}
    </>
  );
}

const NONE: readonly string[] = [];

function Lines({ label, items, selected, several = NONE, onSelect, onSelectSeveral }: Omit<MirrorListProps, "empty">) {
  const chosen = several.length > 1 ? several : selected === null ? NONE : [selected];
  return (
    <ListBox
      className="list"
      aria-label={label}
      items={items}
      selectionMode={onSelectSeveral ? "multiple" : "single"}
      // Going through the list with the arrow keys opens each line in turn.
      selectionBehavior="replace"
      selectedKeys={chosen}
      onAction={(key) => onSelect(String(key))}
      onSelectionChange={(keys) => {
        const ids = keys === "all" ? items.map(({ id }) => id) : [...keys].map(String);
        const [only] = ids;
        if (onSelectSeveral && ids.length !== 1) onSelectSeveral(ids);
        else if (only !== undefined && (only !== selected || chosen.length > 1)) onSelect(only);
      }}
    >
      {(item) => (
        <ListBoxItem id={item.id} textValue={item.said ?? item.name}>
          {item.mark ?? <span />}
          <span className="item-name">{item.name}</span>
          <span className="item-end">{item.end}</span>
          {item.more !== undefined && <span className="item-more">{item.more}</span>}
        </ListBoxItem>
      )}
    </ListBox>
  );
}
