import { useStore } from "zustand";
import { CAUTIONS } from "../../issue/words.ts";
import { useDesk, useSession, useSystem } from "../desk-context.ts";
import { ChoiceRow } from "../fields/ChoiceRow.tsx";
import { LengthRow } from "../fields/LengthRow.tsx";
import { TickRow } from "../fields/TickRow.tsx";
import { turnRoomMap } from "../room-map-choice.ts";
import { useHungWiring } from "../use-room-map.ts";

/** The map of how high one size may hang, over the sheet: shown or not, for which size, above which ceiling. */
export function RoomMapPart() {
  const { session, view } = useDesk();
  const system = useSystem();
  const choice = useStore(view.store, (state) => state.roomMap);
  const none = useSession(({ job }) => Object.keys(job.areas).length === 0);
  const sizes = useHungWiring();
  if (none) return null;
  const change = (more: Partial<NonNullable<typeof choice>>) => {
    const shown = view.store.getState().roomMap;
    if (shown) view.store.setState({ roomMap: { ...shown, ...more } });
  };
  return (
    <section className="block">
      <h3>Room map</h3>
      <TickRow
        label="Show how high wiring may hang"
        isSelected={choice !== null}
        onChange={() => turnRoomMap(session, view)}
      />
      {choice && (
        <>
          <ChoiceRow
            label="Wiring"
            value={choice.wiring}
            options={sizes.map(({ label }) => ({ id: label, label }))}
            onChange={(wiring) => change({ wiring })}
          />
          <LengthRow
            label="Ceiling"
            value={choice.ceiling}
            system={system}
            onCommit={(ceiling) => change({ ceiling })}
            empty="None"
            note="Counted as the deck areas are. Where the wiring does not fit above it, the deck is hatched."
          />
          <p className="quiet">
            Along each line the centre may be as high as its number says, tolerances taken off; between two lines take
            the lower. {CAUTIONS[0]}
          </p>
        </>
      )}
    </section>
  );
}
