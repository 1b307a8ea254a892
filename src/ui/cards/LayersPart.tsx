import { Button } from "react-aria-components";
import { useStore } from "zustand";
import type { Id } from "../../job/fields.ts";
import { useDesk, useHost, useSession } from "../desk-context.ts";
import { TickRow } from "../fields/TickRow.tsx";
import { layersOn } from "../sheet-index-words.ts";
import { usePageSurvey } from "../use-page-survey.ts";
import { CardPart } from "./CardFrame.tsx";

/** The drawing layers on a sheet, each shown or hidden; nothing where its file has none. */
export function LayersPart({ sheet: id }: { readonly sheet: Id }) {
  const { view } = useDesk();
  const sheet = useSession((state) => state.job.sheets[id]);
  const drawing = useHost((state) => (sheet ? state.drawings[sheet.file.sha256] : undefined));
  const survey = usePageSurvey(id);
  const chosen = useStore(view.store, ({ layers }) => layers[id]);
  if (drawing?.is !== "open" || drawing.layers.length === 0) return null;
  // Where the page cannot be looked over, every layer of the file may be on it.
  const listed = survey ? layersOn(survey.layers, drawing.layers) : survey === null ? drawing.layers : undefined;
  const asFiled = drawing.layers.filter(({ shown }) => !shown).map((layer) => layer.id);
  const hidden = chosen ?? asFiled;
  const differs = hidden.length !== asFiled.length || hidden.some((layer) => !asFiled.includes(layer));
  const choose = (next: readonly string[]) =>
    view.store.setState(({ layers }) => ({ layers: { ...layers, [id]: next } }));
  return (
    <CardPart title="Layers of the drawing">
      {listed === undefined ? (
        <p className="quiet">They are being looked for.</p>
      ) : listed.length === 0 ? (
        <p className="quiet">Nothing on this sheet is on a layer.</p>
      ) : (
        <>
          <div className="ticks">
            {listed.map((layer) => (
              <TickRow
                key={layer.id}
                label={layer.name}
                isSelected={!hidden.includes(layer.id)}
                onChange={(on) => choose(on ? hidden.filter((other) => other !== layer.id) : [...hidden, layer.id])}
              />
            ))}
          </div>
          <p className="quiet">
            Points do not snap to what is hidden, and it is not followed. The choice lasts while the program is open and
            changes nothing on the issued sheet.
          </p>
          {differs && (
            <Button className="button small" onPress={() => choose(asFiled)}>
              As the file has them
            </Button>
          )}
        </>
      )}
    </CardPart>
  );
}
