import { useEffect, useState } from "react";
import { Button, Label, Radio, RadioGroup } from "react-aria-components";
import type { Sheet } from "../../job/schema.ts";
import { displaySize, type PageGeometry } from "../../pdf/read/page-geometry.ts";
import { useDesk, useHost, useSystem } from "../desk-context.ts";
import { PageThumb } from "../dialogs/PageThumb.tsx";
import type { Drawing } from "../host.ts";
import { paperSize } from "../paper-size.ts";
import { problemWords } from "../problem-words.ts";

type OpenDrawing = Extract<Drawing, { is: "open" }>;

interface IssuePagesProps {
  readonly sheet: Sheet;
  readonly onChoose: (drawing: OpenDrawing, geometry: PageGeometry) => void;
  readonly onLeave: () => void;
}

/** Asks for the file of the new issue, and where it has several pages which of them it is: the one with the sheet's name is offered. */
export function IssuePages({ sheet, onChoose, onLeave }: IssuePagesProps) {
  const { host } = useDesk();
  const drawings = useHost((state) => state.drawings);
  const system = useSystem();
  const [hash, setHash] = useState<string>();
  const [page, setPage] = useState<number>();
  const drawing = hash === undefined ? undefined : drawings[hash];
  const open = drawing?.is === "open" ? drawing : undefined;
  const pages = open ? open.pages.filter((one) => !isPageOf(sheet, open, one)) : [];
  const likely = open ? likelyPage(sheet, drawings[sheet.file.sha256], open, pages) : undefined;
  const present = page ?? likely;
  const others = Object.values(drawings).filter(
    (one): one is OpenDrawing => one.is === "open" && one.pages.some((each) => !isPageOf(sheet, one, each)),
  );
  // A file with one page asks nothing more.
  useEffect(() => {
    if (open && open.pages.length === 1 && pages[0]) onChoose(open, pages[0]);
  });
  const choose = async () => {
    const chosen = await host.issues.choose();
    if (chosen === null) return;
    setHash(chosen);
    setPage(undefined);
  };
  return (
    <>
      <p>
        Choose the PDF of the new issue. Everything on the sheet is carried over to it; you see first how it lies and
        what changed, and one Undo takes it back. The issue there is now is kept.
      </p>
      {drawing && drawing.is !== "open" && (
        <p className="notice" role="status">
          {drawing.is === "opening"
            ? `Opening ${drawing.name}…`
            : drawing.is === "unusable"
              ? drawing.problems.map(problemWords).join(" ")
              : drawing.is === "locked"
                ? `${drawing.name} is protected by a password.`
                : `${drawing.name} is not at hand.`}
        </p>
      )}
      {open && pages.length === 0 && (
        <p className="notice" role="status">
          This is the very page {sheet.title} shows now. Choose the new issue.
        </p>
      )}
      {open && open.pages.length > 1 && (
        <RadioGroup
          className="page-choice"
          value={present === undefined ? null : String(present)}
          onChange={(value) => setPage(Number(value))}
        >
          <Label>Which page of {open.name}?</Label>
          <div className="page-list">
            {pages.map((geometry) => {
              const label = open.labels[open.pages.indexOf(geometry)];
              return (
                <Radio key={geometry.page} value={String(geometry.page)} className="page-radio">
                  <PageThumb handle={open.handle} geometry={geometry} long={150} />
                  <span className="page-name">
                    {label ? `${label}, page ${geometry.page}` : `Page ${geometry.page}`},{" "}
                    <small>{paperSize(displaySize(geometry), system)}</small>
                  </span>
                </Radio>
              );
            })}
          </div>
        </RadioGroup>
      )}
      <div className="acts">
        <Button className="button" onPress={onLeave}>
          Leave it
        </Button>
        {others
          .filter((one) => one.sha256 !== hash)
          .map((one) => (
            <Button
              key={one.sha256}
              className="button"
              onPress={() => {
                setHash(one.sha256);
                setPage(undefined);
              }}
            >
              A page of {one.name}
            </Button>
          ))}
        <Button
          className={open && open.pages.length > 1 ? "button" : "button main"}
          autoFocus
          onPress={() => void choose()}
        >
          Choose the PDF
        </Button>
        {open && open.pages.length > 1 && (
          <Button
            className="button main"
            isDisabled={present === undefined}
            onPress={() => {
              const geometry = pages.find((one) => one.page === present);
              if (geometry) onChoose(open, geometry);
            }}
          >
            Lay this page on the sheet
          </Button>
        )}
      </div>
    </>
  );
}

const isPageOf = (sheet: Sheet, drawing: OpenDrawing, { page }: PageGeometry): boolean =>
  drawing.sha256 === sheet.file.sha256 && page === sheet.page;

/** The page with the label of the sheet there is, else the one in its place. */
function likelyPage(
  sheet: Sheet,
  old: Drawing | undefined,
  drawing: OpenDrawing,
  pages: readonly PageGeometry[],
): number | undefined {
  const label = old?.is === "open" ? old.labels[old.pages.findIndex(({ page }) => page === sheet.page)] : undefined;
  const named = label && pages.find((one) => drawing.labels[drawing.pages.indexOf(one)] === label);
  return (named || pages.find(({ page }) => page === sheet.page) || pages[0])?.page;
}
