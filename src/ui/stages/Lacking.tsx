import type { Stage } from "../../editor/stage.ts";
import { useStages } from "../use-stages.ts";

/** Everything the stage still lacks, beyond the one line its name carries. */
export function Lacking({ stage }: { readonly stage: Stage }) {
  const { lacking } = useStages()[stage];
  if (lacking.length < 2) return null;
  return (
    <ul className="lacking" aria-label="Still lacking">
      {lacking.slice(1).map((words) => (
        <li key={words}>{words}</li>
      ))}
    </ul>
  );
}
