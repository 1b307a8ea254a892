import { useId, useMemo } from "react";
import { Button } from "react-aria-components";
import { decksAboveParted } from "../../check/decks-above.ts";
import type { Finding, Remedy } from "../../check/finding.ts";
import { remedyEdit } from "../../check/remedies/remedy-edit.ts";
import { clearanceText, intervalText } from "../../check/words.ts";
import { decksAboveWords } from "../../issue/decks-above-words.ts";
import { editionWords, stretchWords } from "../../issue/finding-sentence.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { ReasonsTree } from "../ReasonsTree.tsx";
import { VerdictSymbol } from "../VerdictSymbol.tsx";
import { capitalised, findingWords } from "../words.ts";
import { CardFrame, CardPart } from "./CardFrame.tsx";

/** The card of a finding: verdict, distances, what would make it go away, and every reason down to the values read. */
export function FindingCard({ finding }: { readonly finding: Finding }) {
  const { session } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const stretches = stretchWords(finding, system);
  const above = useMemo(() => decksAboveWords(job, decksAboveParted(job, finding.elementId)), [job, finding]);
  return (
    <CardFrame
      kind={finding.number === null ? "Finding" : `Finding ${finding.number}`}
      name={finding.element}
      tag={
        <span className="verdict-line">
          <VerdictSymbol verdict={finding.verdict} size="2.25rem" />
          <span>{findingWords(finding)}</span>
        </span>
      }
    >
      <Distances finding={finding} />
      {stretches && <p className="quiet">{capitalised(stretches)} along the run.</p>}
      {above.map((words) => (
        <p className="quiet" key={words}>
          {words}
        </p>
      ))}
      <p className="quiet">
        {finding.section ? `Section ${finding.section}, ` : ""}
        {editionWords(finding.edition)}
      </p>
      {finding.remedies.length > 0 && (
        <CardPart title="What would settle it">
          <ul className="remedies">
            {finding.remedies.map((remedy) => (
              <RemedyItem key={remedy.text} remedy={remedy} elementId={finding.elementId} />
            ))}
          </ul>
        </CardPart>
      )}
      <CardPart title="Reasons">
        <ReasonsTree reason={finding.reasons} openTo={2} />
      </CardPart>
      <div className="acts">
        <Button className="button small" onPress={() => session.select({ table: "elements", id: finding.elementId })}>
          Open {finding.element}
        </Button>
        {finding.areas[0] !== undefined && (
          <Button className="button small" onPress={() => session.select({ table: "areas", id: finding.areas[0]! })}>
            Open the deck area
          </Button>
        )}
      </div>
    </CardFrame>
  );
}

function Distances({ finding }: { finding: Finding }) {
  const system = useSystem();
  const { leastIn, intervalIn, verticalIn, requiredIn } = finding;
  const rows: (readonly [string, string])[] = [];
  if (leastIn !== null) rows.push(["Least distance", clearanceText(leastIn, system)]);
  const interval = intervalText(intervalIn, system);
  if (interval) rows.push(["With tolerances", interval]);
  if (requiredIn > 0) rows.push(["Required", clearanceText(requiredIn, system)]);
  if (verticalIn !== null) rows.push(["Vertical gap, by tape", clearanceText(verticalIn, system)]);
  if (rows.length === 0) return null;
  return (
    <dl className="figures">
      {rows.map(([term, value]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function RemedyItem({ remedy, elementId }: { remedy: Remedy; elementId: string }) {
  const { session, view } = useDesk();
  const textId = useId();
  const apply = () => {
    const edit = remedyEdit(session.getState().job, elementId, remedy);
    if (!edit) return;
    session.commit(edit);
    session.select({ table: "elements", id: elementId });
    view.store.setState({ said: `${edit.name}. Being checked again.` });
  };
  return (
    <li className="remedy">
      <span id={textId}>{remedy.text}</span>
      {remedy.byIn !== undefined && (
        <Button className="button small main" aria-describedby={textId} onPress={apply}>
          Apply
        </Button>
      )}
    </li>
  );
}
