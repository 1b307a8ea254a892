import { useState } from "react";
import { Button, Dialog, Heading } from "react-aria-components";
import { displaySize } from "../../pdf/read/page-geometry.ts";
import { useDesk, useHost, useSystem } from "../desk-context.ts";
import { TickRow } from "../fields/TickRow.tsx";
import type { Question } from "../host.ts";
import { paperSize } from "../paper-size.ts";
import { counted } from "../words.ts";

/** Asks which pages of a drawing with several become sheets of the job. */
export function PagesDialog({ question }: { readonly question: Extract<Question, { is: "pages" }> }) {
  const { host } = useDesk();
  const system = useSystem();
  const drawing = useHost((state) => state.drawings[question.sha256]);
  const [chosen, setChosen] = useState<readonly number[]>(question.suggested);
  const pages = drawing?.is === "open" ? drawing.pages : [];
  const labels = drawing?.is === "open" ? drawing.labels : [];
  return (
    <Dialog>
      <Heading slot="title">Which pages of {question.name}?</Heading>
      <p className="quiet">
        Choose the roof or framing plan and the ceiling or lighting plans. More can be added later.
      </p>
      <div className="page-list">
        {pages.map((geometry, index) => (
          <TickRow
            key={geometry.page}
            label={`${labels[index] ? `${labels[index]}, page ${geometry.page}` : `Page ${geometry.page}`}, ${paperSize(displaySize(geometry), system)}`}
            isSelected={chosen.includes(geometry.page)}
            onChange={(on) =>
              setChosen(
                on ? [...chosen, geometry.page].sort((a, b) => a - b) : chosen.filter((page) => page !== geometry.page),
              )
            }
          />
        ))}
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
