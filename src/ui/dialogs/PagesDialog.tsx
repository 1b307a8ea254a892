import { useState } from "react";
import { Button, Checkbox, Dialog, Heading } from "react-aria-components";
import { displaySize } from "../../pdf/read/page-geometry.ts";
import { useDesk, useHost, useSession, useSystem } from "../desk-context.ts";
import { TickBox } from "../fields/TickBox.tsx";
import type { Question } from "../host.ts";
import { paperSize } from "../paper-size.ts";
import { counted } from "../words.ts";
import { PageThumb } from "./PageThumb.tsx";

/** Asks which pages of a drawing with several become sheets of the job. Pages that are sheets already are left out. */
export function PagesDialog({ question }: { readonly question: Extract<Question, { is: "pages" }> }) {
  const { host } = useDesk();
  const system = useSystem();
  const drawing = useHost((state) => state.drawings[question.sha256]);
  const sheets = useSession((state) => state.job.sheets);
  const [chosen, setChosen] = useState<readonly number[]>(question.suggested);
  if (drawing?.is !== "open") return null;
  const taken = new Set(
    Object.values(sheets).flatMap(({ file, page }) => (file.sha256 === question.sha256 ? [page] : [])),
  );
  const toggle = (page: number, on: boolean) =>
    setChosen(on ? [...chosen, page].sort((a, b) => a - b) : chosen.filter((one) => one !== page));
  return (
    <Dialog>
      <Heading slot="title">Which pages of {question.name}?</Heading>
      <p className="quiet">
        Choose the roof or framing plan and the ceiling or lighting plans. More can be added later.
      </p>
      <div className="page-list">
        {drawing.pages.map((geometry, index) => {
          const { page } = geometry;
          if (taken.has(page)) return null;
          const label = drawing.labels[index];
          return (
            <Checkbox
              key={page}
              className="tick page-tick"
              isSelected={chosen.includes(page)}
              onChange={(on) => toggle(page, on)}
            >
              <PageThumb handle={drawing.handle} geometry={geometry} />
              <span className="page-name">
                <TickBox />
                <span>
                  {label ? `${label}, page ${page}` : `Page ${page}`},{" "}
                  <small>{paperSize(displaySize(geometry), system)}</small>
                </span>
              </span>
            </Checkbox>
          );
        })}
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
