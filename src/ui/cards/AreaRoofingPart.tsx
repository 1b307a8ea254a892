import { useMemo } from "react";
import { Button } from "react-aria-components";
import { adviceFor } from "../../check/advisories.ts";
import { rulesOfJob } from "../../check/rules-of-job.ts";
import { removeRoofing, setRoofing } from "../../editor/edits/roofing.ts";
import type { Id } from "../../job/fields.ts";
import type { Area } from "../../job/schema.ts";
import { findDeckProfile } from "../../trade/decks.ts";
import { useSession, useSystem } from "../desk-context.ts";
import { LengthRow } from "../fields/LengthRow.tsx";
import { PickRow } from "../fields/PickRow.tsx";
import { ReasonsTree } from "../ReasonsTree.tsx";
import { useAttempt } from "../use-attempt.ts";
import { flangeChoices } from "../words.ts";
import { AreaLayers } from "./AreaLayers.tsx";
import { CardPart } from "./CardFrame.tsx";

/** How the roofing is held down, and how far its fasteners reach below the deck: advice beside the code. */
export function AreaRoofingPart({ id, area }: { readonly id: Id; readonly area: Area }) {
  const system = useSystem();
  const attempt = useAttempt();
  const { roofing } = area;
  if (!roofing)
    return (
      <CardPart title="Roof fasteners">
        <p className="quiet">
          The code distance is a minimum. Record the fastener and what it goes through to see how far it reaches.
        </p>
        <Button className="button small" onPress={() => attempt((job) => setRoofing(job, id, {}))}>
          Record the roof fasteners
        </Button>
      </CardPart>
    );
  const fluted = findDeckProfile(area.deck.profile)?.material === "metal-corrugated";
  return (
    <CardPart title="Roof fasteners">
      <div className="rows">
        <LengthRow
          label="Length of the fastener below its head"
          value={roofing.fastener}
          system={system}
          empty="Not recorded"
          onCommit={(fastener) => attempt((job) => setRoofing(job, id, { fastener }))}
        />
        <AreaLayers
          layers={roofing.layers}
          legend="Layers under the fastener's head, down to the deck"
          onChange={(layers) => attempt((job) => setRoofing(job, id, { layers }))}
        />
        <LengthRow
          label={fluted ? "Thickness of the deck's sheet" : "Thickness of the deck"}
          value={roofing.deckThickness}
          system={system}
          empty={fluted ? "Not recorded" : "The deck's own"}
          onCommit={(deckThickness) => attempt((job) => setRoofing(job, id, { deckThickness }))}
        />
        {fluted && (
          <PickRow
            label="Goes through"
            value={roofing.flange}
            options={flangeChoices}
            onChange={(flange) => attempt((job) => setRoofing(job, id, { flange }))}
            note={
              roofing.flange === "bottom" ? "If the flute above it is empty, list the flute as a layer." : undefined
            }
          />
        )}
        <LengthRow
          label="Margin to be kept beyond the tip"
          value={roofing.margin}
          system={system}
          empty="None"
          onCommit={(margin) => attempt((job) => setRoofing(job, id, { margin }))}
        />
      </div>
      <Advice area={area} />
      <Button className="button bare small" onPress={() => attempt((job) => removeRoofing(job, id))}>
        Take the roof fasteners out
      </Button>
    </CardPart>
  );
}

function Advice({ area }: { readonly area: Area }) {
  const settings = useSession((state) => state.job.settings);
  const system = useSystem();
  const amended = useMemo(() => rulesOfJob({ settings }), [settings]);
  const advice = amended && adviceFor(area, amended, system);
  if (!advice) return null;
  return (
    <div role="status">
      <p className={advice.says === "within" ? "quiet" : "notice"}>
        <b>Advice, beside the code.</b> {advice.text}
      </p>
      <ReasonsTree reason={advice.reasons} openTo={0} />
    </div>
  );
}
