import { useEffect, useRef, useState } from "react";
import { Button } from "react-aria-components";
import { acceptSaid, setAsideSaid } from "../../editor/said/said-acts.ts";
import type { Suggestion } from "../../editor/said/suggestion.ts";
import { findRacewayKind } from "../../trade/raceways.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { readWords, targetWords } from "../said-words.ts";
import { useGoTo } from "../use-go-to.ts";

/** One thing the drawing says: what was read, what it comes to, for what; to be taken, shown, or set aside. */
export function SaidCard({ said }: { readonly said: Suggestion }) {
  const { session } = useDesk();
  const goTo = useGoTo();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const sheet = useSession((state) => state.sheet);
  const [picked, setPicked] = useState<{ readonly key: string; readonly place: number }>();
  const { meanings, key } = said;
  const own = useRef<HTMLFieldSetElement>(null);
  // Taken in hand on the sheet, its line in the list and what can be done with it are in sight here.
  // biome-ignore lint/correctness/useExhaustiveDependencies: another one in hand is the occasion
  useEffect(() => {
    const line = own.current?.closest(".said")?.querySelector("[role=option][aria-selected=true]");
    for (const part of [line, own.current]) part?.scrollIntoView({ block: "nearest" });
  }, [key]);
  const place = meanings.length === 1 ? 0 : picked?.key === key ? picked.place : null;
  const meaning = place === null ? undefined : meanings[place];
  const read = (meaning ?? meanings[0])?.read;
  const notes = [
    ...(meaning && !meaning.accept && meaning.lacks.length > 0
      ? ["Say above what it leaves out; then it can be taken."]
      : []),
    ...(read?.is === "wiring" && read.type === null && meaning?.accept && meaning.recorded?.is === "wiring"
      ? [`No type is written: ${findRacewayKind(meaning.recorded.type ?? "")?.short ?? meaning.recorded.type} stays.`]
      : []),
    ...(said.existing ? ["Of what stands already, it says."] : []),
    ...(said.approximate ? ["About so, it says: verify on site."] : []),
  ];
  return (
    <fieldset className="said-card" ref={own}>
      <legend className="unseen">{said.text}</legend>
      <dl className="figures">
        <div>
          <dt>Read</dt>
          <dd>{said.text}</dd>
        </div>
        {read && (
          <div>
            <dt>That is</dt>
            <dd>{readWords(job, read, system)}</dd>
          </div>
        )}
        {meaning?.recorded && (
          <div>
            <dt>
              Recorded{read?.is === "deck" && meaning.accept === null && meaning.stands === "other" ? " comes to" : ""}
            </dt>
            <dd>{readWords(job, meaning.recorded, system)}</dd>
          </div>
        )}
      </dl>
      {meanings.length > 1 && (
        <ChoiceRow
          label="It is for"
          value={place === null ? null : `${place}`}
          placeholder="Choose what it means"
          options={meanings.map(({ target, recorded }, i) => ({
            id: `${i}`,
            label: targetWords(job, target),
            note: recorded ? `Has ${readWords(job, recorded, system)}` : undefined,
          }))}
          onChange={(id) => setPicked({ key, place: Number(id) })}
        />
      )}
      {notes.length > 0 && <p className="quiet">{notes.join(" ")}</p>}
      <div className="acts">
        {meanings.length > 0 && (
          <Button
            className="button small main"
            isDisabled={!meaning?.accept}
            onPress={() => place !== null && acceptSaid(session, place)}
          >
            {meaning?.stands === "other" ? "Take it instead" : "Take it"} <kbd>Y</kbd>
          </Button>
        )}
        <Button className="button small" onPress={() => sheet !== null && goTo({ sheet, at: said.at })}>
          Show it
        </Button>
        <Button className="button small" onPress={() => setAsideSaid(session)}>
          Not this
        </Button>
      </div>
    </fieldset>
  );
}
