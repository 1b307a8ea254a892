import { deckDepth } from "../../check/deck-surface.ts";
import { setDeck } from "../../editor/edits/areas.ts";
import type { Id } from "../../job/fields.ts";
import type { Area } from "../../job/schema.ts";
import { findDeckProfile } from "../../trade/decks.ts";
import { formatLength } from "../../units/format-length.ts";
import { useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { deckChoices } from "../trade-choices.ts";
import { useAttempt } from "../use-attempt.ts";
import { concreteChoices } from "../words.ts";
import { CardPart } from "./CardFrame.tsx";

/** What the deck is: its profile, its depth, and the concrete on it. */
export function AreaDeckPart({ id, area }: { readonly id: Id; readonly area: Area }) {
  const system = useSystem();
  const attempt = useAttempt();
  const { profile, depth, concreteCover } = area.deck;
  const table = findDeckProfile(profile)?.depth;
  const effective = deckDepth(area);
  return (
    <CardPart title="Deck">
      <div className="rows">
        <ChoiceRow
          label="Profile"
          value={findDeckProfile(profile) ? profile : null}
          options={deckChoices}
          placeholder={profile === "" ? "Not recorded" : `"${profile}" is not in the table`}
          onChange={(next) => attempt((job) => setDeck(job, id, { profile: next }))}
        />
        <LengthRow
          label="Depth, lowest surface to top of deck"
          value={depth}
          system={system}
          empty={table ? `${formatLength(table.value, system)} by the table` : "Not recorded"}
          note={
            effective === undefined ? "Needed where the elevation is given to a surface above the deck." : undefined
          }
          onCommit={(length) => attempt((job) => setDeck(job, id, { depth: length }))}
        />
        <PickRow
          label="Concrete on the deck"
          value={concreteCover.is}
          options={concreteChoices}
          onChange={(is) =>
            attempt((job) =>
              setDeck(job, id, {
                concreteCover:
                  is === "thickness"
                    ? { is, thickness: system === "metric" ? { value: 50, unit: "mm" } : { value: 2, unit: "in" } }
                    : { is },
              }),
            )
          }
        />
        {concreteCover.is === "thickness" && (
          <LengthRow
            label="Thickness, from the top of the corrugations"
            value={concreteCover.thickness}
            system={system}
            onCommit={(thickness) =>
              thickness && attempt((job) => setDeck(job, id, { concreteCover: { is: "thickness", thickness } }))
            }
          />
        )}
      </div>
    </CardPart>
  );
}
