import type { ReactNode } from "react";
import { ListBox, ListBoxItem } from "react-aria-components";

/** A line of a list that mirrors the sheet. */
export interface MirrorItem {
  readonly id: string;
  readonly name: string;
  /** Before the name: a symbol. */
  readonly mark?: ReactNode;
  /** After the name, at the end of the line. */
  readonly end?: ReactNode;
  /** Under the name. */
  readonly more?: ReactNode;
  /** What a screen reader says of the line; the name and the second line, unless given. */
  readonly said?: string;
}

interface MirrorListProps {
  readonly label: string;
  readonly items: readonly MirrorItem[];
  readonly selected: string | null;
  readonly onSelect: (id: string) => void;
  readonly empty: string;
}

/** What lies on the sheet as a list: every mark can be found and opened without seeing or pointing at it. */
export function MirrorList({ label, items, selected, onSelect, empty }: MirrorListProps) {
  if (items.length === 0) return <p className="quiet">{empty}</p>;
  return (
    <ListBox
      className="list"
      aria-label={label}
      items={items}
      selectionMode="single"
      // Going through the list with the arrow keys opens each line in turn.
      selectionBehavior="replace"
      selectedKeys={selected === null ? [] : [selected]}
      onAction={(key) => onSelect(String(key))}
      onSelectionChange={(keys) => {
        const [key] = keys === "all" ? [] : [...keys];
        if (key !== undefined && String(key) !== selected) onSelect(String(key));
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
