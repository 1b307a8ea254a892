import { useState } from "react";
import { Button } from "react-aria-components";
import { useStore } from "zustand";
import { plainOnes } from "../../editor/said/accept.ts";
import { acceptAllSaid } from "../../editor/said/said-acts.ts";
import { inHand, saidOf } from "../../editor/said/said-of.ts";
import { bringBack } from "../../editor/said/set-aside.ts";
import type { Suggestion } from "../../editor/said/suggestion.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { MirrorList } from "../MirrorList.tsx";
import { standingWords, stateWords } from "../said-words.ts";
import { counted } from "../words.ts";
import { SaidCard } from "./SaidCard.tsx";
import { SaidLacks } from "./SaidLacks.tsx";

const isOpen = ({ state }: Suggestion): boolean => state !== "agrees" && state !== "loose";

/** What the text of the sheet shown says of decks or of wiring, each to be taken by a person or left. */
export function SaidPart() {
  const { session, view } = useDesk();
  const system = useSystem();
  const job = useSession((state) => state.job);
  const sheet = useSession((state) => state.sheet);
  const list = useSession(saidOf);
  const chosen = useSession(inHand);
  const [whole, setWhole] = useState(false);
  if (sheet === null) return null;
  const rest = list.filter((one) => !isOpen(one));
  const shown = whole ? list : list.filter((one) => isOpen(one) || one === chosen);
  return (
    <section className="block said">
      <h3>What the drawing says</h3>
      <Told count={list.length} />
      <SaidLacks list={list} />
      <TakeAll list={list} />
      {shown.length > 0 && (
        <MirrorList
          label="What the drawing says"
          empty=""
          selected={chosen?.key ?? null}
          onSelect={(key) => {
            session.choose(key);
            const one = list.find((each) => each.key === key);
            if (one) view.goTo(one.at, true);
          }}
          items={shown.map((one) => {
            const stands = standingWords(job, one, system);
            return {
              id: one.key,
              name: one.text,
              mark: <SaidMark state={one.state} />,
              end: <span className={one.state === "disagrees" ? "lack" : ""}>{stateWords[one.state]}</span>,
              more: stands,
              said: `${one.text}, ${stateWords[one.state]}: ${stands}`,
            };
          })}
        />
      )}
      {chosen && <SaidCard said={chosen} />}
      {rest.length > 0 && <Rest rest={rest} whole={whole} onWhole={setWhole} />}
      <SetAside />
    </section>
  );
}

/** Why there is nothing, where there is nothing. */
function Told({ count }: { readonly count: number }) {
  const { view } = useDesk();
  const sheet = useSession((state) => state.sheet);
  const words = useSession((state) => (state.words?.sheet === state.sheet ? state.words : null));
  const lines = useStore(view.store, (state) => (state.lines?.sheet === sheet ? state.lines.is : "reading"));
  const told =
    words === null
      ? lines === "stopped"
        ? "The text of this sheet was not read."
        : "The text of this sheet is being read."
      : words.words.text === "outlines"
        ? "No text on this sheet: its letters are drawn as lines, and are not read."
        : words.words.text === "none"
          ? "No text on this sheet: it is a picture, or holds only lines."
          : count === 0
            ? "No elevation or size was found in the text of this sheet."
            : null;
  return (
    <div role="status">
      {told !== null && <p className="quiet">{told}</p>}
      {words === null && lines === "stopped" && (
        <Button
          className="button small"
          onPress={() => view.store.setState(({ linesAsked }) => ({ linesAsked: linesAsked + 1 }))}
        >
          Read it
        </Button>
      )}
    </div>
  );
}

function TakeAll({ list }: { readonly list: readonly Suggestion[] }) {
  const { session } = useDesk();
  const kinds = (["elevation", "size"] as const)
    .map((kind) => ({ kind, count: plainOnes(kind, list).length }))
    .filter(({ count }) => count > 1);
  if (kinds.length === 0) return null;
  return (
    <div className="acts">
      {kinds.map(({ kind, count }) => (
        <Button key={kind} className="button small" onPress={() => acceptAllSaid(session, kind)}>
          Take all {counted(count, kind)} that mean one thing
        </Button>
      ))}
    </div>
  );
}

/** What needs nothing: how many agree with what is recorded, how many stand by themselves. */
function Rest({
  rest,
  whole,
  onWhole,
}: {
  readonly rest: readonly Suggestion[];
  readonly whole: boolean;
  readonly onWhole: (whole: boolean) => void;
}) {
  const agree = rest.filter(({ state }) => state === "agrees").length;
  const words = [
    ...(agree > 0 ? [`${agree} ${agree === 1 ? "agrees" : "agree"} with what is recorded`] : []),
    ...(rest.length > agree ? [`${rest.length - agree} near nothing traced`] : []),
  ].join(", ");
  return (
    <p className="quiet">
      {words}.{" "}
      <Button className="button bare small" onPress={() => onWhole(!whole)}>
        {whole ? "Leave them out" : "List them too"}
      </Button>
    </p>
  );
}

function SetAside() {
  const { session } = useDesk();
  const sheet = useSession((state) => state.sheet);
  const count = useSession((state) => (sheet === null ? 0 : (state.job.sheets[sheet]?.setAside?.length ?? 0)));
  if (sheet === null || count === 0) return null;
  return (
    <p className="quiet">
      {counted(count, "text")} of this sheet set aside.{" "}
      <Button className="button bare small" onPress={() => session.attempt(bringBack(session.getState().job, sheet))}>
        Offer {count === 1 ? "it" : "them"} again
      </Button>
    </p>
  );
}

/** The mark on the sheet, small: two corners; four where it disagrees; open where it agrees or stands by itself. */
function SaidMark({ state }: { readonly state: Suggestion["state"] }) {
  const faint = state === "agrees" || state === "loose";
  return (
    <svg className={`said-mark${faint ? " faint" : ""}`} viewBox="0 0 20 14" width="20" height="14" aria-hidden="true">
      <path d="M4 6V11H9M11 3H16V8" fill="none" stroke="currentColor" strokeWidth="1.5" />
      {state === "disagrees" && <path d="M1 6V14H9M11 0H19V8" fill="none" stroke="currentColor" strokeWidth="1.5" />}
    </svg>
  );
}
