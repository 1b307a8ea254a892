import { useState } from "react";
import { Button } from "react-aria-components";
import { clearanceText } from "../../check/words.ts";
import { registerViewport, unregisterViewport } from "../../editor/edits/registration.ts";
import type { Id } from "../../job/fields.ts";
import { sheetToBuilding } from "../../job/registration.ts";
import type { Viewport } from "../../job/schema.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { allProblemWords } from "../problem-words.ts";
import { useAttempt } from "../use-attempt.ts";
import { CardPart } from "./CardFrame.tsx";
import { GridPart } from "./GridPart.tsx";

/** How this sheet lies on another one, by points they share, and how well those points fit. */
export function RegistrationPart({ id, viewport }: { readonly id: Id; readonly viewport: Viewport }) {
  const { session } = useDesk();
  const attempt = useAttempt();
  const job = useSession((state) => state.job);
  const others = Object.entries(job.viewports).filter(([other]) => other !== id);
  const [chosen, setChosen] = useState<Id | null>(null);
  const to = viewport.registration?.to ?? chosen ?? (others.length === 1 ? others[0]![0] : null);
  if (others.length === 0) return null;
  return (
    <CardPart title="Lies on">
      <div className="rows">
        <ChoiceRow
          label="The sheet it shares points with"
          value={to}
          placeholder="Choose a sheet"
          options={others.map(([key, { name }]) => ({ id: key, label: name }))}
          onChange={setChosen}
        />
        {viewport.registration && (
          <SharedPoints id={id} pairs={viewport.registration.pairs} to={viewport.registration.to} />
        )}
        {to !== null && <GridPart id={id} to={to} />}
        <div className="acts">
          <Button
            className="button small"
            isDisabled={to === null}
            onPress={() => to !== null && session.start({ tool: "register", viewport: id, to })}
          >
            {viewport.registration ? "Pick the shared points again" : "Pick shared points"}
          </Button>
          {viewport.registration && (
            <Button className="button bare small" onPress={() => attempt((present) => unregisterViewport(present, id))}>
              Take back
            </Button>
          )}
        </div>
      </div>
    </CardPart>
  );
}

interface SharedPointsProps {
  readonly id: Id;
  readonly to: Id;
  readonly pairs: NonNullable<Viewport["registration"]>["pairs"];
}

function SharedPoints({ id, pairs, to }: SharedPointsProps) {
  const { session } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const fit = sheetToBuilding(job, id);
  if (!fit.ok) return <p className="notice">{allProblemWords(fit.problems)}</p>;
  return (
    <table className="shared">
      <caption className="unseen">Shared points and how far each lies from its partner</caption>
      <thead>
        <tr>
          <th scope="col">Point</th>
          <th scope="col">Off by</th>
          <td />
        </tr>
      </thead>
      <tbody>
        {fit.value.residuals.map(({ label, residual }, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a pair is known by its place
          <tr key={index}>
            <th scope="row">{label || `Point ${index + 1}`}</th>
            <td>{clearanceText(residual, system)}</td>
            <td>
              {pairs.length > 2 && (
                <Button
                  className="button bare small"
                  aria-label={`Remove ${label || `point ${index + 1}`}`}
                  onPress={() =>
                    session.attempt(registerViewport(session.getState().job, id, to, pairs.toSpliced(index, 1)))
                  }
                >
                  Remove
                </Button>
              )}
            </td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">Root mean square</th>
          <td>{clearanceText(fit.value.rms, system)}</td>
          <td />
        </tr>
      </tfoot>
    </table>
  );
}
