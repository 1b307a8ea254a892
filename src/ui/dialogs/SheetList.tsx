import { type RefObject, useCallback, useEffect, useRef } from "react";
import { ListBox, ListBoxItem } from "react-aria-components";
import type { PageGeometry } from "../../pdf/read/page-geometry.ts";
import { useDesk, useSystem } from "../desk-context.ts";
import { TickBox } from "../fields/TickBox.tsx";
import type { Drawing, IndexedPage } from "../host.ts";
import { numberWords, pageFacts } from "../sheet-index-words.ts";
import { sheetNumber } from "../sheet-titles.ts";

/** One line of the index. */
export interface SheetRow {
  readonly geometry: PageGeometry;
  readonly indexed: IndexedPage;
  /** It is a sheet of the job already. */
  readonly taken: boolean;
}

interface SheetListProps {
  readonly drawing: Extract<Drawing, { is: "open" }>;
  readonly rows: readonly SheetRow[];
  readonly chosen: readonly number[];
  readonly onChoose: (pages: readonly number[]) => void;
  /** A sheet is being looked at: the focus is on it, or the pointer rests on it. */
  readonly onLook: (page: number) => void;
}

/** How long a pointer rests on a line before that counts as looking at its sheet, milliseconds. */
const REST_MS = 180;

/** The sheets of a set to choose from. What is in sight is read before the rest. */
export function SheetList({ drawing, rows, chosen, onChoose, onLook }: SheetListProps) {
  const system = useSystem();
  const list = useRef<HTMLDivElement>(null);
  const seen = useInSight(drawing.sha256);
  useFocused(list, onLook);
  const rest = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(rest.current), []);
  const items = useItems(rows);
  return (
    <ListBox
      ref={list}
      className="list sheet-list"
      aria-label={`Sheets of ${drawing.name}`}
      items={items}
      dependencies={[drawing, system]}
      selectionMode="multiple"
      selectionBehavior="toggle"
      // Escape leaves the dialog, not the choice.
      escapeKeyBehavior="none"
      selectedKeys={chosen}
      disabledKeys={rows.filter(({ taken }) => taken).map(({ geometry }) => geometry.page)}
      onSelectionChange={(keys) => {
        const picked =
          keys === "all" ? [...chosen, ...items.flatMap(({ id, taken }) => (taken ? [] : [id]))] : [...keys];
        onChoose([...new Set(picked.map(Number))].sort((a, b) => a - b));
      }}
      renderEmptyState={() => <p className="quiet">No sheet like that.</p>}
    >
      {({ id, geometry, indexed, taken }) => {
        const number = numberWords(indexed);
        const facts = pageFacts(geometry, indexed, drawing.layers, system);
        const known = indexed.entry !== undefined && sheetNumber(indexed.entry) !== null;
        const name = indexed.entry?.name ?? null;
        const said = [number ?? "Not read yet", name, `page ${id}`, taken ? "in the job" : null, ...facts];
        return (
          <ListBoxItem
            id={id}
            className="sheet-row"
            textValue={[number, name].filter(Boolean).join(" ") || `Page ${id}`}
            aria-label={said.filter(Boolean).join(", ")}
            data-page={id}
            onHoverStart={() => {
              clearTimeout(rest.current);
              rest.current = setTimeout(() => onLook(id), REST_MS);
            }}
            onHoverEnd={() => clearTimeout(rest.current)}
          >
            <InSight page={id} onSeen={seen} />
            <span className={`sheet-number${known ? "" : " unknown"}`}>{number ?? "…"}</span>
            <span className="sheet-name">{name}</span>
            <span className="sheet-page">{taken ? `In the job · Page ${id}` : `Page ${id}`}</span>
            <span className="sheet-facts">{facts.join(" · ")}</span>
          </ListBoxItem>
        );
      }}
    </ListBox>
  );
}

type SheetItem = SheetRow & { readonly id: number };

/** The rows as the list wants them. A row of which nothing more is known stays the same object, and is not drawn again. */
function useItems(rows: readonly SheetRow[]): readonly SheetItem[] {
  const kept = useRef(new Map<number, SheetItem>());
  return rows.map((row) => {
    const id = row.geometry.page;
    const old = kept.current.get(id);
    if (old && old.geometry === row.geometry && old.indexed === row.indexed && old.taken === row.taken) return old;
    const item = { ...row, id };
    kept.current.set(id, item);
    return item;
  });
}

/** Says which line the focus comes to. The list itself tells only that it has come in. */
function useFocused(list: RefObject<HTMLDivElement | null>, onLook: (page: number) => void): void {
  useEffect(() => {
    const element = list.current;
    const come = ({ target }: FocusEvent) => {
      const page = (target as HTMLElement).closest<HTMLElement>("[data-page]")?.dataset.page;
      if (page !== undefined) onLook(Number(page));
    };
    element?.addEventListener("focusin", come);
    return () => element?.removeEventListener("focusin", come);
  }, [list, onLook]);
}

/** What to tell when a line comes into sight or leaves it: pages in sight are read before all others. Reading stops when the list goes away. */
function useInSight(sha256: string): (page: number, inSight: boolean) => void {
  const { host } = useDesk();
  const pages = useRef(new Set<number>());
  useEffect(() => {
    host.readIndex(sha256);
    return () => host.stop("index");
  }, [host, sha256]);
  return useCallback(
    (page, inSight) => {
      pages.current.delete(page);
      // What leaves, also with the list itself, asks for nothing.
      if (!inSight) return;
      pages.current.add(page);
      host.indexInSight(
        sha256,
        [...pages.current].sort((a, b) => a - b),
      );
    },
    [host, sha256],
  );
}

interface InSightProps {
  readonly page: number;
  readonly onSeen: (page: number, inSight: boolean) => void;
}

/** The tick's place in a line, which tells when the line comes into sight; half a list farther on counts, so that it is read by then. */
function InSight({ page, onSeen }: InSightProps) {
  const mark = useRef<HTMLSpanElement>(null);
  useEffect(() => {
    const element = mark.current;
    if (!element) return;
    const watch = new IntersectionObserver(
      (entries) =>
        onSeen(
          page,
          entries.some(({ isIntersecting }) => isIntersecting),
        ),
      { root: element.closest(".sheet-list"), rootMargin: "0px 0px 50% 0px" },
    );
    watch.observe(element);
    return () => {
      watch.disconnect();
      onSeen(page, false);
    };
  }, [page, onSeen]);
  return (
    <span ref={mark} className="sheet-tick">
      <TickBox />
    </span>
  );
}
