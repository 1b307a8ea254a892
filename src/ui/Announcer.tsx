import { useEffect, useState } from "react";
import { useStore } from "zustand";
import { VERDICTS } from "../check/finding.ts";
import { applyTo } from "../geometry/similarity.ts";
import { formatLength } from "../units/format-length.ts";
import { inches } from "../units/quantity.ts";
import { useDesk, useSession, useSystem } from "./desk-context.ts";
import { useRegistration } from "./use-registration.ts";
import { verdictWords } from "./words.ts";

/** Read out by screen readers: where the crosshair is, what the check came to, what an act did. */
export function Announcer() {
  const { view } = useDesk();
  const said = useStore(view.store, (state) => state.said);
  return (
    <div className="unseen">
      <p aria-live="polite" data-live="said">
        {said}
      </p>
      <p aria-live="polite" data-live="check">
        <CheckWords />
      </p>
      <p aria-live="polite" data-live="selected">
        <SelectedWords />
      </p>
      <p aria-live="polite" data-live="crosshair">
        <CrosshairWords />
      </p>
    </div>
  );
}

/** How many are selected, while it is more than one. */
function SelectedWords() {
  const count = useSession(({ selection }) => (selection && "several" in selection ? selection.several.length : 0));
  return count === 0 ? null : `${count} selected`;
}

function CheckWords() {
  const result = useSession((state) => state.result);
  const [words, setWords] = useState("");
  useEffect(() => {
    if (!result) return;
    const parts = VERDICTS.filter((verdict) => result.counts[verdict] > 0).map(
      (verdict) => `${result.counts[verdict]} ${verdictWords[verdict].toLowerCase()}`,
    );
    setWords(parts.length === 0 ? "" : `Checked: ${parts.join(", ")}.`);
  }, [result]);
  return words;
}

function CrosshairWords() {
  const crosshair = useSession((state) => state.crosshair);
  const why = useSession((state) => state.aim?.why ?? null);
  const viewport = useSession((state) => state.viewport);
  const system = useSystem();
  const registration = useRegistration(viewport);
  if (!crosshair) return null;
  const suffix = why ? `, ${why}` : "";
  if (!registration) return `${crosshair.map((n) => Math.round(n)).join(", ")} on the sheet${suffix}`;
  const [x, y] = applyTo(registration.sim, crosshair);
  const show = (n: number) => formatLength(inches(n), system, { nearest: system === "metric" ? 10 : 1 });
  return `${show(x)} right, ${show(y)} up${suffix}`;
}
