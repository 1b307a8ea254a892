import type { SessionState } from "../session.ts";
import { suggestions } from "./suggest.ts";
import { type Assumed, NOTHING_ASSUMED, type Suggestion } from "./suggestion.ts";

/** What of a session tells what the drawing says on the sheet shown. */
export type Seen = Pick<SessionState, "job" | "sheet" | "stage" | "words" | "assumed" | "said">;

const NONE: readonly Suggestion[] = [];
const ofStage = new WeakMap<readonly Suggestion[], Partial<Record<string, readonly Suggestion[]>>>();

/** What has been said for the texts of the sheet shown. */
export const assumedOf = ({ sheet, assumed }: Seen): Assumed =>
  sheet === null ? NOTHING_ASSUMED : (assumed[sheet] ?? NOTHING_ASSUMED);

/** What the drawing says on the sheet shown that the stage in hand is about; nothing at the other stages, or while it is not known. */
export function saidOf(state: Seen): readonly Suggestion[] {
  const { job, sheet, stage, words } = state;
  if (sheet === null || words?.sheet !== sheet || !(sheet in job.sheets) || (stage !== "roof" && stage !== "wiring"))
    return NONE;
  const all = suggestions(job, sheet, words.words, assumedOf(state));
  const parts = ofStage.get(all) ?? {};
  ofStage.set(all, parts);
  parts[stage] ??= all.filter(({ about }) => about === stage);
  return parts[stage];
}

/** The suggestion in hand, if it is still there. */
export const inHand = (state: Seen): Suggestion | undefined => saidOf(state).find(({ key }) => key === state.said);

/** Those that ask something of a person: not what is recorded already, nor what nothing near could mean. */
export const openOnes = (state: Seen): readonly Suggestion[] =>
  saidOf(state).filter(({ state }) => state !== "agrees" && state !== "loose");
