import { useMemo, useState } from "react";
import { Button } from "react-aria-components";
import { type LabelOrder, relabelled, renumber } from "../../editor/edits/renumber.ts";
import type { Picked } from "../../editor/selection.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { type Choice, ChoiceRow } from "../fields/ChoiceRow.tsx";

const orders: readonly Choice<LabelOrder>[] = [
  { id: "place", label: "By sheet and place", note: "In rows from the top, each from the left" },
  { id: "selection", label: "As they were selected" },
];
/** So many changes are shown before they are made; of more, how many. */
const SHOWN = 40;

/** Gives the labels of what is selected anew, once somebody has seen which become which. */
export function RenumberPart({ several }: { readonly several: readonly Picked[] }) {
  const [open, setOpen] = useState(false);
  return (
    <details className="card-part" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Renumber their labels</summary>
      {open && <Preview several={several} />}
    </details>
  );
}

function Preview({ several }: { readonly several: readonly Picked[] }) {
  const { session, view } = useDesk();
  const job = useSession((state) => state.job);
  const [order, setOrder] = useState<LabelOrder>("place");
  const changes = useMemo(
    () => relabelled(job, several, order).filter(({ from, to }) => from !== to),
    [job, several, order],
  );
  return (
    <>
      <ChoiceRow label="Order" value={order} options={orders} onChange={setOrder} />
      <p role="status">
        {changes.length === 0
          ? "All of them have that number already, or a label of a form of its own."
          : `${changes.length} of ${several.length} change. Reports issued before name the labels as they are now.`}
      </p>
      {changes.length > 0 && (
        <>
          <ol className="relabelled">
            {changes.slice(0, SHOWN).map(({ table, id, from, to }) => (
              <li key={`${table}/${id}`}>
                {from} → {to}
              </li>
            ))}
          </ol>
          {changes.length > SHOWN && <p className="quiet">and {changes.length - SHOWN} more.</p>}
          <div className="acts">
            <Button
              className="button small"
              onPress={() => {
                if (session.attempt(renumber(session.getState().job, several, order)))
                  view.store.setState({ said: "Renumbered." });
              }}
            >
              Renumber {changes.length}
            </Button>
          </div>
        </>
      )}
    </>
  );
}
