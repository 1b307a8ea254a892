import { Button } from "react-aria-components";
import { deleteRecords } from "../../editor/edits/delete-records.ts";
import { partsOf } from "../../editor/edits/sheets.ts";
import { firstViewport } from "../../editor/sheet-order.ts";
import type { Id } from "../../job/fields.ts";
import { ActButton } from "../ActButton.tsx";
import { useDesk, useSession } from "../desk-context.ts";
import { scaleState } from "../scale-state.ts";
import { counted } from "../words.ts";
import { CardPart } from "./CardFrame.tsx";
import { OfferedViews } from "./OfferedViews.tsx";

/** The parts of a sheet that have a scale of their own: each opens its card; another one is marked on the sheet. */
export function PartsPart({ sheet }: { readonly sheet: Id }) {
  const { session } = useDesk();
  const job = useSession((state) => state.job);
  const parts = partsOf(job, sheet);
  return (
    <CardPart title="Parts">
      <div className="rows">
        {parts.length > 0 && (
          <ul className="parts">
            {parts.map(([id, part]) => (
              <li key={id}>
                <Button
                  className="button small"
                  onPress={() => {
                    session.setSheet(sheet, id);
                    session.select({ table: "viewports", id });
                  }}
                >
                  {part.name}
                </Button>{" "}
                <span className="quiet">{scaleState(job, part).words}</span>
              </li>
            ))}
          </ul>
        )}
        <OfferedViews sheet={sheet} />
        <ActButton id="mark-viewport" />
      </div>
    </CardPart>
  );
}

/** Takes a part out, saying beforehand what goes with it. */
export function RemovePart({ id, sheet }: { readonly id: Id; readonly sheet: Id }) {
  const { session } = useDesk();
  const count = useSession(
    ({ job }) =>
      [job.areas, job.elements, job.storeyOutlines]
        .flatMap((table): { readonly viewport: Id }[] => Object.values(table))
        .filter(({ viewport }) => viewport === id).length,
  );
  return (
    <Button
      className="button bare"
      onPress={() => {
        const done = session.attempt(deleteRecords(session.getState().job, [{ table: "viewports", id }]));
        const main = firstViewport(session.getState().job, sheet);
        if (done && main !== null) session.select({ table: "viewports", id: main });
      }}
    >
      {count === 0
        ? "Take this part out"
        : `Take this part out, with ${counted(count, "thing traced on it", "things traced on it")}`}
    </Button>
  );
}
