import { useMemo } from "react";
import { Button } from "react-aria-components";
import { type Picked, pickedIn, pickedOf } from "../../editor/selection.ts";
import type { Job } from "../../job/schema.ts";
import { ActButton } from "../ActButton.tsx";
import { useDesk, useSession } from "../desk-context.ts";
import { shortened } from "../shortened.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";
import { RenumberPart } from "./RenumberPart.tsx";
import { SeveralElements } from "./SeveralElements.tsx";

/** The card of several things: what they have in common, and what is done to all of them in one step. */
export function SeveralCard({ several }: { readonly several: readonly Picked[] }) {
  const { session, view } = useDesk();
  const job = useSession((state) => state.job);
  const labels = useMemo(() => several.map((one) => labelOf(job, one)), [job, several]);
  const elements = useMemo(() => pickedIn({ several }, "elements"), [several]);
  const areas = useMemo(() => pickedIn({ several }, "areas"), [several]);
  const run = (act: () => void) => {
    act();
    // What is left of the selection has another card, or none: the keys go on at the sheet.
    if (pickedOf(session.getState().selection).length < 2) view.focusSheet();
  };
  return (
    <CardFrame kind="Selected together" name={`${several.length} selected`} tag={shortened(labels)}>
      {elements.length > 0 && <SeveralElements ids={elements} />}
      {areas.length > 0 && (
        <CardPart title={`Deck areas: ${areas.length}`}>
          <div className="acts">
            <ActButton id="settle-roof" />
            <ActButton id="settle-floor-above" />
            <ActButton id="settle-not-settled" />
          </div>
        </CardPart>
      )}
      <RenumberPart several={several} />
      <CardPart title="All of them">
        <div className="acts">
          <ActButton id="move-selected" />
          <ActButton id="join-runs" />
          <ActButton id="shrink-selection" />
        </div>
        <Button
          className="button bare"
          onPress={() => run(() => void session.key({ key: "Delete", shift: false, alt: false, ctrl: false }))}
        >
          Delete all {several.length}
        </Button>
      </CardPart>
    </CardFrame>
  );
}

const labelOf = (job: Job, { table, id }: Picked): string => job[table][id]?.label ?? id;
