import type { HandedOn } from "../../issue/handed-on.ts";
import { HandOnButtons } from "./HandOnButtons.tsx";

const FORMS: readonly (readonly [string, HandedOn])[] = [
  ["Schedules as a workbook", { is: "schedule", form: "xlsx", of: "wiring" }],
  ["Wiring as CSV", { is: "schedule", form: "csv", of: "wiring" }],
  ["Deck areas as CSV", { is: "schedule", form: "csv", of: "decks" }],
];

/** The wiring and the deck areas as tables. */
export function SchedulesPart() {
  return (
    <section className="block">
      <h3>Schedules</h3>
      <p className="quiet">
        Every element with its tags, clearances and verdict; every deck area with what it is taken to be.
      </p>
      <HandOnButtons forms={FORMS} author="" />
    </section>
  );
}
