import { assumedOf } from "../../editor/said/said-of.ts";
import type { Lacking, Suggestion } from "../../editor/said/suggestion.ts";
import { useDesk, useSession } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { allRacewayChoices } from "../trade-choices.ts";
import { deckBasisChoices, tagBasisChoices } from "../words.ts";

/** What texts of this sheet leave out, each said once by a person; the notes of the drawing say it as a rule. Nothing is filled in before. */
export function SaidLacks({ list }: { readonly list: readonly Suggestion[] }) {
  const { session } = useDesk();
  const assumed = useSession(assumedOf);
  const storeys = useSession((state) => state.job.storeys);
  const lacked = new Set<Lacking>(
    list.filter(({ state }) => state !== "agrees").flatMap(({ meanings }) => meanings.flatMap(({ lacks }) => lacks)),
  );
  const asked = (what: Lacking): boolean => lacked.has(what) || assumed[what] !== null;
  if (!(["basis", "deckBasis", "datum", "type"] as const).some(asked)) return null;
  const datums = [
    { id: "project", label: "Project datum" },
    ...Object.entries(storeys).map(([id, { name }]) => ({ id: `storey ${id}`, label: `Finished floor of ${name}` })),
  ];
  const { datum } = assumed;
  return (
    <fieldset className="rows said-lacks">
      <legend>Where a text of this sheet does not say</legend>
      {asked("basis") && (
        <PickRow
          label="An elevation of wiring is of its"
          value={assumed.basis}
          options={tagBasisChoices}
          onChange={(basis) => session.assume({ basis })}
        />
      )}
      {asked("deckBasis") && (
        <ChoiceRow
          label="An elevation of a deck is given to"
          value={assumed.deckBasis}
          placeholder="Not said"
          options={deckBasisChoices}
          onChange={(deckBasis) => session.assume({ deckBasis })}
        />
      )}
      {asked("datum") && (
        <ChoiceRow
          label="It is counted from"
          value={datum === null ? null : datum.from === "project" ? "project" : `storey ${datum.storey}`}
          placeholder="Not said"
          options={datums}
          onChange={(id) =>
            session.assume({
              datum: id === "project" ? { from: "project" } : { from: "storey", storey: id.slice("storey ".length) },
            })
          }
        />
      )}
      {asked("type") && (
        <ChoiceRow
          label="A size without a type is of"
          value={assumed.type}
          placeholder="Not said"
          options={allRacewayChoices}
          onChange={(type) => session.assume({ type })}
        />
      )}
    </fieldset>
  );
}
