import { type RefObject, useEffect, useRef } from "react";
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
  useInSight(list, drawing.sha256, rows);
  const rest = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(rest.current), []);
  const items = rows.map((row) => ({ ...row, id: row.geometry.page }));
  return (
    <ListBox
      ref={list}
      className="list sheet-list"
      aria-label={`Sheets of ${drawing.name}`}
      items={items}
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
            onFocus={() => onLook(id)}
          >
            <TickBox />
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

/** Has the pages in sight, and those that come next, read before all others; reading stops when the list goes away. */
function useInSight(list: RefObject<HTMLDivElement | null>, sha256: string, rows: readonly SheetRow[]): void {
  const { host } = useDesk();
  const pages = rows.map(({ geometry }) => geometry.page).join(" ");
  // biome-ignore lint/correctness/useExhaustiveDependencies: other lines are the occasion to look again
  useEffect(() => {
    const seen = new Set<number>();
    const watch = new IntersectionObserver(
      (entries) => {
        for (const { target, isIntersecting } of entries) {
          const page = Number((target as HTMLElement).dataset.page);
          if (isIntersecting) seen.add(page);
          else seen.delete(page);
        }
        host.indexInSight(
          sha256,
          [...seen].sort((a, b) => a - b),
        );
      },
      // The next screenful counts as in sight.
      { rootMargin: "0px 0px 100% 0px" },
    );
    for (const line of list.current?.querySelectorAll("[data-page]") ?? []) watch.observe(line);
    return () => watch.disconnect();
  }, [host, list, sha256, pages]);
  useEffect(() => {
    host.readIndex(sha256);
    return () => host.stop("index");
  }, [host, sha256]);
}
