import type { KeyboardEvent } from "react";
import { isSameFinding } from "../check/finding.ts";
import { inHand } from "../editor/said/said-of.ts";
import type { Selection } from "../editor/selection.ts";
import type { Session } from "../editor/session.ts";
import type { View } from "./view.ts";

/** Keys of the view itself, while the sheet has the focus. */
export const viewKeys: Readonly<Record<string, (view: View) => void>> = {
  "+": (view) => view.zoom(1.25),
  "=": (view) => view.zoom(1.25),
  "-": (view) => view.zoom(0.8),
  "0": (view) => view.fit(),
};

/** Brings the finding that an act has just selected into reading distance. */
export function showFinding(session: Session, view: View, before: Selection): void {
  const { selection, result } = session.getState();
  if (selection === before || selection === null || !("finding" in selection)) return;
  const finding = result?.findings.find((one) => isSameFinding(one, selection.finding));
  if (finding) view.goTo(finding.at, true);
}

/** Brings the suggestion that an act has just taken in hand into reading distance; false where it took none. */
export function showSaid(session: Session, view: View, before: string | null): boolean {
  const next = inHand(session.getState());
  if (!next || next.key === before) return false;
  view.goTo(next.at, true);
  return true;
}

/** What a length, a tag or a position begins with; a full stop goes from one to the next. */
const STARTS_TEXT = /^[0-9@±]$/;

/** A key on the sheet: first the session's, then the view's, else the browser's. */
export function keysForSheet(event: KeyboardEvent, session: Session, view: View): void {
  if (event.key === "Tab" || event.key === "F1") return;
  // A number can only be the beginning of something typed while a tool is in hand: it goes into the tool's field.
  const plain = !event.ctrlKey && !event.metaKey && !event.altKey;
  if (plain && STARTS_TEXT.test(event.key) && session.getState().asks.length > 0 && view.focusTyped()) return;
  const held = { shift: event.shiftKey, alt: event.altKey, ctrl: event.ctrlKey || event.metaKey };
  const { selection: before, said } = session.getState();
  if (session.key({ key: event.key, ...held })) {
    event.preventDefault();
    event.stopPropagation();
    const { crosshair } = session.getState();
    if (showSaid(session, view, said)) return;
    if (crosshair) view.goTo(crosshair);
    else showFinding(session, view, before);
    return;
  }
  if (held.ctrl || held.alt) return;
  const act = viewKeys[event.key];
  if (!act) return;
  event.preventDefault();
  act(view);
}
