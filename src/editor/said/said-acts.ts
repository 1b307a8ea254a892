import type { Session } from "../session.ts";
import { acceptAll, acceptMeaning } from "./accept.ts";
import { inHand, openOnes, saidOf } from "./said-of.ts";
import { setAside } from "./set-aside.ts";
import type { Suggestion } from "./suggestion.ts";

/** Takes the next suggestion in hand, round and round; from none, the first or the last. */
export function nextSaid(session: Session, by: 1 | -1): void {
  const state = session.getState();
  const open = openOnes(state);
  const present = open.findIndex(({ key }) => key === state.said);
  const next = open[present === -1 ? (by === 1 ? 0 : open.length - 1) : (present + by + open.length) % open.length];
  if (next) session.choose(next.key);
}

/** Records one meaning of the suggestion in hand, by its place among them, and takes the one after it in hand. */
export const acceptSaid = (session: Session, meaning: number): void =>
  thenOn(session, (said) => {
    const which = said.meanings[meaning];
    return which !== undefined && session.attempt(acceptMeaning(session.getState().job, said, which));
  });

/** Sets the suggestion in hand aside for this job, and takes the one after it in hand. */
export const setAsideSaid = (session: Session): void =>
  thenOn(session, (said) => {
    const { job, sheet } = session.getState();
    return sheet !== null && session.attempt(setAside(job, sheet, said));
  });

/** Records all suggestions of a kind that mean exactly one thing, as one undo step. */
export function acceptAllSaid(session: Session, kind: Suggestion["kind"]): void {
  const state = session.getState();
  session.attempt(acceptAll(state.job, kind, saidOf(state)));
}

/** Does something with the suggestion in hand; done, the open one that came after it is next. */
function thenOn(session: Session, act: (said: Suggestion) => boolean): void {
  const before = session.getState();
  const said = inHand(before);
  if (!said || !act(said)) return;
  const keys = openOnes(before).map(({ key }) => key);
  const left = new Set(openOnes(session.getState()).map(({ key }) => key));
  const from = keys.indexOf(said.key);
  const next = [...keys.slice(from + 1), ...keys.slice(0, Math.max(0, from))].find((key) => left.has(key));
  session.choose(next ?? null);
}
