import { useState } from "react";
import { Button, Dialog, Heading, Input, Label, SearchField } from "react-aria-components";
import { oddNumbers } from "../../pdf/read/sheet-index.ts";
import { useDesk, useHost, useSession } from "../desk-context.ts";
import type { IndexedPage, Question } from "../host.ts";
import { sheetNumber } from "../sheet-titles.ts";
import { sheetsSought } from "../sheets-sought.ts";
import { WorkBar } from "../WorkBar.tsx";
import { counted } from "../words.ts";
import { SheetList } from "./SheetList.tsx";
import { SheetLook } from "./SheetLook.tsx";

/** From so many pages on the sheets can be searched. */
const MANY = 6;
const NOTHING: Readonly<Record<number, IndexedPage>> = {};
const UNREAD: IndexedPage = {};

/** The sheet index of a drawing with several pages: which of them become sheets of the job. */
export function PagesDialog({ question }: { readonly question: Extract<Question, { is: "pages" }> }) {
  const { host } = useDesk();
  const drawing = useHost((state) => state.drawings[question.sha256]);
  const index = useHost((state) => state.indexes[question.sha256]) ?? NOTHING;
  const sheets = useSession((state) => state.job.sheets);
  const [chosen, setChosen] = useState<readonly number[]>(question.suggested);
  const [typed, setTyped] = useState("");
  const [looked, setLooked] = useState<number | null>(null);
  if (drawing?.is !== "open") return null;
  const taken = new Set(
    Object.values(sheets).flatMap(({ file, page }) => (file.sha256 === question.sha256 ? [page] : [])),
  );
  const isSought = sheetsSought(typed);
  const rows = drawing.pages
    .map((geometry) => ({ geometry, indexed: index[geometry.page] ?? UNREAD, taken: taken.has(geometry.page) }))
    .filter(({ geometry, indexed }) => isSought({ page: geometry.page, ...numbered(indexed) }));
  const free = rows.flatMap(({ geometry, taken: isTaken }) => (isTaken ? [] : [geometry.page]));
  const look = drawing.pages.find(({ page }) => page === looked);
  return (
    <Dialog className="sheet-index">
      <Heading slot="title">Which sheets of {question.name}?</Heading>
      <p className="quiet">
        Choose the roof or framing plan and the ceiling or lighting plans. More can be added later.
      </p>
      {drawing.pages.length >= MANY && (
        <div className="sheet-search">
          <SearchField className="row" value={typed} onChange={setTyped} autoFocus={question.suggested.length === 0}>
            <Label>Find sheets by number or name</Label>
            <Input placeholder="E-1, lighting, roof" />
          </SearchField>
          {typed.trim() !== "" && free.length > 0 && (
            <Button
              className="button small"
              onPress={() => setChosen([...new Set([...chosen, ...free])].sort((a, b) => a - b))}
            >
              Choose {free.length === 1 ? "this one" : `these ${free.length}`}
            </Button>
          )}
        </div>
      )}
      <p className="quiet" role="status">
        {typed.trim() === "" ? counted(rows.length, "sheet") : `${rows.length} of ${drawing.pages.length} sheets`}
        {chosen.length > 0 ? `, ${chosen.length} chosen` : ""}
      </p>
      <div className="sheet-columns">
        <SheetList drawing={drawing} rows={rows} chosen={chosen} onChoose={setChosen} onLook={setLooked} />
        {look ? (
          <SheetLook drawing={drawing} geometry={look} />
        ) : (
          <p className="quiet sheet-look">Point at a sheet, or go to it with the arrow keys, to see it here.</p>
        )}
      </div>
      <div className="sheet-reading">
        <WorkBar work="index" label="Reading the sheet index" />
        <Unread sha256={question.sha256} pages={drawing.pages.map(({ page }) => page)} index={index} />
        <Odd pages={drawing.pages.map(({ page }) => page)} index={index} />
      </div>
      <div className="acts">
        <Button className="button" onPress={() => host.dismiss(question)}>
          None
        </Button>
        <Button
          className="button main"
          autoFocus={question.suggested.length > 0}
          isDisabled={chosen.length === 0}
          onPress={() => {
            host.addPages(question.sha256, chosen);
            host.dismiss(question);
          }}
        >
          Add {chosen.length === 0 ? "pages" : counted(chosen.length, "page")}
        </Button>
      </div>
    </Dialog>
  );
}

/** The number and name of a page for the search; a label that only counts is no number. */
const numbered = ({ entry }: IndexedPage) =>
  entry ? { number: sheetNumber(entry), name: entry.name } : { number: null, name: null };

interface IndexProps {
  readonly pages: readonly number[];
  readonly index: Readonly<Record<number, IndexedPage>>;
}

/** That reading was stopped, and a way to go on. */
function Unread({ sha256, pages, index }: IndexProps & { readonly sha256: string }) {
  const { host } = useDesk();
  const running = useHost((state) => state.indexing === sha256);
  const unread = pages.filter((page) => index[page]?.entry === undefined || index[page]?.survey === undefined).length;
  if (running || unread === 0) return null;
  return (
    <div className="notice plain">
      {counted(unread, "sheet")} not read yet.{" "}
      <Button className="button small" onPress={() => host.readIndex(sha256)}>
        Read them
      </Button>
    </div>
  );
}

/** So many missing numbers are named. */
const NAMED = 8;
const someOf = (list: readonly string[]): string =>
  list.length <= NAMED ? list.join(", ") : `${list.slice(0, NAMED).join(", ")} and ${list.length - NAMED} more`;

/** What is odd about the numbers of the set, once all of them are read. */
function Odd({ pages, index }: IndexProps) {
  const indexing = useHost((state) => state.indexing);
  const entries = pages.flatMap((page) => index[page]?.entry ?? []);
  if (indexing !== null || entries.length < pages.length) return null;
  const { duplicates, gaps } = oddNumbers(entries.map((entry) => ({ page: entry.page, number: sheetNumber(entry) })));
  if (duplicates.length + gaps.length === 0) return null;
  return (
    <p className="quiet">
      {duplicates.map(({ number, pages: own }) => `${number} stands on pages ${own.join(", ")}. `)}
      {gaps.length > 0 && `Not in this set: ${someOf(gaps)}.`}
    </p>
  );
}
