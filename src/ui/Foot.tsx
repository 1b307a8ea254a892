import { applyTo } from "../geometry/similarity.ts";
import { SHORT_CAUTION } from "../issue/words.ts";
import { formatLength } from "../units/format-length.ts";
import { inches } from "../units/quantity.ts";
import { useHost, useSession, useSystem } from "./desk-context.ts";
import { problemWords } from "./problem-words.ts";
import { useRegistration } from "./use-registration.ts";

/** The foot of the window: the caution, the place under the pointer or crosshair in the building, and whether the job is saved. */
export function Foot() {
  const save = useHost((state) => state.save);
  return (
    <footer className="foot">
      <span className="caution" title={SHORT_CAUTION}>
        {SHORT_CAUTION}
      </span>
      <Place />
      <span className={save?.is === "not-saved" ? "lack" : ""} role="status">
        {save === null
          ? ""
          : save.is === "saved"
            ? "Saved"
            : save.is === "saving"
              ? "Saving…"
              : problemWords(save.problem)}
      </span>
    </footer>
  );
}

function Place() {
  const aim = useSession((state) => state.aim);
  const crosshair = useSession((state) => state.crosshair);
  const viewport = useSession((state) => state.viewport);
  const system = useSystem();
  const registration = useRegistration(viewport);
  const at = crosshair ?? aim?.at;
  if (!at || !registration) return null;
  const [x, y] = applyTo(registration.sim, at);
  const show = (n: number) => formatLength(inches(n), system, { nearest: system === "metric" ? 1 : 0.5 });
  return (
    <span className="place">
      {show(x)}, {show(y)}
      {aim?.why ? ` · ${aim.why}` : ""}
    </span>
  );
}
