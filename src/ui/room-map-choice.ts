import { hungWiring } from "../check/hanging-room.ts";
import type { Session } from "../editor/session.ts";
import type { View } from "./view.ts";

/** Shows the room map for the first of the job's sizes, or takes it away. */
export function turnRoomMap(session: Session, { store }: View): void {
  const shown = store.getState().roomMap;
  const [first] = hungWiring(session.getState().job);
  store.setState({
    roomMap: shown || !first ? null : { wiring: first.label, ceiling: null },
    said: shown ? "The room map is hidden." : `The room map shows how high ${first?.label ?? ""} may hang.`,
  });
}
