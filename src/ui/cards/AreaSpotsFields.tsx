import { useState } from "react";
import { Button } from "react-aria-components";
import { addFoldLine, removeSpot, setFoldLine, setSpots } from "../../editor/edits/spots.ts";
import type { Id } from "../../job/fields.ts";
import type { SpotsShape } from "../../job/fold-lines.ts";
import type { FoldLine } from "../../job/schema.ts";
import { useDesk, useSystem } from "../desk-context.ts";
import { type Choice, ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { useAttempt } from "../use-attempt.ts";
import { foldChoices } from "../words.ts";

interface SpotsProps {
  readonly id: Id;
  readonly shape: SpotsShape;
}

/** The spots a deck lies through, each with its elevation, and the lines it folds along between them. */
export function AreaSpotsFields({ id, shape }: SpotsProps) {
  const { session } = useDesk();
  const system = useSystem();
  const attempt = useAttempt();
  const { spots } = shape;
  return (
    <>
      <ol className="spots" aria-label="Spots">
        {spots.map((spot, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a spot is known by its number
          <li key={index} className="spot">
            <LengthRow
              label={`Spot ${index + 1}`}
              value={spot.elevation}
              system={system}
              empty="Not recorded"
              onCommit={(elevation) =>
                attempt((job) =>
                  setSpots(
                    job,
                    id,
                    spots.with(index, { ...spot, elevation }),
                    spots.map((_, i) => i),
                  ),
                )
              }
            />
            <Button
              className="button small"
              aria-label={`Take out spot ${index + 1}`}
              isDisabled={spots.length <= 3}
              onPress={() => attempt((job) => removeSpot(job, id, index))}
            >
              Take out
            </Button>
          </li>
        ))}
      </ol>
      <div className="acts">
        <Button className="button small" onPress={() => session.start({ tool: "spots", area: id })}>
          Put more spots
        </Button>
        <Button className="button small" onPress={() => session.start({ tool: "spots", area: id, again: true })}>
          Put all spots again
        </Button>
      </div>
      {(spots.length > 3 || (shape.lines ?? []).length > 0) && <FoldLines id={id} shape={shape} />}
    </>
  );
}

/** The lines between spots, and one more by two numbers and a kind. */
function FoldLines({ id, shape }: SpotsProps) {
  const { session } = useDesk();
  const attempt = useAttempt();
  const { spots, lines = [] } = shape;
  const [kind, setKind] = useState<FoldLine["kind"]>("ridge");
  const [from, setFrom] = useState<string | null>(null);
  const [to, setTo] = useState<string | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const numbers = spots.map((_, i): Choice<string> => ({ id: `${i + 1}`, label: `Spot ${i + 1}` }));
  return (
    <>
      <p className="quiet">
        {lines.length === 0
          ? "It folds where the triangles drawn on the sheet say, unless you draw its ridges and valleys."
          : "It folds along these lines, and elsewhere where the triangles drawn on the sheet say."}
      </p>
      {lines.length > 0 && (
        <ul className="spots" aria-label="Lines between spots">
          {lines.map((line, index) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a line is known by its place in the list
            <li key={index} className="spot">
              <ChoiceRow
                label={`Spots ${line.between.join(" and ")}`}
                value={line.kind}
                options={foldChoices}
                onChange={(next) => attempt((job) => setFoldLine(job, id, index, next))}
              />
              <Button
                className="button small"
                aria-label={`Take out the line between spots ${line.between.join(" and ")}`}
                onPress={() => attempt((job) => setFoldLine(job, id, index, null))}
              >
                Take out
              </Button>
            </li>
          ))}
        </ul>
      )}
      <div className="triple">
        <ChoiceRow label="From" value={from} options={numbers} onChange={setFrom} placeholder="Spot" />
        <ChoiceRow label="To" value={to} options={numbers} onChange={setTo} placeholder="Spot" />
        <ChoiceRow label="Kind" value={kind} options={foldChoices} onChange={setKind} />
      </div>
      {refused !== null && (
        <p className="notice" role="alert">
          {refused}
        </p>
      )}
      <div className="acts">
        <Button
          className="button small"
          isDisabled={from === null || to === null}
          onPress={() => {
            const between = [Number(from), Number(to)] as const;
            const done = attempt((job) => addFoldLine(job, id, { between, kind }));
            setRefused(done.ok ? null : done.words);
            if (done.ok) setTo(null);
          }}
        >
          Add this line
        </Button>
        <Button className="button small" onPress={() => session.start({ tool: "fold-line", area: id, kind })}>
          Draw lines on the sheet
        </Button>
      </div>
    </>
  );
}
