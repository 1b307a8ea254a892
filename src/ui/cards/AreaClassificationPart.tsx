import { useMemo } from "react";
import { deckAreas } from "../../check/deck-area.ts";
import { classifyArea } from "../../editor/edits/areas.ts";
import { followOutlines, speakFor } from "../../editor/edits/storey-outlines.ts";
import { area as sizeOf } from "../../geometry/polygon.ts";
import { storeyWords } from "../../issue/kinds/storey.ts";
import type { Id } from "../../job/fields.ts";
import { sheetToBuilding } from "../../job/registration.ts";
import type { Area } from "../../job/schema.ts";
import { outlinesOf, type SettledAs } from "../../job/storey-outline.ts";
import { ActButton } from "../ActButton.tsx";
import { byLabel } from "../by-label.ts";
import { useSession } from "../desk-context.ts";
import { PickRow } from "../fields/PickRow.tsx";
import { TextRow } from "../fields/TextRow.tsx";
import { TickRow } from "../fields/TickRow.tsx";
import { useAttempt } from "../use-attempt.ts";
import { classificationChoices, partWords } from "../words.ts";
import { CardPart } from "./CardFrame.tsx";

/** Whether a deck area is a roof: said directly, or by the outlines of the storeys above, and what comes of them. */
export function AreaClassificationPart({ id, area }: { readonly id: Id; readonly area: Area }) {
  const attempt = useAttempt();
  const { classification } = area;
  return (
    <CardPart title="Is it a roof?">
      <div className="rows">
        <PickRow
          label="Above the rooms below it"
          value={classification.is}
          options={classificationChoices}
          onChange={(is) =>
            attempt((job) => (is === "from-outline" ? followOutlines(job, id) : classifyArea(job, id, { is })))
          }
          note={classification.is === "not-settled" ? "Not settled withholds a verdict; it never passes." : undefined}
        />
        {classification.is === "from-outline" && <StoreysAbove id={id} area={area} />}
        <TextRow
          label="Because"
          value={classification.reason}
          placeholder="Not recorded"
          onCommit={(reason) => attempt((job) => classifyArea(job, id, { reason }))}
        />
        <TextRow
          label="Settled by"
          value={classification.by}
          placeholder="Not recorded"
          onCommit={(by) => attempt((job) => classifyArea(job, id, { by }))}
        />
      </div>
    </CardPart>
  );
}

/** Which storeys speak for the area, and what part of it each makes of it. */
function StoreysAbove({ id, area }: { readonly id: Id; readonly area: Area }) {
  const attempt = useAttempt();
  const storeys = useSession(({ job }) => job.storeyOutlines);
  const named = outlinesOf(area.classification);
  const { shares, missing } = useParts(id, area);
  return (
    <fieldset className="layers">
      <legend>Storeys above that speak for it</legend>
      {byLabel(storeys).map(([key, storey]) => (
        <TickRow
          key={key}
          label={`${storey.label}, ${storeyWords(storey)}`}
          isSelected={named.includes(key)}
          onChange={(speaks) => attempt((job) => speakFor(job, key, id, speaks))}
        />
      ))}
      {Object.keys(storeys).length === 0 && <p className="quiet">No storey above is outlined yet.</p>}
      {shares.length > 0 && <p role="status">{shares.join(", ")}.</p>}
      {missing.map((text) => (
        <p className="notice" key={text}>
          Missing: {text}
        </p>
      ))}
      <div className="acts">
        <ActButton id="outline-storey" />
      </div>
    </fieldset>
  );
}

/** How much of the area is roof, floor and not settled, in words, and what would settle the rest. */
function useParts(id: Id, area: Area): { readonly shares: readonly string[]; readonly missing: readonly string[] } {
  const job = useSession((state) => state.job);
  const { sheets, viewports, storeyOutlines, settings, storeys } = job;
  // biome-ignore lint/correctness/useExhaustiveDependencies: only these tables bear on it, not the whole job
  return useMemo(() => {
    const registered = sheetToBuilding(job, area.viewport);
    if (!registered.ok) return { shares: [], missing: [] };
    const decks = deckAreas(job, id, area, registered.value);
    const sizes = new Map<SettledAs, number>();
    for (const { classification, polygon } of decks)
      sizes.set(classification.is, (sizes.get(classification.is) ?? 0) + sizeOf(polygon));
    const whole = [...sizes.values()].reduce((sum, size) => sum + size, 0);
    const kinds = ["roof", "floor-above", "not-settled"] as const;
    return {
      shares: kinds.flatMap((is) => {
        const size = sizes.get(is);
        return size === undefined || whole === 0 ? [] : [`${partWords[is]} ${percent(size / whole)}`];
      }),
      missing: [
        ...new Set(decks.flatMap(({ classification }) => classification.missing?.map(({ text }) => text) ?? [])),
      ],
    };
  }, [sheets, viewports, storeyOutlines, settings, storeys, id, area]);
}

/** A share in whole hundredths; what is there is never said to be nothing, nor what is left to be nothing. */
const percent = (share: number): string =>
  share === 1 ? "100 %" : share < 0.01 ? "under 1 %" : share > 0.99 ? "over 99 %" : `${Math.round(share * 100)} %`;
