import { act } from "../../editor/acts.ts";
import { ActButton } from "../ActButton.tsx";
import { useSession } from "../desk-context.ts";

/** What wiring that is selected can be copied by. */
const IDS = ["parallel-runs", "copy-along", "copy-selected"] as const;

/** The acts that make others of what is selected, as buttons: those that make sense of it, and none while nothing is selected. */
export function SelectedActs() {
  // As one text, so that the drawer is drawn anew only when other acts make sense.
  const ids = useSession((state) => IDS.filter((id) => act(id).enabled(state)).join(" "));
  if (ids === "") return null;
  return ids.split(" ").map((id) => <ActButton key={id} id={id} />);
}
